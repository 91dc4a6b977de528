"""What a practice is: saved once, when it starts."""

from dataclasses import dataclass
from uuid import UUID

from saythesum.core.grids import Cell, Grid, walk
from saythesum.core.rows import RowId, row_id
from saythesum.core.sums import Sum
from saythesum.settings import Settings


@dataclass(frozen=True, slots=True)
class Plan:
    practice: UUID
    grid: Grid
    cells: tuple[Cell, ...]
    """In the order they are asked."""
    settings: Settings

    def next_id(self, kept: int) -> RowId:
        """The id of the row that follows `kept` rows."""
        return row_id(self.practice, kept)

    def sum_at(self, cell: Cell) -> Sum:
        return self.grid.sum_at(cell)


def planned(practice: UUID, grid: Grid, seed: int, settings: Settings) -> Plan:
    return Plan(practice, grid, walk(grid, seed), settings)
