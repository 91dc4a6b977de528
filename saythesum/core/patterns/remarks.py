"""What a talk about a pattern says, as values: each holds the numbers that its sentences are made of.

Only `Shown` and what is said of a right answer have the answer in them.
"""

from dataclasses import dataclass, replace

from saythesum.core.exercises.exercise import Remark
from saythesum.core.patterns.grid_pattern import GridPattern
from saythesum.core.patterns.moves import Heard
from saythesum.core.patterns.questions import Question
from saythesum.core.sums import Part


@dataclass(frozen=True, slots=True)
class ListenTo(Remark):
    """Nothing is asked: think as long as you like."""

    heard: Heard
    is_reminder: bool = False
    """In the middle of a talk, on request: only the lines."""


@dataclass(frozen=True, slots=True)
class AskMove(Remark):
    part: Part
    question: Question
    leans: bool = False
    """It goes on from what was just said: "And in row …"."""

    @property
    def alone(self) -> "AskMove":
        return replace(self, leans=False)


@dataclass(frozen=True, slots=True)
class AskWhy(Remark):
    """In own words, of which nothing is marked or kept."""


@dataclass(frozen=True, slots=True)
class Hint(Remark):
    question: Question
    is_plain: bool
    """Otherwise it only says where to look."""


@dataclass(frozen=True, slots=True)
class OfGiven(Remark):
    """True of a wrong number."""

    question: Question
    given: int


@dataclass(frozen=True, slots=True)
class Shown(Remark):
    """The tool answers the question itself."""

    question: Question


@dataclass(frozen=True, slots=True)
class RightMove(Remark):
    part: Part
    question: Question
    pattern: GridPattern


@dataclass(frozen=True, slots=True)
class Because(Remark):
    """Why it is so: the amounts, starts and ones that cause it."""

    pattern: GridPattern
