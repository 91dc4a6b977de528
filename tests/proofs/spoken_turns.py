"""A thousand spoken turns: `python -m tests.proofs.spoken_turns [--child FACTOR] [--own-words TAKES] [--into FILE]`,
about ten minutes a person. With --into a run that was stopped goes on where its last whole practice ended; one file for
each condition.

Recorded people answer whole practices through the real ear, engine and gate in sample time, in the open ear. The
pupil they play makes a mistake of their own now and then, says the number once more where something else is said
back, 85 times in 100, and where nothing is said back at all. Counted is what nobody mends later: a right answer that
stands as a wrong one. With --child all is raised as from a shorter vocal tract, and the pupil's factor is learnt from
the answers that are kept, as in any practice. Of the three men who said each digit twenty times, sums are asked whose
answers are digits; with --own-words so many takes of each digit are theirs, after the vocal-tract factor was learnt
from the same, and are never said again.
"""

import argparse
import json
import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import asdict, dataclass, field, fields
from datetime import date
from functools import cache, partial
from pathlib import Path
from random import Random
from typing import Any

from saythesum.app.rehearsal.speaking_pupil import Saying, Utterance
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.taking import Difference
from saythesum.core.grids.grid import Grid, Order
from saythesum.core.meanings import Awaiting, Choice, Meaning, Number
from saythesum.core.records.rows import By, HeardId, RowId
from saythesum.core.sums import Bridge, Part
from saythesum.dialogue.turns.events import Entered
from saythesum.dialogue.turns.stack import Confirming, SayingBack
from saythesum.dialogue.tutor.plan import activity, planned
from saythesum.dialogue.tutor.progress import cell_of
from saythesum.hearing.embedded.own_words.comparison import Comparison
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.embedded.own_words.words_file import none_yet
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.recording import spoken_part
from saythesum.hearing.vocal_tract.factor import FACTORS, Evidence, VocalTract
from saythesum.ports import LISTENING_RATE_HZ, Samples
from saythesum.settings import Settings
from saythesum.speaking.voice import ToolVoice
from tests.by_sound import Practice, connected, tool_voice
from tests.talk import PRACTICE
from tests.tools.listening.conditions import CLEAN, Condition, child
from tests.tools.listening.other_people import timekeepers_numbers
from tests.tools.listening.own_words.speakers import HARD, takes_of
from tests.tools.listening.sounds import SEED, Clip, MissingError, womans_numbers

TURNS = 1000
OWN_MISTAKES = 0.15
CORRECTS = 0.85
THINKING_MS, OBJECTING_MS = 700, 250
SILENCE_MS = 8_000
"""After so long without an answer the pupil says the number again."""
MOST_SAYINGS = 3
"""Then it is typed."""


class Speaker:
    """Somebody who recorded numbers from 0 on, once or several times, and what listening has learnt of them."""

    def __init__(self, name: str, clips: list[Clip], condition: Condition = CLEAN, own_takes: int = 0) -> None:
        self.name = name
        self._condition, self._dice = condition, Random(SEED)
        self._takes: dict[int, list[Clip]] = {}
        for clip in clips:
            assert clip.said is not None
            self._takes.setdefault(clip.said, []).append(clip)
        self.highest = max(self._takes)
        self.engine = NeuralRecogniser()
        self.tract = VocalTract()
        self._evidence = Evidence()
        self.learnt: list[list[float]] = []
        """The scores of each answer at each factor, in the order in which they were learnt from."""
        if own_takes:
            self._learn_own_words(own_takes)

    def says(self, number: str) -> Samples:
        return self._sound(self._dice.choice(self._takes[int(number)]))

    @cache  # noqa: B019 - a speaker stays to the end
    def _sound(self, clip: Clip) -> Samples:
        return self._condition.of(clip)

    def learn_from(self, sound: Samples) -> None:
        """What was heard as an answer that was kept. Own words mean nothing with another factor, so that it stays."""
        if self.engine.own_words is None:
            self.learn(self.engine.log_probabilities(sound, Awaiting.NUMBER, FACTORS))

    def learn(self, scores: list[float]) -> None:
        self.learnt.append(scores)
        self._evidence = self._evidence.with_answer(scores)
        self.tract = self.tract.after(self._evidence)
        self.engine.vocal_tract_factor = self.tract.factor

    def _learn_own_words(self, count: int) -> None:
        said = [(number, takes.pop(self._dice.randrange(len(takes)))) for number, takes in self._takes.items()
                for _ in range(count)]  # fmt: skip
        spoken = ((number, spoken_part(self._sound(clip))) for number, clip in said)
        sounds = [(number, sound) for number, sound in spoken if len(sound)]
        for _, sound in sounds:
            self.learn(self.engine.log_probabilities(sound, Awaiting.NUMBER, FACTORS))
        own = none_yet(self.tract.factor)
        for number, sound in sounds:
            came = own.with_take(number, self.engine.frames(sound), on=date(2031, 1, 6))
            own = came if isinstance(came, OwnWords) else own
        self.engine.own_words = Comparison(own)


@dataclass
class Turns:
    """What came of all turns of one speaker."""

    spoken: int = 0
    said_again: int = 0
    """Nothing had come of it."""
    typed: int = 0
    corrected: int = 0
    kept: int = 0
    """Whole answers and totals that stand."""
    marked_wrong: list[str] = field(default_factory=list)
    """Right answers that stand as wrong ones, in words, with what the row says of its own hearing."""
    marked_right: int = 0
    """Wrong answers that stand as right ones."""

    def __add__(self, other: "Turns") -> "Turns":
        return Turns(**{part.name: getattr(self, part.name) + getattr(other, part.name) for part in fields(Turns)})


class SpokenPractice:
    """One practice of twelve cells by one speaker."""

    def __init__(self, voice: ToolVoice, speaker: Speaker, seed: int, turns: Turns) -> None:
        self._dice = Random(seed)
        self._speaker, self._turns = speaker, turns
        self._meant: dict[str, int] = {}
        self._lines: list[dict[str, Any]] = []
        self._last = self._sayings = 0
        self._answered: RowId | None = None
        self._practice = Practice(voice, self._replies(), speaker.says, speaker.engine)
        grid = _grid(self._dice, speaker.highest)
        connected(self._practice, planned(PRACTICE, [activity(grid, seed)], Settings()), self._note)

    def run(self) -> None:
        self._practice.begin()
        while not self._practice.runner.finished:
            self._pass_turn()
            if self._is_silent() and not self._practice.runner.finished:
                self._after_silence()
        self._count()

    def _pass_turn(self) -> None:
        spoken = self._turns.spoken
        self._practice.pass_until(lambda: self._turns.spoken > spoken or self._is_silent())

    def _replies(self) -> Iterator[Saying]:
        while True:
            yield self._reply()

    def _reply(self) -> Saying:
        state = self._practice.state
        match state.talk.topics[-1]:
            case SayingBack(number=number):
                if number.value == self._last or self._dice.random() >= CORRECTS:
                    return ()
                self._turns.corrected += 1
                return self._say(self._last, OBJECTING_MS)
            case Confirming():
                return ()
        ask = state.progress.ask
        assert ask is not None
        if ask.id != self._answered:  # else it is to be said once more
            self._answered = ask.id
            self._last = self._answer_to(state.plan.exercise_at(cell_of(ask)), ask.part)
        return self._say(self._last, THINKING_MS)

    def _answer_to(self, asked: Exercise, part: Part) -> int:
        if part is Part.WHOLE and self._dice.random() < OWN_MISTAKES:
            return self._dice.choice(_own_mistakes(asked, self._speaker.highest))
        return asked.answer_to(part)

    def _say(self, value: int, after_ms: int) -> Saying:
        """Nothing, where the speaker never recorded it: it is typed then."""
        if value > self._speaker.highest:
            self._sayings = MOST_SAYINGS
            return ()
        self._turns.spoken += 1
        self._sayings = 1
        return (Utterance(str(value), after_ms),)

    def _is_silent(self) -> bool:
        practice = self._practice
        last = max(practice.pupil.end, practice.tool.end)
        return practice.is_listening and practice.clock.samples > last + SILENCE_MS * LISTENING_RATE_HZ // 1000

    def _after_silence(self) -> None:
        """Yes or no goes by keys; a number is said again, and typed in the end."""
        topic = self._practice.state.talk.topics[-1]
        if isinstance(topic, Confirming):
            self._type(Choice(topic.number.value == self._last))
        elif self._sayings < MOST_SAYINGS:
            self._sayings += 1
            self._turns.spoken += 1
            self._turns.said_again += 1
            self._practice.overheard(self._speaker.says(str(self._last)))
        else:
            self._turns.typed += 1
            self._type(Number(self._last))

    def _type(self, meaning: Meaning) -> None:
        now_ms = self._practice.clock.since_start_ms()
        self._practice.happen(Entered(meaning, "", By.KEYS, now_ms, now_ms, HeardId(f"key-{now_ms}")))

    # ---- what came of it

    def _note(self, text: str) -> None:
        line = json.loads(text)
        self._lines.append(line)
        if line["kind"] == "heard":
            self._meant[line["id"]] = self._last
        elif line["kind"] == "answer" and line["by"] == "voice":
            self._speaker.learn_from(self._practice.heard_sounds[line["heard"]])

    def _count(self) -> None:
        void = {line["of"] for line in self._lines if line["kind"] == "void"}
        for line in self._lines:
            if line["kind"] == "answer" and line["part"] in ("whole", "total") and line["id"] not in void:
                self._count_kept(line)

    def _count_kept(self, answer: dict[str, Any]) -> None:
        said = self._meant[answer["heard"]]
        self._turns.kept += 1
        self._turns.marked_right += answer["given"] == answer["right_answer"] != said
        if said == answer["right_answer"] != answer["given"]:
            hearing = f"certainty {answer['certainty']}, close to {answer['close_to']}"
            self._turns.marked_wrong.append(f"{said} stands as {answer['given']}, {hearing}")


def _grid(dice: Random, highest: int) -> Grid:
    """Four rows and three amounts whose answers the speaker can say; digits are what is left over."""
    if highest < 10:
        amounts = tuple(sorted(dice.sample(range(6, 10), 3)))
        starts = tuple(dice.sample(range(11, 16), 4))
        return Grid("Rows of oars", starts, amounts, Order.ROWS, operations=(Difference.operation,) * len(amounts))
    starts = tuple(dice.sample(range(12, highest - 8), 4))
    return Grid("Rows of oars", starts, tuple(sorted(dice.sample(range(2, 10), 3))), Order.ROWS)


def _own_mistakes(asked: Exercise, highest: int) -> list[int]:
    """A ten lost, one short, one over, stopped at the ten."""
    stopped = asked.next_ten if isinstance(asked, Bridge) else asked.total
    wrong = (asked.total - 10, asked.total - 1, asked.total + 1, stopped)
    return [value for value in wrong if 0 <= value <= highest and value != asked.total]


def measured(voice: ToolVoice, speaker: Speaker, turns: int, kept: Path | None = None) -> Turns:
    """Of whole practices, until at least so many turns were spoken.

    Each practice is told when it is over. `kept`: a file to which it is added, a line each; practices that stand there
    already are taken from it, with what was learnt in them.
    """
    came, seed = Turns(), 0
    for line in _kept_lines(kept):
        if line["speaker"] == speaker.name:
            came, seed = came + Turns(**line["turns"]), seed + 1
            for scores in line["learnt"]:
                speaker.learn(scores)
    while came.spoken < turns:
        practice, learnt_before = Turns(), len(speaker.learnt)
        SpokenPractice(voice, speaker, seed, practice).run()
        came, seed = came + practice, seed + 1
        print(f"{speaker.name}: {came.spoken} of {turns} turns, {len(came.marked_wrong)} marked wrong", flush=True)
        if kept:
            line = {"speaker": speaker.name, "turns": asdict(practice), "learnt": speaker.learnt[learnt_before:]}
            with kept.open("a", encoding="utf-8") as lines:
                lines.write(f"{json.dumps(line)}\n")
    return came


def _kept_lines(kept: Path | None) -> list[dict[str, Any]]:
    if kept is None or not kept.exists():
        return []
    return [json.loads(line) for line in kept.read_text(encoding="utf-8").splitlines()]


PEOPLE: dict[str, Callable[[], list[Clip]]] = {
    "woman": womans_numbers,
    "timekeeper": timekeepers_numbers,
    **{name: partial(takes_of, name) for name in HARD},
}
"""Of the last, each digit was recorded twenty times."""


def main() -> int:
    reader = argparse.ArgumentParser(description="A thousand spoken turns of each recorded person.")
    reader.add_argument("--turns", type=int, default=TURNS, help="spoken by each person")
    reader.add_argument("--child", type=float, metavar="FACTOR", help="raised by it, and the pupil's factor is learnt")
    reader.add_argument(
        "--own-words", type=int, default=0, metavar="TAKES", help="of each digit, of those who have any"
    )
    reader.add_argument("--person", choices=PEOPLE, action="append", help="only this one")
    reader.add_argument(
        "--into", type=Path, metavar="FILE", help="each practice is kept there, and a later run goes on"
    )
    asked = reader.parse_args()
    condition = child(asked.child) if asked.child else CLEAN
    with tempfile.TemporaryDirectory() as cache, tool_voice(Path(cache)) as voice:
        try:
            for name in asked.person or PEOPLE:
                speaker = Speaker(name, PEOPLE[name](), condition, asked.own_words if name in HARD else 0)
                _tell(speaker, measured(voice, speaker, asked.turns, asked.into))
        except MissingError as missing:
            print(missing)
            return 3
    return 0


def _tell(speaker: Speaker, came: Turns) -> None:
    print(f"{speaker.name}: {came.spoken} spoken turns, factor learnt {speaker.tract.factor};")
    print(f"   said again: {came.said_again} after silence, {came.corrected} after something else was said back;")
    print(f"   {came.typed} typed; {came.kept} whole answers stand;")
    print(f"   right ones that stand as wrong: {len(came.marked_wrong)}; ", end="")
    print(f"wrong ones that stand as right: {came.marked_right}.")
    for told in came.marked_wrong:
        print(f"   {told}", flush=True)


if __name__ == "__main__":
    sys.exit(main())
