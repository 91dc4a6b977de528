"""Grids: starts down the side, amounts along the top, an exercise in each cell."""

from collections import Counter
from dataclasses import dataclass, replace
from enum import StrEnum
from random import Random

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.farther.farther import Farther
from saythesum.core.exercises.registry import of_column
from saythesum.core.mistakes.pattern import Occasion
from saythesum.core.sums import Bridge, Hidden, Kind


class Order(StrEnum):
    """The order in which the cells are asked."""

    ROWS = "rows"
    COLUMNS = "columns"
    SHUFFLED = "shuffled"
    CHOSEN = "chosen"
    """By what the pupil needs: each next cell is chosen from what is known of the pupil."""


@dataclass(frozen=True, slots=True, order=True)
class Cell:
    """A place in a grid, counted from 0."""

    row: int
    column: int
    activity: int = 0
    """Which of the practice's activities has the grid."""


@dataclass(frozen=True, slots=True)
class Grid:
    title: str
    starts: tuple[int, ...]
    """Down the side, 0 to 999."""
    amounts: tuple[int, ...]
    """Along the top, 1 to 99."""
    order: Order = Order.ROWS
    operations: tuple[str, ...] = ()
    """What each column does with its amount; () where all of them add."""
    hidden: Hidden = Hidden.TOTAL
    """Which number of each sum is asked for."""
    listed: tuple[Exercise, ...] = ()
    """A list in place of a grid: a sum in each row, in column 0. Then it has neither starts nor amounts."""

    @property
    def rows(self) -> int:
        return len(self.listed) or len(self.starts)

    @property
    def columns(self) -> int:
        return 1 if self.listed else len(self.amounts)

    @property
    def is_one_by_one(self) -> bool:
        """It has no headers: the sums of a list have none in common, and a missing number's would give it away."""
        return bool(self.listed) or self.hidden is not Hidden.TOTAL

    def exercise_at(self, cell: Cell) -> Exercise:
        if self.listed:
            return self.listed[cell.row]
        operation = self.operations[cell.column] if self.operations else Sum.operation
        return of_column(operation, self.starts[cell.row], self.amounts[cell.column], self.hidden)

    def occasion_at(self, cell: Cell, *, is_typed: bool, before: int | None) -> Occasion[Exercise]:
        """`before`: the number that was answered to the whole question before this one."""
        steps = ((-1, 0), (1, 0), (0, -1), (0, 1))
        near = [replace(cell, row=cell.row + down, column=cell.column + along) for down, along in steps]
        beside = tuple(self.exercise_at(one) for one in near if one in self)
        return Occasion(self.exercise_at(cell), is_typed, beside, before)

    def __contains__(self, cell: Cell) -> bool:
        return 0 <= cell.row < self.rows and 0 <= cell.column < self.columns


def walk(grid: Grid, seed: int) -> tuple[Cell, ...]:
    """Every cell once, in the grid's order. The seed matters only where the order is shuffled."""
    by_rows = [Cell(row, column) for row in range(grid.rows) for column in range(grid.columns)]
    match grid.order:
        case Order.ROWS | Order.CHOSEN:
            pass
        case Order.COLUMNS:
            by_rows.sort(key=lambda cell: (cell.column, cell.row))
        case Order.SHUFFLED:
            Random(seed).shuffle(by_rows)  # noqa: S311  a mix for variety, no secret
    return tuple(by_rows)


@dataclass(frozen=True, slots=True)
class AboutGrid:
    """Counts are of cells."""

    cells: int
    crossing: int
    landing: int
    within: int
    """Not crossing: short of the next ten."""
    past_hundred: int
    """Sums that begin below a hundred and reach it or pass it; so with two hundred, and so on."""
    equal_answers: tuple[int, ...]
    """Answers of two cells or more, smallest first."""
    repeated: int
    """Cells that repeat the exercise of an earlier cell, whose answer tells nothing new."""


def about(grid: Grid) -> AboutGrid:
    asked = [grid.exercise_at(cell) for cell in walk(replace(grid, order=Order.ROWS), 0)]
    sums = [one.total_asked for one in asked]
    kinds = Counter(one.kind for one in sums if isinstance(one, Bridge | Farther))
    answers = Counter(one.total for one in asked)
    return AboutGrid(
        cells=len(sums),
        crossing=kinds[Kind.CROSSING],
        landing=kinds[Kind.LANDING],
        within=kinds[Kind.WITHIN],
        past_hundred=sum(one.start // 100 < one.total // 100 for one in sums),
        equal_answers=tuple(sorted(answer for answer, count in answers.items() if count > 1)),
        repeated=len(asked) - len(set(asked)),
    )
