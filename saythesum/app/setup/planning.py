"""From the records to a plan: the practice that goes on, or a new one."""

from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from itertools import takewhile
from random import SystemRandom
from uuid import uuid4

from saythesum import __version__
from saythesum.app.setup.clock import utc_text
from saythesum.core.aims import Aim
from saythesum.core.grids.file_format import grid_from, text_of
from saythesum.core.grids.grid import Cell, Grid, Order
from saythesum.core.grids.starters import DEFAULT
from saythesum.core.sums import LARGEST_START
from saythesum.dialogue.tutor.plan import Plan, planned
from saythesum.learner.assessment import finding_out
from saythesum.learner.assessment.probe import form
from saythesum.learner.pupil import Pupil
from saythesum.learner.replay import Kept, learned
from saythesum.ports import Store, StoredPractice
from saythesum.settings import Settings
from saythesum.store.sqlite_errors import UnreadableError

RECENT = 3
"""So many earlier practices are read where the next sum is not chosen: enough to tell what a wrong answer could be."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a new practice is to be about."""

    aim: Aim
    grid: Grid | None
    seed: int | None


def gone_on(store: Store, pupil: str, aim: Aim, grid: Grid | None) -> StoredPractice | None:
    """The unfinished practice of this aim or grid; of whatever kind where neither was asked for."""
    if grid:
        return store.unfinished(pupil, aim=Aim.PRACTISE, grid_text=text_of(grid))
    return store.unfinished(pupil, aim=None if aim is Aim.PRACTISE else aim)


def new_practice(store: Store, pupil: str, wanted: Wanted, settings: Settings, now: datetime) -> StoredPractice:
    seed = SystemRandom().randrange(2**31) if wanted.seed is None else wanted.seed
    grid, cells = _asked(store, pupil, wanted, seed)
    return StoredPractice(
        id=uuid4(),
        pupil=pupil,
        began_at=utc_text(now),
        grid_text=text_of(grid),
        seed=seed,
        settings=settings,
        program_version=__version__,
        aim=wanted.aim,
        cells=cells,
    )


def _asked(store: Store, pupil: str, wanted: Wanted, seed: int) -> tuple[Grid, tuple[Cell, ...] | None]:
    match wanted.aim:
        case Aim.PRACTISE:
            return wanted.grid or DEFAULT.grid, None
        case Aim.PROBE:
            probe = form(len(store.practices(pupil, aim=Aim.PROBE)))
            return probe.grid, probe.cells
        case Aim.FIND_OUT:
            return finding_out.GRID, finding_out.cells_to_choose_from(seed)


def plan_of(stored: StoredPractice, store: Store) -> Plan:
    """The practice's plan, the same at every start of it: only what came before it is known of the pupil."""
    grid = _kept_grid(stored)
    return planned(
        stored.id,
        grid,
        stored.seed,
        stored.settings,
        began_at=datetime.fromisoformat(stored.began_at),
        before=earlier(stored, store, last=None if grid.order is Order.CHOSEN else RECENT),
        aim=stored.aim,
        cells=stored.cells,
    )


def earlier(stored: StoredPractice, store: Store, *, last: int | None) -> Pupil:
    """What the pupil's earlier practices tell: all of them, or the last few.

    One that cannot be read is passed over; `check` names it.
    """
    ids = list(takewhile(lambda id: id != stored.id, store.practices(stored.pupil)))
    kept: list[Kept] = []
    for id in ids if last is None else ids[-last:]:
        with suppress(UnreadableError):
            practice = store.practice(id)
            began_at = datetime.fromisoformat(practice.began_at)
            grid = _kept_grid(practice) if practice.aim.has_grid else None
            kept += [Kept(row, began_at, grid) for row in practice.rows]
    return learned(kept)


def _kept_grid(stored: StoredPractice) -> Grid:
    """One of our own may have more rows than anybody would type."""
    return grid_from(stored.grid_text, most_rows=LARGEST_START + 1)
