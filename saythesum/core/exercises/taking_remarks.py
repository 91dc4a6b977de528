"""What can be said about taking away, without words: questions for its parts, true things about wrong numbers.

What holds of any number, whatever is done with it, is in `bridge_remarks`.
"""

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TypeAlias

from saythesum.core.exercises.exercise import Followed, Remark
from saythesum.core.sums import Bridge, Part

# ---- questions for a part


@dataclass(frozen=True, slots=True)
class AskTenBefore(Remark):
    start: int


@dataclass(frozen=True, slots=True)
class AskGapBack(Remark):
    """How many from the start back to the ten? Where that ten is the answer of the whole it is never named."""

    asked: Bridge
    is_ten_just_said: bool = False
    is_again: bool = False

    @property
    def alone(self) -> Remark:
        return replace(self, is_ten_just_said=False)


@dataclass(frozen=True, slots=True)
class AskStillToTake(Remark):
    asked: Bridge
    is_gap_just_told: bool = False
    """In what the tool said of a wrong number: then it is asked in fewer words."""

    @property
    def alone(self) -> Remark:
        return AskStillToTake(self.asked)


@dataclass(frozen=True, slots=True)
class AskOnesTaken(Remark):
    """What stays of the ones, or of a ten that is opened?"""

    asked: Bridge


@dataclass(frozen=True, slots=True)
class AskFromTen(Remark):
    """The whole amount from the ten?"""

    asked: Bridge


@dataclass(frozen=True, slots=True)
class AskLastStep(Remark):
    asked: Bridge
    to_join: tuple[int, int] | None
    """None where the last step takes away."""


# ---- a part that was followed


@dataclass(frozen=True, slots=True)
class GapBackGiven(Followed):
    asked: Bridge


# ---- true things about a wrong whole answer


class Back(StrEnum):
    """How a wrong number compares with the start or with the ten on the way back."""

    ABOVE_START = "above-start"
    AT_START = "at-start"
    ABOVE_TEN = "above-ten"
    """Below the start and not yet at the ten. Where a ten is crossed only, like the two that follow."""
    AT_TEN = "at-ten"
    BELOW_TEN = "below-ten"
    BELOW_START = "below-start"
    MORE_THAN_TEN_BELOW = "more-than-ten-below"
    FAR_BELOW = "far-below"
    TOO_MANY = "too-many"
    """No distance can be named without the right answer."""
    TOO_FEW = "too-few"


@dataclass(frozen=True, slots=True)
class StandsBack(Remark):
    asked: Bridge
    value: int
    back: Back
    by: int = 0
    """How far from the start or the ten; 0 where the sentence needs no distance."""


@dataclass(frozen=True, slots=True)
class TakingGoesDown(Remark):
    """The answer is more than the start."""


@dataclass(frozen=True, slots=True)
class ReachedTenBack(Remark):
    """The answer stopped at the ten."""

    asked: Bridge


@dataclass(frozen=True, slots=True)
class TenLessAll(Remark):
    """The whole amount was taken from the ten, after the jump back to it."""

    asked: Bridge


@dataclass(frozen=True, slots=True)
class TenLessGap(Remark):
    """The jump back to the ten was made a second time."""

    asked: Bridge


@dataclass(frozen=True, slots=True)
class WasTaken(Remark):
    """Which amount leads to the number, and which one is asked."""

    asked: Bridge
    value: int


@dataclass(frozen=True, slots=True)
class TensStayToo(Remark):
    """Ones were answered, and no tens."""


@dataclass(frozen=True, slots=True)
class PlaceBackAgain(Remark):
    """Both headers of the cell."""

    asked: Bridge


# ---- true things about a wrong answer to a part


@dataclass(frozen=True, slots=True)
class TenNotBefore(Remark):
    """A ten that does not come before the start."""

    value: int
    start: int


@dataclass(frozen=True, slots=True)
class TenTooFarBack(Remark):
    """A ten more than ten below the start."""

    value: int
    start: int


@dataclass(frozen=True, slots=True)
class GapLeadsTo(Remark):
    """Where a wrong jump back would lead."""

    asked: Bridge
    value: int


@dataclass(frozen=True, slots=True)
class GapBackIsAll(Remark):
    """The whole amount was given for the jump back to the ten."""

    asked: Bridge


@dataclass(frozen=True, slots=True)
class AmountMakes(Remark):
    """What the jump back and a wrong rest make together."""

    asked: Bridge
    value: int


@dataclass(frozen=True, slots=True)
class TakenFrom(Remark):
    """Which amount, taken from this number, leads to a wrong one, and which is asked."""

    whole: int
    amount: int
    value: int


@dataclass(frozen=True, slots=True)
class TakenFromAbove(Remark):
    """More was given than what is taken from, or as much."""

    whole: int
    value: int


@dataclass(frozen=True, slots=True)
class TakenFarBelow(Remark):
    whole: int
    value: int


@dataclass(frozen=True, slots=True)
class IsTheRest(Remark):
    """What is still to be taken was given for the total."""

    value: int


@dataclass(frozen=True, slots=True)
class WrongWay(Remark):
    """The rest was put on at the ten."""

    asked: Bridge


@dataclass(frozen=True, slots=True)
class NotWhatStays(Remark):
    """Nothing more can be said without the right answer."""

    value: int
    is_too_many: bool


@dataclass(frozen=True, slots=True)
class GapReachesBack(Remark):
    asked: Bridge


# ---- a part done for the pupil


@dataclass(frozen=True, slots=True)
class DoStepBack(Remark):
    asked: Bridge
    part: Part


BackQuestion: TypeAlias = AskTenBefore | AskGapBack | AskStillToTake | AskOnesTaken | AskFromTen | AskLastStep
OfWholeBack: TypeAlias = (
    StandsBack | TakingGoesDown | ReachedTenBack | TenLessAll | TenLessGap | WasTaken | TensStayToo | PlaceBackAgain
)
OfPartBack: TypeAlias = (
    TenNotBefore
    | TenTooFarBack
    | GapLeadsTo
    | GapBackIsAll
    | AmountMakes
    | TakenFrom
    | TakenFromAbove
    | TakenFarBelow
    | IsTheRest
    | WrongWay
    | NotWhatStays
    | GapReachesBack
)
