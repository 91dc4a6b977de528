"""What can be said about a missing number, without words.

What holds of any bridge is in `bridge_remarks` and `taking_remarks`.
"""

from dataclasses import dataclass
from typing import TypeAlias

from saythesum.core.exercises.exercise import Exercise, Operator, Remark
from saythesum.core.sums import Bridge, Part

# ---- questions for a part


@dataclass(frozen=True, slots=True)
class AskToTen(Remark):
    """How many from the start to the ten?"""

    bridge: Bridge


@dataclass(frozen=True, slots=True)
class AskFromTen(Remark):
    """How many from the ten to the total?"""

    bridge: Bridge


@dataclass(frozen=True, slots=True)
class AskOnes(Remark):
    """Which ones lead from the ones of the start to those of the total?"""

    operator: Operator
    ones: int
    """Of the start, or the ten that is opened."""
    leads_to: int
    """Of the total, or the ten that is reached."""


@dataclass(frozen=True, slots=True)
class AskBoth(Remark):
    """What do the two jumps come to?"""

    bridge: Bridge


@dataclass(frozen=True, slots=True)
class AskSo(Remark):
    """The whole once more, after its ones."""

    asked: Exercise


@dataclass(frozen=True, slots=True)
class WorkBack(Remark):
    """A question for a step of the way back, from the total to the missing start."""

    way: Exercise
    question: Remark
    is_way_told: bool = True
    """Which sum the way back is, and not only that it is gone."""

    @property
    def alone(self) -> Remark:
        return WorkBack(self.way, self.question.alone)


# ---- true things about a wrong number


@dataclass(frozen=True, slots=True)
class PutIn(Remark):
    """What comes of a number in the place of the missing one, and what should."""

    operator: Operator
    start: int
    amount: int
    """One of the two is the number that was given."""
    makes: int
    needed: int


@dataclass(frozen=True, slots=True)
class TooManyOrFew(Remark):
    """What comes of the number cannot be said: it is the answer itself, or too large to be said, or below nought."""

    value: int
    is_too_many: bool


@dataclass(frozen=True, slots=True)
class IsTheTotal(Remark):
    """The total was given for the missing number."""

    value: int
    operator: Operator


@dataclass(frozen=True, slots=True)
class ReachesTen(Remark):
    """The number is the jump to the ten alone."""

    bridge: Bridge
    operator: Operator


# ---- a part done for the pupil


@dataclass(frozen=True, slots=True)
class DoJump(Remark):
    bridge: Bridge
    operator: Operator
    part: Part


MissingQuestion: TypeAlias = AskToTen | AskFromTen | AskOnes | AskBoth
OfMissing: TypeAlias = PutIn | TooManyOrFew | IsTheTotal | ReachesTen
