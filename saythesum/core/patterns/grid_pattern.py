"""What can be true of a finished grid, as values that hold the reason: the starts and the steps that cause it.

Every pattern here holds for every cell that it names; where something is only usually true (adding nine makes the ones
one less, but not from a ten) the cells it does not hold for are left out of it.
"""

from abc import ABC, abstractmethod
from dataclasses import dataclass
from enum import IntEnum
from typing import ClassVar

from saythesum.core.grids.grid import Cell


class Stage(IntEnum):
    """The order in which patterns are looked for over the days: what depends on less comes first."""

    AMOUNTS = 0
    STARTS = 1
    ONES = 2
    DIAGONALS = 3


@dataclass(frozen=True, slots=True)
class Step:
    """What a column does with every start."""

    operation: str
    amount: int
    by: int
    """What it adds to each start: negative where it takes away."""


class GridPattern(ABC):
    __slots__ = ()

    name: ClassVar[str]
    """As kept rows have it."""
    stage: ClassVar[Stage]

    @property
    @abstractmethod
    def cells(self) -> frozenset[Cell]:
        """Those that it is about."""

    @property
    @abstractmethod
    def lines(self) -> tuple[int, ...]:
        """With the name they say which pattern of its grid it is: the rows or columns compared, and of two cells
        their row and column, one after the other."""


@dataclass(frozen=True, slots=True)
class ColumnsApart(GridPattern):
    """Each number of the second column is so much more than the one beside it in the first: the start is the same, the
    steps differ."""

    name = "columns-apart"
    stage = Stage.AMOUNTS

    first: int
    second: int
    steps: tuple[Step, Step]
    rows: int
    """How many rows the grid has: it holds in every one."""

    @property
    def by(self) -> int:
        """Negative where the second column is less, 0 where they are the same."""
        return self.steps[1].by - self.steps[0].by

    @property
    def cells(self) -> frozenset[Cell]:
        return frozenset(Cell(row, column) for row in range(self.rows) for column in self.lines)

    @property
    def lines(self) -> tuple[int, ...]:
        return (self.first, self.second)


@dataclass(frozen=True, slots=True)
class ColumnsAlike(GridPattern):
    """Two columns end in the same ones digits, as one step is ten more than the other: add seven, take away three."""

    name = "columns-alike"
    stage = Stage.ONES

    first: int
    second: int
    steps: tuple[Step, Step]
    rows: int

    @property
    def cells(self) -> frozenset[Cell]:
        return frozenset(Cell(row, column) for row in range(self.rows) for column in self.lines)

    @property
    def lines(self) -> tuple[int, ...]:
        return (self.first, self.second)


@dataclass(frozen=True, slots=True)
class RowsApart(GridPattern):
    """Each number of the second row is so much more than the one above it in the first: the step is the same, the
    starts differ."""

    name = "rows-apart"
    stage = Stage.STARTS

    first: int
    second: int
    starts: tuple[int, int]
    columns: int
    """How many columns the grid has: it holds in every one."""

    @property
    def by(self) -> int:
        """Negative where the second row is less, 0 where they are the same."""
        return self.starts[1] - self.starts[0]

    @property
    def cells(self) -> frozenset[Cell]:
        return frozenset(Cell(row, column) for row in self.lines for column in range(self.columns))

    @property
    def lines(self) -> tuple[int, ...]:
        return (self.first, self.second)


@dataclass(frozen=True, slots=True)
class RowsAlike(GridPattern):
    """Two rows whose starts have the same ones: so have their numbers, and they cross a ten in the same columns."""

    name = "rows-alike"
    stage = Stage.ONES

    first: int
    second: int
    starts: tuple[int, int]
    columns: int
    crossing: tuple[int, ...]
    """The columns in which both cross a ten; in the others neither does."""

    @property
    def ones(self) -> int:
        return self.starts[0] % 10

    @property
    def cells(self) -> frozenset[Cell]:
        return frozenset(Cell(row, column) for row in self.lines for column in range(self.columns))

    @property
    def lines(self) -> tuple[int, ...]:
        return (self.first, self.second)


@dataclass(frozen=True, slots=True)
class CrossingOnes(GridPattern):
    """Which numbers of a column cross a ten, and that only the ones of the start decide it."""

    name = "crossing"
    stage = Stage.ONES

    column: int
    step: Step
    crossing: tuple[int, ...]
    """Ones digits of this grid's starts that cross, smallest first."""
    staying: tuple[int, ...]
    """Those that do not: they stay short of the ten, or land on it."""
    rows: tuple[int, ...]
    """The rows that cross."""

    @property
    def crossed_by(self) -> range:
        """All ones digits that cross with this step, in this grid or not."""
        return range(11 - self.step.amount, 10) if self.step.by > 0 else range(1, self.step.amount)

    @property
    def cells(self) -> frozenset[Cell]:
        return frozenset(Cell(row, self.column) for row in self.rows)

    @property
    def lines(self) -> tuple[int, ...]:
        return (self.column,)


@dataclass(frozen=True, slots=True)
class Landing:
    """A sum that ends on a ten: the ones and the amount make ten, or taking away takes just the ones."""

    cell: Cell
    start: int
    step: Step
    total: int

    @property
    def ones(self) -> int:
        return self.start % 10


@dataclass(frozen=True, slots=True)
class LandingLine(GridPattern):
    """The cells that land on a ten. From top to bottom, as the ones of the start go up, the amount that is added goes
    down with them, and the amount that is taken away goes up."""

    name = "landing"
    stage = Stage.ONES

    operation: str
    landings: tuple[Landing, ...]
    """Two at least, of one operation, by their ones, smallest first."""

    @property
    def cells(self) -> frozenset[Cell]:
        return frozenset(one.cell for one in self.landings)

    @property
    def lines(self) -> tuple[int, ...]:
        return tuple(sorted({one.cell.column for one in self.landings}))


@dataclass(frozen=True, slots=True)
class EqualAnswers(GridPattern):
    """Two cells, in different rows and columns, with the same number: what the start has more, the step has less."""

    name = "equal-answers"
    stage = Stage.DIAGONALS

    first: Cell
    second: Cell
    starts: tuple[int, int]
    steps: tuple[Step, Step]
    total: int

    @property
    def by(self) -> int:
        """What the second start has more, and its step less; never 0."""
        return self.starts[1] - self.starts[0]

    @property
    def cells(self) -> frozenset[Cell]:
        return frozenset((self.first, self.second))

    @property
    def lines(self) -> tuple[int, ...]:
        return (self.first.row, self.first.column, self.second.row, self.second.column)


@dataclass(frozen=True, slots=True)
class NearTen(GridPattern):
    """Nine is ten but one, eight is ten but two: a ten goes on and one or two ones go off. Taking away, the other way
    round."""

    name = "near-ten"
    stage = Stage.AMOUNTS

    column: int
    step: Step
    starts: tuple[tuple[int, int], ...]
    """Row and start of those for which the ones change by so much and no more; one at least."""

    @property
    def short(self) -> int:
        """What the amount is short of ten: 1 or 2."""
        return 10 - self.step.amount

    @property
    def ones_by(self) -> int:
        """What the ones digit changes by."""
        return -self.short if self.step.by > 0 else self.short

    @property
    def tens_by(self) -> int:
        """What the number of whole tens changes by."""
        return 1 if self.step.by > 0 else -1

    @property
    def cells(self) -> frozenset[Cell]:
        return frozenset(Cell(row, self.column) for row, _ in self.starts)

    @property
    def lines(self) -> tuple[int, ...]:
        return (self.column,)


@dataclass(frozen=True, slots=True)
class SharedGap(GridPattern):
    """Cells of one row that cross a ten in the same direction have the same gap, which the start alone makes; only the
    rest changes with the amount."""

    name = "shared-gap"
    stage = Stage.STARTS

    row: int
    start: int
    operation: str
    gap: int
    rests: tuple[tuple[int, int], ...]
    """Column and rest; two at least, with different rests."""

    @property
    def cells(self) -> frozenset[Cell]:
        return frozenset(Cell(self.row, column) for column, _ in self.rests)

    @property
    def lines(self) -> tuple[int, ...]:
        return (self.row, *(column for column, _ in self.rests))


@dataclass(frozen=True, slots=True)
class FiveTwice(GridPattern):
    """Five and five is ten: the ones digit changes by five, and a second five brings the old one back, a ten further
    on."""

    name = "five-twice"
    stage = Stage.AMOUNTS

    column: int
    step: Step
    starts: tuple[tuple[int, int], ...]
    """Row and start of those from which five can be taken or added twice; one at least."""

    @property
    def cells(self) -> frozenset[Cell]:
        return frozenset(Cell(row, self.column) for row, _ in self.starts)

    @property
    def lines(self) -> tuple[int, ...]:
        return (self.column,)
