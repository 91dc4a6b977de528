"""What can be said on the other ways to a sum, without words."""

from dataclasses import dataclass
from typing import TypeAlias

from saythesum.core.exercises.exercise import Remark
from saythesum.core.sums import Bridge, Part


@dataclass(frozen=True, slots=True)
class AskTenOn(Remark):
    start: int


@dataclass(frozen=True, slots=True)
class AskTooMany(Remark):
    """Ten was added in place of the amount: how many too many is that?"""

    amount: int


@dataclass(frozen=True, slots=True)
class AskTakeBack(Remark):
    asked: Bridge


@dataclass(frozen=True, slots=True)
class AskDouble(Remark):
    of: int


@dataclass(frozen=True, slots=True)
class AskBesideDouble(Remark):
    """The ones, which are one more than the double."""

    asked: Bridge


@dataclass(frozen=True, slots=True)
class AskMore(Remark):
    """Counting goes on by so many."""

    steps: int


@dataclass(frozen=True, slots=True)
class TenOnMakes(Remark):
    """Which step from the start leads to the number, where ten was asked for."""

    start: int
    given: int


@dataclass(frozen=True, slots=True)
class DoWayStep(Remark):
    """The tool does this part for the pupil."""

    asked: Bridge
    part: Part


WayQuestion: TypeAlias = AskTenOn | AskTooMany | AskTakeBack | AskDouble | AskBesideDouble | AskMore
