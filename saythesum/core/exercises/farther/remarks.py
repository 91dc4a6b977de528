"""What can be said about amounts of tens, without words. What follows the tens is a bridge, and said as such."""

from dataclasses import dataclass
from typing import TypeAlias

from saythesum.core.exercises.exercise import Followed, Operator, Remark


@dataclass(frozen=True, slots=True)
class AskTens(Remark):
    """The tens first: what comes of them?"""

    operator: Operator
    start: int
    tens: int


@dataclass(frozen=True, slots=True)
class AskJoined(Remark):
    """The tens and the ones of the start together?"""

    tens: int
    ones: int


@dataclass(frozen=True, slots=True)
class TensGone(Followed):
    """The number after the tens, and the ones that are still to come."""

    operator: Operator
    after_tens: int
    ones: int
    """0 where none are."""


@dataclass(frozen=True, slots=True)
class TensDone:
    """What comes of the tens alone: in what the two remarks below say."""

    operator: Operator
    start: int
    tens: int
    makes: int


@dataclass(frozen=True, slots=True)
class OnesToCome(Remark):
    """The answer stopped after the tens."""

    done: TensDone
    ones: int


@dataclass(frozen=True, slots=True)
class BesideTens(Remark):
    """A number is more, or less, than the start with so many tens."""

    operator: Operator
    value: int
    start: int
    tens: int
    is_more: bool


@dataclass(frozen=True, slots=True)
class BesideStart(Remark):
    """A number is more than the start, or less, where it should be the other."""

    operator: Operator
    value: int
    start: int


@dataclass(frozen=True, slots=True)
class OtherTens(Remark):
    """Which tens lead to a wrong number, and which are asked."""

    operator: Operator
    start: int
    tens: int
    """Those that lead to it."""
    makes: int
    asked: int


@dataclass(frozen=True, slots=True)
class DoTens(Remark):
    """The tool does the tens for the pupil."""

    done: TensDone


FartherQuestion: TypeAlias = AskTens | AskJoined
OfFarther: TypeAlias = OnesToCome | BesideTens | BesideStart | OtherTens
