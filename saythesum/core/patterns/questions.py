"""What a talk about a pattern asks, as values with their right answers.

Wherever a number will do a number is asked for. The few kinds of question serve all patterns: what holds of a grid is
found out by comparing two numbers, by filling a cell from its neighbour, and by looking at the ones.
"""

from abc import abstractmethod
from dataclasses import dataclass
from typing import NamedTuple, TypeAlias

from saythesum.core.exercises.exercise import Remark
from saythesum.core.patterns.grid_pattern import Step


@dataclass(frozen=True, slots=True)
class Made:
    """What a step makes of a start."""

    start: int
    step: Step

    @property
    def total(self) -> int:
        return self.start + self.step.by


class Kept(NamedTuple):
    """The numbers of a question as its answer's row has them: from one number on to another."""

    start: int
    amount: int
    operation: str


def on_the_way(start: int, to: int) -> Kept:
    return Kept(start, abs(to - start), "add" if to >= start else "take")


class Question(Remark):
    """Its words are in wording; so are those of its hints."""

    __slots__ = ()

    @property
    @abstractmethod
    def right(self) -> int: ...

    @property
    @abstractmethod
    def kept(self) -> Kept: ...

    def is_right(self, given: int) -> bool:
        return given == self.right


@dataclass(frozen=True, slots=True)
class InRow:
    start: int


@dataclass(frozen=True, slots=True)
class InColumn:
    step: Step


@dataclass(frozen=True, slots=True)
class InNewRow:
    """A row that the grid does not have; its start is one of the numbers."""


Place: TypeAlias = InRow | InColumn | InNewRow


@dataclass(frozen=True, slots=True)
class Apart(Question):
    """How far it is from one number to the other."""

    one: int
    other: int
    place: Place | None = None
    told: tuple[Made, ...] = ()
    """Said first: sums that are not in the grid."""

    @property
    def right(self) -> int:
        return abs(self.other - self.one)

    @property
    def kept(self) -> Kept:
        return on_the_way(self.one, self.other)

    @property
    def is_more(self) -> bool:
        return self.other > self.one

    @property
    def ends(self) -> tuple[int, int]:
        """The smaller and the larger number."""
        return min(self.one, self.other), max(self.one, self.other)

    @property
    def ten_between(self) -> int | None:
        """The first ten on the way up that is neither end."""
        low, high = self.ends
        ten = low - low % 10 + 10
        return ten if ten < high else None


@dataclass(frozen=True, slots=True)
class Fill(Question):
    """What the second sum makes, from what the first one makes."""

    known: Made
    asked: Made
    is_new_column: bool = False
    """A column that the grid does not have; otherwise a row."""

    @property
    def right(self) -> int:
        return self.asked.total

    @property
    def kept(self) -> Kept:
        return on_the_way(self.known.total, self.asked.total)

    @property
    def by(self) -> int:
        """How much more the second makes; negative where it makes less."""
        return self.asked.total - self.known.total


@dataclass(frozen=True, slots=True)
class HowManyCross(Question):
    """Of the sums in a column."""

    step: Step
    crossing: int
    sums: int

    @property
    def right(self) -> int:
        return self.crossing

    @property
    def kept(self) -> Kept:
        return Kept(0, self.crossing, "add")


@dataclass(frozen=True, slots=True)
class EdgeOnes(Question):
    """The ones from which a step up crosses a ten, or up to which a step down does."""

    step: Step

    @property
    def right(self) -> int:
        return 11 - self.step.amount if self.step.by > 0 else self.step.amount - 1

    @property
    def kept(self) -> Kept:
        return Kept(self.right, self.step.amount, self.step.operation)


@dataclass(frozen=True, slots=True)
class LeftOver(Question):
    """What is left of an amount after the gap to the ten."""

    step: Step
    gap: int
    ten: int

    @property
    def right(self) -> int:
        return self.step.amount - self.gap

    @property
    def kept(self) -> Kept:
        return Kept(self.step.amount, self.gap, "take")


@dataclass(frozen=True, slots=True)
class OwnStart(Question):
    """The pupil names a start of their own: any that fits is right."""

    starts: range
    ones: frozenset[int]
    """The ones digits that it may have."""
    crosses: Step | None = None
    """The step with which it is to cross a ten, where that is what is asked for."""

    @property
    def right(self) -> int:
        """One of them."""
        return next(start for start in self.starts if start % 10 in self.ones)

    @property
    def kept(self) -> Kept:
        return Kept(self.right, 0, "add")

    def is_right(self, given: int) -> bool:
        return given in self.starts and given % 10 in self.ones
