"""The speakers with many takes of each digit, each as heard in a condition at the factor that was learnt there."""

import json
import os
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from random import Random

from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.recording import spoken_part
from saythesum.hearing.vocal_tract.factor import Evidence, VocalTract
from saythesum.ports import Samples
from tests.tools.listening.conditions import CLEAN, Condition, child
from tests.tools.listening.factor import FIRST
from tests.tools.listening.own_words.sayings import Saying, heard, keep, kept, scores
from tests.tools.listening.sets import speakers_folder
from tests.tools.listening.sounds import SEED, Clip, MissingError, speaker

HARD, CHILD = ("nicolas", "george", "lucas"), 1.35
CONDITIONS = (CLEAN, child(CHILD))


@dataclass(frozen=True, slots=True, eq=False)
class Speaker:
    name: str
    condition: str
    factor: float
    """Learnt from their first answers, as in a practice."""
    sayings: list[Saying]


def heard_speakers(recordings: Path, into: Path) -> Iterator[Speaker]:
    """Each in each condition; what has been heard stands in `into`. Raises MissingError without the recordings."""
    for condition in CONDITIONS:
        for name in HARD:
            yield heard_speaker(takes_of(name, recordings), name, condition, into)


def heard_speaker(clips: list[Clip], name: str, condition: Condition, into: Path) -> Speaker:
    """First as they are; and once more where a factor is learnt."""
    at_once = _sayings(clips, name, condition, 1.0, into)
    factor = _factor(clips, condition, at_once, into / f"{name}-{_plain(condition.name)}-scores.json")
    sayings = at_once if factor == 1.0 else _sayings(clips, name, condition, factor, into)
    return Speaker(name, condition.name, factor, [saying for saying in sayings if saying.frames is not None])


def takes_of(name: str, recordings: Path | None = None) -> list[Clip]:
    """All that the speaker said. Raises MissingError where that is not on this machine."""
    recordings = recordings or speakers_folder()
    home = next((folder for folder in recordings.rglob(name) if folder.is_dir()), None)
    if home is None:
        raise MissingError(f"The recordings of {name} are missing in {recordings}")
    return speaker(home)


def _sayings(clips: list[Clip], name: str, condition: Condition, factor: float, into: Path) -> list[Saying]:
    file = f"{name}-{_plain(condition.name)}-{factor}"
    sayings = kept(into, file)
    if sayings is None:
        with ProcessPoolExecutor(os.cpu_count()) as cores:
            tasks = [cores.submit(_heard, name, clip, condition.name, factor) for clip in clips]
            sayings = [task.result() for task in tasks]
        keep(into, file, sayings)
    return sayings


def _factor(clips: list[Clip], condition: Condition, sayings: list[Saying], file: Path) -> float:
    """From the first answers that are taken, whatever for."""
    if condition is CLEAN:
        return 1.0  # grown-ups are heard as they are
    if not file.exists():
        with ProcessPoolExecutor(os.cpu_count()) as cores:
            tasks = [(clip.name, cores.submit(_scores, clip, condition.name)) for clip in clips]
            file.write_text(json.dumps([(name, task.result()) for name, task in tasks]), encoding="utf-8")
    each = json.loads(file.read_text(encoding="utf-8"))
    tract, evidence = VocalTract(), Evidence()
    for place in Random(SEED).sample(range(len(clips)), min(FIRST, len(clips) // 3)):
        if each[place][1] and sayings[place].second.is_taken:
            evidence = evidence.with_answer(each[place][1])
            tract = tract.after(evidence)
    return tract.factor


def _heard(name: str, clip: Clip, condition: str, factor: float) -> Saying:
    engine = _engine()
    engine.vocal_tract_factor = factor
    return heard(engine, name, clip, condition, _spoken(clip, condition))


def _scores(clip: Clip, condition: str) -> list[float] | None:
    spoken = _spoken(clip, condition)
    return scores(_engine(), spoken) if len(spoken) else None


def _spoken(clip: Clip, condition: str) -> Samples:
    return spoken_part(next(each for each in CONDITIONS if each.name == condition).of(clip))


@cache
def _engine() -> NeuralRecogniser:
    return NeuralRecogniser()


def _plain(name: str) -> str:
    return name.replace(" ", "_")
