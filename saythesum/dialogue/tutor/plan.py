"""What a practice is: saved once, when it starts."""

from dataclasses import dataclass, field
from datetime import UTC, datetime
from uuid import UUID

from saythesum.core.aims import Aim
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.grids.grid import Cell, Grid, walk
from saythesum.core.mistakes.pattern import Occasion
from saythesum.core.records.rows import By, RowId, row_id
from saythesum.learner.pupil import Pupil
from saythesum.learner.replay import KnownSoFar
from saythesum.settings import Settings

NO_DAY = datetime(1970, 1, 1, tzinfo=UTC)
"""For a practice in which no day matters."""


@dataclass(frozen=True, slots=True)
class Plan:
    practice: UUID
    grid: Grid
    cells: tuple[Cell, ...]
    """Those that are asked, in that order where the next one is not chosen."""
    settings: Settings
    began_at: datetime
    """UTC. Only the day matters to what is known of the pupil."""
    known: KnownSoFar = field(compare=False)
    """Of the pupil: what the earlier practices tell (all of them where the next cell is chosen, else the last few),
    and this one."""
    known_here: KnownSoFar = field(compare=False)
    """From this practice alone."""
    aim: Aim = Aim.PRACTISE

    @property
    def known_grid(self) -> Grid | None:
        """Where the pupil can lose their place; sums that come one by one have no neighbours."""
        return self.grid if self.aim.has_grid else None

    def occasion_at(self, cell: Cell, by: By, before: int | None) -> Occasion[Exercise]:
        """`before`: the number that was answered to the whole question before this one."""
        is_typed = by is not By.VOICE
        if self.known_grid is None:
            return Occasion(self.exercise_at(cell), is_typed, before=before)
        return self.known_grid.occasion_at(cell, is_typed=is_typed, before=before)

    def next_id(self, kept: int) -> RowId:
        """The id of the row that follows `kept` rows."""
        return row_id(self.practice, kept)

    def exercise_at(self, cell: Cell) -> Exercise:
        return self.grid.exercise_at(cell)


def planned(
    practice: UUID,
    grid: Grid,
    seed: int,
    settings: Settings,
    *,
    began_at: datetime = NO_DAY,
    before: Pupil | None = None,
    aim: Aim = Aim.PRACTISE,
    cells: tuple[Cell, ...] | None = None,
) -> Plan:
    """`cells`: those that are asked, in their order; None for all of the grid's, in the grid's own.

    `before`: what is known of the pupil from earlier practices.
    """
    known_grid = grid if aim.has_grid else None
    return Plan(
        practice,
        grid,
        cells or walk(grid, seed),
        settings,
        began_at,
        known=KnownSoFar(before or Pupil(), began_at, known_grid),
        known_here=KnownSoFar(Pupil(), began_at, known_grid),
        aim=aim,
    )
