"""Addition grids: starts down the side, amounts along the top, a sum in each cell."""

from dataclasses import dataclass
from enum import StrEnum
from random import Random

from saythesum.core.sums import Sum


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


@dataclass(frozen=True, slots=True)
class Grid:
    title: str
    starts: tuple[int, ...]
    """Down the side, 0 to 999."""
    amounts: tuple[int, ...]
    """Along the top, 1 to 9."""
    order: Order = Order.ROWS

    def sum_at(self, cell: Cell) -> Sum:
        return Sum(self.starts[cell.row], self.amounts[cell.column])

    def __contains__(self, cell: Cell) -> bool:
        return 0 <= cell.row < len(self.starts) and 0 <= cell.column < len(self.amounts)


def walk(grid: Grid, seed: int) -> tuple[Cell, ...]:
    """Every cell once, in the grid's order. The seed matters only where the order is shuffled."""
    by_rows = [Cell(row, column) for row in range(len(grid.starts)) for column in range(len(grid.amounts))]
    match grid.order:
        case Order.ROWS | Order.CHOSEN:
            pass
        case Order.COLUMNS:
            by_rows.sort(key=lambda cell: (cell.column, cell.row))
        case Order.SHUFFLED:
            Random(seed).shuffle(by_rows)  # noqa: S311  a mix for variety, no secret
    return tuple(by_rows)
