"""What a practice is: its activities in order, saved once, when it starts."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from functools import lru_cache
from uuid import UUID

from saythesum.core.aims import Aim
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.ways.other_way import in_way, preferred
from saythesum.core.grids import facts
from saythesum.core.grids.grid import Cell, Grid, walk
from saythesum.core.mistakes.pattern import Occasion
from saythesum.core.records.rows import Ask, By, RowId, row_id
from saythesum.learner.pupil import Pupil
from saythesum.learner.replay import KnownSoFar
from saythesum.learner.worth_finding import Talked
from saythesum.settings import Settings

NO_DAY = datetime(1970, 1, 1, tzinfo=UTC)
"""For a practice in which the day does not matter."""
_SEEDS = 2**31


@dataclass(frozen=True, slots=True)
class Activity:
    """One thing that is done in a practice. When it is over the next one begins."""

    grid: Grid
    cells: tuple[Cell, ...]
    """Those that are asked, in this order unless the next one is chosen. In a talk none is asked."""
    aim: Aim = Aim.PRACTISE
    most: int | None = None
    """At most so many of its cells are asked; None: all of them."""

    @property
    def place(self) -> int:
        """In its plan."""
        return self.cells[0].activity

    @property
    def known_grid(self) -> Grid | None:
        """Where the pupil can lose their place; sums that come one by one have no neighbours."""
        return self.grid if self.has_grid else None

    @property
    def has_grid(self) -> bool:
        """Whether the pupil moves about in a grid; elsewhere the sums come one by one."""
        return self.aim.has_grid and not self.grid.is_one_by_one


@dataclass(frozen=True, slots=True)
class Plan:
    practice: UUID
    activities: tuple[Activity, ...]
    """One at least."""
    asides: tuple[Activity, ...]
    """The facts that its sums may lead back to. Their places follow those of the activities."""
    settings: Settings
    began_at: datetime
    """UTC. Only the day matters to what is known of the pupil."""
    known: KnownSoFar = field(compare=False)
    """Of the pupil: what the earlier practices tell (all of them where the next cell is chosen, else the last few),
    and this one."""
    known_here: KnownSoFar = field(compare=False)
    """From this practice alone."""
    talked: tuple[Talked, ...] = ()
    """The talks about patterns in earlier practices, the newest last."""

    @property
    def is_by_switch(self) -> bool:
        return self.settings.start.by == "switch"

    def activity_of(self, cell: Cell) -> Activity:
        return self._at(cell.activity)

    def activity_on(self, ask: Ask | None) -> Activity:
        """The activity that asks this question; before the first question, the first activity."""
        return self._at(ask.activity if ask else 0)

    def is_aside(self, row: Ask | Cell) -> bool:
        return row.activity >= len(self.activities)

    def _at(self, place: int) -> Activity:
        return self.activities[place] if place < len(self.activities) else self.asides[place - len(self.activities)]

    def exercise_at(self, cell: Cell) -> Exercise:
        asked = self.activity_of(cell).grid.exercise_at(cell).by_way_of(self.settings.helping)
        return preferred(asked, self.settings.helping.adding)

    def exercise_of(self, ask: Ask) -> Exercise:
        """By the way that this question goes: help may have come to another than the pupil's own."""
        return in_way(self.exercise_at(Cell(*ask.place, ask.activity)), ask.exercise)

    def occasion_at(self, cell: Cell, by: By, before: int | None) -> Occasion[Exercise]:
        """`before`: the number that was answered to the whole question before this one."""
        is_typed = by is not By.VOICE
        grid = self.activity_of(cell).known_grid
        if grid is None:
            return Occasion(self.exercise_at(cell), is_typed, before=before)
        in_grid = grid.occasion_at(cell, is_typed=is_typed, before=before)
        return replace(in_grid, asked=self.exercise_at(cell))

    def next_id(self, kept: int) -> RowId:
        """The id of the row that follows `kept` rows."""
        return row_id(self.practice, kept)


def activity(grid: Grid, seed: int, aim: Aim = Aim.PRACTISE, cells: tuple[Cell, ...] | None = None) -> Activity:
    """`cells`: those that are asked, in their order; None for all of the grid's, in the grid's own."""
    if aim is Aim.FACTS:
        return Activity(grid, cells or facts.mixed(grid, seed), aim, facts.MOST_ASKED)
    return Activity(grid, cells or walk(grid, seed), aim)


@lru_cache(maxsize=16)
def _asides(practice: UUID, first_place: int) -> tuple[Activity, ...]:
    """The facts, each in its own place, mixed by the practice."""
    mixed = [(one.grid, facts.mixed(one.grid, practice.int % _SEEDS)) for one in facts.FACT_ACTIVITIES]
    return tuple(
        _placed(Activity(grid, cells, Aim.FACTS, facts.FEW_ASKED), place)
        for place, (grid, cells) in enumerate(mixed, start=first_place)
    )


def _placed(one: Activity, place: int) -> Activity:
    return replace(one, cells=tuple(replace(cell, activity=place) for cell in one.cells))


def planned(
    practice: UUID,
    activities: Sequence[Activity],
    settings: Settings,
    *,
    began_at: datetime = NO_DAY,
    before: Pupil | None = None,
    talked: tuple[Talked, ...] = (),
) -> Plan:
    """`before`: what is known of the pupil from earlier practices; `talked`: the talks about patterns in them."""
    in_order = tuple(_placed(one, place) for place, one in enumerate(activities))
    grids = tuple(one.known_grid for one in in_order)
    return Plan(
        practice,
        in_order,
        _asides(practice, len(in_order)),
        settings,
        began_at,
        known=KnownSoFar(before or Pupil(), began_at, grids),
        known_here=KnownSoFar(Pupil(), began_at, grids),
        talked=talked,
    )
