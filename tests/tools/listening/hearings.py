"""What the engine made of each clip in each condition: heard on all cores, and kept as lines of JSON.

The scripts that choose limits, calibrate and look for confusions read those lines, so that nothing is heard twice.
"""

import json
import os
import time
from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, TypeAlias

from saythesum.core.meanings import Awaiting, Choice, Command, Given, Meaning, Number
from saythesum.hearing.confidence.certainty import best_meaning
from saythesum.hearing.confidence.gate import Judged, Verdict, judged
from saythesum.hearing.embedded.moonshine import ENCODER_NAME, model_folder
from saythesum.hearing.embedded.recogniser import NeuralRecogniser, shipped_second_opinion
from saythesum.hearing.embedded.second_opinion import SecondOpinionModel
from saythesum.hearing.recording import spoken_part
from saythesum.ports import Hearing, Hypothesis, Samples, SecondOpinion
from tests.tools.listening.conditions import CONDITIONS
from tests.tools.listening.sets import Set
from tests.tools.listening.sounds import Clip, MissingError


@dataclass(frozen=True, slots=True)
class Answer:
    """One clip in one condition, and what was heard."""

    set: str
    voice: str
    clip: str
    said: int | None
    condition: str
    hearing: Hearing
    ms: float
    """Of one core's time, to hear it; finding speech is not counted."""

    @property
    def judged(self) -> Judged:
        return judged(self.hearing, Awaiting.NUMBER)

    @property
    def is_right(self) -> bool:
        """The likeliest meaning of all is what was said, whatever the gate makes of it."""
        best = best_meaning(self.hearing)
        return best is not None and self._is_said(best.meaning)

    @property
    def is_taken(self) -> bool:
        return self.judged.verdict is Verdict.TAKEN

    @property
    def is_taken_wrongly(self) -> bool:
        return self.is_taken and not self._is_said(self.judged.heard)

    def _is_said(self, meaning: Meaning | None) -> bool:
        return isinstance(meaning, Number) and meaning.value == self.said


def heard(
    sets: Iterable[Set], conditions: Sequence[str], every: int = 1, opinions: Path | None = None
) -> Iterator[tuple[Set, list[Answer]]]:
    """Set after set; one that is not on this machine is told of. `every`: only each so many-th clip of a set.

    `opinions`: a folder of second opinions. VOICE.npz is asked about that voice, which it has not heard.
    """
    with ProcessPoolExecutor(os.cpu_count()) as cores:
        waiting: list[tuple[Set, list[Future[list[Answer]]]]] = []
        for each in sets:
            try:
                clips = list(each.clips())[::every]
            except MissingError as missing:
                print(f"{each.name}: left out. {missing}")
                continue
            waiting.append((each, [cores.submit(_answers, each.name, clip, conditions, opinions) for clip in clips]))
        for each, tasks in waiting:
            yield each, [answer for task in tasks for answer in task.result()]


def _answers(set_name: str, clip: Clip, conditions: Sequence[str], opinions: Path | None) -> list[Answer]:
    """In a process of its own, with an engine of its own."""
    return [_answer(set_name, clip, name, opinions) for name in conditions]


def _answer(set_name: str, clip: Clip, condition: str, opinions: Path | None) -> Answer:
    sound = next(each for each in CONDITIONS if each.name == condition).of(clip)
    engine = _engine()
    if opinions:
        engine.second_opinion = _opinion(opinions / f"{clip.voice}.npz")
    return answered(engine, set_name, clip, condition, spoken_part(sound))


def answered(engine: NeuralRecogniser, set_name: str, clip: Clip, condition: str, spoken: Samples) -> Answer:
    """`spoken`: the part of the clip's sound in which somebody speaks, in that condition."""
    begin = time.thread_time()
    hearing = Hearing((), "", 0.0, is_speech=False)
    if len(spoken):
        engine.open(Awaiting.NUMBER)
        engine.feed(spoken)
        hearing = engine.close()
    return Answer(
        set_name, clip.voice, clip.name, clip.said, condition, hearing, ms=(time.thread_time() - begin) * 1000
    )


@cache
def _opinion(path: Path) -> SecondOpinionModel | None:
    return SecondOpinionModel(path, model_folder() / ENCODER_NAME) if path.exists() else shipped_second_opinion()


@cache
def _engine() -> NeuralRecogniser:
    return NeuralRecogniser()


def written(answer: Answer) -> str:
    """One line of JSON."""
    hearing = answer.hearing
    return json.dumps(
        {
            "set": answer.set,
            "voice": answer.voice,
            "clip": answer.clip,
            "said": answer.said,
            "condition": answer.condition,
            "ms": round(answer.ms),
            "ranked": _ranking_written(hearing.ranked),
            "free_text": hearing.free_text,
            "free": round(hearing.free_log_probability, 3),
            "inside": _ranking_written(hearing.inside),
            "is_speech": hearing.is_speech,
            "second": _second_written(hearing.second),
        },
        ensure_ascii=False,
    )


def read(path: Path) -> list[Answer]:
    with path.open(encoding="utf-8") as lines:
        return [answer_read(json.loads(line)) for line in lines]


def answer_read(line: dict[str, Any]) -> Answer:
    hearing = Hearing(
        _ranking_read(line["ranked"]),
        line["free_text"],
        line["free"],
        inside=_ranking_read(line["inside"]),
        is_speech=line["is_speech"],
        second=_second_read(line.get("second")),
    )
    return Answer(line["set"], line["voice"], line["clip"], line["said"], line["condition"], hearing, ms=line["ms"])


Written: TypeAlias = tuple[list[tuple[int | str | bool | None, float]], float]


def _second_written(second: SecondOpinion | None) -> Written | None:
    """The frames are not kept: whoever wants them hears the clip again."""
    if second is None:
        return None
    scores = [(_meaning_written(meaning), round(score, 3)) for meaning, score in second.log_probabilities.items()]
    return scores, round(second.of_others, 3)


def _second_read(second: Written | None) -> SecondOpinion | None:
    if second is None:
        return None
    scores, of_others = second
    return SecondOpinion({_meaning_read(meaning): score for meaning, score in scores}, of_others)


def _ranking_written(ranking: tuple[Hypothesis, ...]) -> list[tuple[int | str | bool | None, float]]:
    return [(_meaning_written(each.meaning), round(each.log_probability, 3)) for each in ranking]


def _ranking_read(ranking: list[tuple[int | str | bool | None, float]]) -> tuple[Hypothesis, ...]:
    return tuple(Hypothesis(_meaning_read(meaning), score) for meaning, score in ranking)


def _meaning_written(meaning: Meaning | None) -> int | str | bool | None:
    match meaning:
        case Number(value=value):
            return value
        case Given(command=command):
            return command.value
        case Choice(yes=yes):
            return yes
    return None


def _meaning_read(meaning: int | str | bool | None) -> Meaning | None:
    match meaning:
        case bool():
            return Choice(meaning)
        case int():
            return Number(meaning)
        case str():
            return Given(Command(meaning))
    return None
