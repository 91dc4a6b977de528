"""Own words learnt as the product learns them, in 300 simulated turns in which one hearing in ten is wrong."""

import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from random import Random

from saythesum.app.session.learning.beside_practice import Heard
from saythesum.app.session.learning.own_words_learning import OwnWordsLearning
from saythesum.app.setup.words_kept import WordsKept
from saythesum.core.meanings import Awaiting, Meaning, Number
from saythesum.core.records.rows import Row
from saythesum.hearing.confidence.gate import judged
from saythesum.hearing.embedded.own_words.comparison import Comparison
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.embedded.own_words.words_file import none_yet
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from tests.app.session.learning.things import answer, ask, heard, marked_right
from tests.tools.listening.own_words.compared import DAY, Counted, counted, heard_with
from tests.tools.listening.own_words.sayings import Saying

TURNS, TURNS_A_PRACTICE = 300, 12
WRONG_HEARINGS = 0.10
"""What the microphone hears is another of the speaker's words than the one that is typed or marked then."""
CORRECTS = 0.85
"""As in `tests.proofs`: so often a pupil says no to what is said back wrongly."""
MARKED = 0.5
"""So often an adult marks a right answer that stands as a wrong one."""
MOST_SAYINGS = 2
"""Then it is typed."""


@dataclass(frozen=True, slots=True)
class Learnt:
    before: Counted
    after: Counted
    takes: int
    wrong_takes: int


def learnt(sayings: Sequence[Saying], seed: int) -> Learnt:
    """Half of the sayings of each number are learnt from, the others are counted."""
    dice = Random(seed)
    half: list[Saying] = []
    for number in range(10):
        same = [saying for saying in sayings if saying.said == number]
        half += dice.sample(same, len(same) // 2)
    rest = [saying for saying in sayings if saying not in half]
    own, wrong = _Pupil(half, dice).learns()
    return Learnt(counted(rest), counted(rest, Comparison(own)), len(own.takes), wrong)


class _Pupil:
    """Says a digit a turn."""

    def __init__(self, sayings: list[Saying], dice: Random) -> None:
        self._sayings, self._dice = sayings, dice
        self._engine = NeuralRecogniser()

    def learns(self) -> tuple[OwnWords, int]:
        """And how many of the takes are of another number than they stand for."""
        own = none_yet(1.0)
        with tempfile.TemporaryDirectory() as folder:
            kept = WordsKept(Path(folder, "rk-7.words"), lambda: True, print)
            for _ in range(TURNS // TURNS_A_PRACTICE):
                self._learning = OwnWordsLearning(own, kept, DAY)
                for _ in range(TURNS_A_PRACTICE):
                    self._turn(self._dice.randrange(10))
                own = self._learning.learnt
        return own, sum(self._said_in(take.packed) != take.number for take in own.takes)

    def _turn(self, number: int) -> None:
        """Said, said once more where it was not taken, and typed then; what is taken wrongly is mostly put right."""
        self._tell(ask())
        for _ in range(MOST_SAYINGS):
            saying = self._say(number)
            meaning = self._meaning(saying)
            thing = heard(saying.frames, meaning)
            self._tell(thing)
            if isinstance(meaning, Number) and meaning.sure:
                if meaning.value != number and self._dice.random() < CORRECTS:
                    continue
                stands = answer(meaning.value, thing, right=number)
                self._tell(stands)
                if not stands.right and self._dice.random() < MARKED:
                    self._tell(marked_right(stands))
                return
        self._tell(answer(number))

    def _say(self, number: int) -> Saying:
        is_wrong = self._dice.random() < WRONG_HEARINGS
        return self._dice.choice([saying for saying in self._sayings if (saying.said == number) != is_wrong])

    def _meaning(self, saying: Saying) -> Meaning:
        return judged(heard_with(self._engine.own_words, saying.second.hearing, saying), Awaiting.NUMBER).heard

    def _tell(self, thing: Heard | Row) -> None:
        self._learning.learn(thing, self._engine, self)

    def wait(self) -> None:
        """It is always quiet."""

    def _said_in(self, packed: bytes) -> int | None:
        """What was really said in a take."""
        for saying in self._sayings:
            assert saying.said is not None and saying.frames is not None
            taken = none_yet(1.0).with_take(saying.said, saying.frames, on=DAY)
            if isinstance(taken, OwnWords) and taken.takes[0].packed == packed:
                return saying.said
        return None
