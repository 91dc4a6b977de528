"""What a practice is: saved once, when it starts."""

from dataclasses import dataclass
from datetime import UTC, datetime
from uuid import UUID

from saythesum.core.grids import Cell, Grid, walk
from saythesum.core.rows import RowId, row_id
from saythesum.core.sums import Sum
from saythesum.learner.replay import Record
from saythesum.settings import Settings

NO_DAY = datetime(1970, 1, 1, tzinfo=UTC)
"""For a practice in which no day matters."""


@dataclass(frozen=True, slots=True)
class Plan:
    practice: UUID
    grid: Grid
    cells: tuple[Cell, ...]
    """In the order they are asked."""
    settings: Settings
    began_at: datetime
    """UTC. Only the day matters to what is known of the pupil."""
    before: Record
    """What the pupil's earlier practices tell: all of them where the next cell is chosen, else the last few."""

    def next_id(self, kept: int) -> RowId:
        """The id of the row that follows `kept` rows."""
        return row_id(self.practice, kept)

    def sum_at(self, cell: Cell) -> Sum:
        return self.grid.sum_at(cell)


def planned(
    practice: UUID,
    grid: Grid,
    seed: int,
    settings: Settings,
    *,
    began_at: datetime = NO_DAY,
    before: Record | None = None,
) -> Plan:
    return Plan(practice, grid, walk(grid, seed), settings, began_at, before or Record())
