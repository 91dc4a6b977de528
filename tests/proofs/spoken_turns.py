"""A thousand spoken turns: `python -m tests.proofs.spoken_turns`, about five minutes.

Two recorded people answer whole practices through the real ear, engine and gate in sample time, with the open ear of
a headset. The pupil they play makes a mistake of their own now and then, says the number once more where something
else is said back, 85 times in 100, and where nothing is said back at all. Counted is what nobody mends later: a right
answer that stands as a wrong one.
"""

import argparse
import json
import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from random import Random

import numpy as np

from saythesum.app.made_up_pupils import Saying, Utterance
from saythesum.app.tool_voice import ToolVoice
from saythesum.core.grids import Grid, Order
from saythesum.core.rows import By, HeardId
from saythesum.core.sums import Part, Sum
from saythesum.dialogue.events import Entered
from saythesum.dialogue.heard import Choice
from saythesum.dialogue.plan import planned
from saythesum.dialogue.progress import cell_of
from saythesum.dialogue.topics import Confirming, SayingBack
from saythesum.ports import LISTENING_RATE_HZ, Samples
from saythesum.settings import Settings
from tests.by_sound import Practice, connected, tool_voice
from tests.listening.sounds import MissingError, sound_file, womans_number
from tests.talk import PRACTICE


def mans_number(value: int) -> Samples:
    p = Path("/usr/share/saytime")
    if value <= 20 or value % 10 == 0:
        return sound_file(p / f"{value}.au")
    return np.concatenate([sound_file(p / f"{value - value % 10}.au"), sound_file(p / f"{value % 10}.au")])


TURNS = 1000
OWN_MISTAKES = 0.15
CORRECTS = 0.85
THINKING_MS, OBJECTING_MS = 700, 250
SILENCE_MS = 8_000
"""After so long without an answer the pupil says the number again."""


@dataclass(frozen=True, slots=True)
class Speaker:
    name: str
    highest: int
    """The largest number that can be put together from what was recorded."""
    number: Callable[[int], Samples]


@dataclass
class Turns:
    """What came of all turns of one speaker."""

    spoken: int = 0
    said_again: int = 0
    """Nothing had come of it."""
    corrected: int = 0
    marked_wrong: list[str] = field(default_factory=list)
    """Right answers that stand as wrong ones, in words, with what the row says of its own hearing."""
    marked_right: int = 0
    """Wrong answers that stand as right ones."""
    kept: int = 0
    """Whole answers and totals that stand."""


class SpokenPractice:
    """One practice of twelve cells by one speaker."""

    def __init__(self, voice: ToolVoice, speaker: Speaker, seed: int, turns: Turns) -> None:
        self._dice = Random(seed)
        self._speaker, self._turns = speaker, turns
        self._meant: dict[str, int] = {}
        self._lines: list[dict[str, object]] = []
        self._last = 0
        self._asked_before: object = None
        self.practice = Practice(voice, self._replies(), lambda text: speaker.number(int(text)))
        grid = _grid(self._dice, speaker.highest)
        connected(self.practice, planned(PRACTICE, grid, seed, Settings()), self._note)

    def run(self) -> None:
        practice = self.practice
        practice.begin()
        while not practice.runner.finished:
            self._pass_turn()
            if self._is_silent() and not practice.runner.finished:
                self._after_silence()
        self._count()

    def _pass_turn(self) -> None:
        spoken = self._turns.spoken
        self.practice.pass_until(lambda: self._turns.spoken > spoken or self._is_silent())

    def _replies(self) -> Iterator[Saying]:
        while True:
            yield self._reply()

    def _reply(self) -> Saying:
        state = self.practice.state
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
        asked = state.plan.sum_at(cell_of(ask))
        is_first = ask.part is Part.WHOLE and ask.id != self._asked_before
        if is_first and self._dice.random() < OWN_MISTAKES:
            value = self._dice.choice(_own_mistakes(asked, self._speaker.highest))
        elif ask.id == self._asked_before:
            value = self._last
        else:
            value = asked.answer_to(ask.part)
        self._asked_before = ask.id
        return self._say(value, THINKING_MS)

    def _say(self, value: int, after_ms: int) -> Saying:
        self._last = value
        self._turns.spoken += 1
        return (Utterance(str(value), after_ms),)

    def _is_silent(self) -> bool:
        practice = self.practice
        last = max(practice.pupil.end, practice.tool.end)
        return practice.is_listening and practice.clock.samples > last + SILENCE_MS * LISTENING_RATE_HZ // 1000

    def _after_silence(self) -> None:
        """Yes or no goes by keys; anything else is said again."""
        practice = self.practice
        topic = practice.state.talk.topics[-1]
        now_ms = practice.clock.since_start_ms()
        if isinstance(topic, Confirming):
            choice = Choice(topic.number.value == self._last)
            practice.happen(Entered(choice, "", By.KEYS, now_ms, now_ms, HeardId(f"key-{now_ms}")))
            return
        self._turns.said_again += 1
        self._turns.spoken += 1
        practice.overheard(self._speaker.number(self._last))

    # ---- what came of it

    def _note(self, text: str) -> None:
        line = json.loads(text)
        if line["kind"] == "heard":
            self._meant[line["id"]] = self._last
        self._lines.append(line)

    def _count(self) -> None:
        void = {line["of"] for line in self._lines if line["kind"] == "void"}
        for line in self._lines:
            if line["kind"] == "answer" and line["part"] in ("whole", "total") and line["id"] not in void:
                self._turns.kept += 1
                said = self._meant.get(str(line["heard"]))
                if said == line["right_answer"] != line["given"]:
                    told = f"{said} stands as {line['given']}"
                    own = f"certainty {line['certainty']:.2f}, close to {line['close_to']}"
                    self._turns.marked_wrong.append(f"{told}, {own}")
                self._turns.marked_right += line["given"] == line["right_answer"] != said


def _grid(dice: Random, highest: int) -> Grid:
    """Four rows and three amounts whose answers the speaker can say."""
    starts = dice.sample(range(12, highest - 8), 4)
    return Grid("Rows of oars", tuple(starts), tuple(sorted(dice.sample(range(2, 10), 3))), Order.ROWS)


def _own_mistakes(asked: Sum, highest: int) -> list[int]:
    """A ten lost, one short, one over, stopped at the ten."""
    wrong = (asked.total - 10, asked.total - 1, asked.total + 1, asked.next_ten)
    return [value for value in wrong if 0 <= value <= highest and value != asked.total]


def measured(voice: ToolVoice, speaker: Speaker, turns: int) -> Turns:
    came = Turns()
    seed = 0
    while came.spoken < turns:
        SpokenPractice(voice, speaker, seed, came).run()
        seed += 1
    return came


def speakers() -> Iterator[Speaker]:
    yield Speaker("recorded woman", 99, womans_number)
    yield Speaker("recorded man", 59, mans_number)


def main() -> int:
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("--turns", type=int, default=TURNS, help="spoken by each person")
    asked = reader.parse_args()
    with tempfile.TemporaryDirectory() as cache, tool_voice(Path(cache)) as voice:
        try:
            for speaker in speakers():
                _tell(speaker.name, measured(voice, speaker, asked.turns))
        except MissingError as missing:
            print(missing)
            return 3
    return 0


def _tell(name: str, came: Turns) -> None:
    print(f"{name}: {came.spoken} spoken turns, {came.said_again} of them again after silence, ", end="")
    print(f"{came.corrected} after something else was said back;")
    print(f"   {came.kept} whole answers stand; right ones that stand as wrong: {len(came.marked_wrong)}; ", end="")
    print(f"wrong ones that stand as right: {came.marked_right}.")
    for told in came.marked_wrong:
        print(f"   {told}")


if __name__ == "__main__":
    sys.exit(main())
