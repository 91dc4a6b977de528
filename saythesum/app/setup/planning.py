"""From the records to a plan: the practice that goes on, or a new one."""

from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from random import SystemRandom
from uuid import UUID, uuid4

from saythesum import __version__
from saythesum.app.setup.earlier_practices import known_before, known_lately, talked_lately
from saythesum.core.aims import Aim
from saythesum.core.grids.facts import FACT_ACTIVITIES
from saythesum.core.grids.file_format import text_of
from saythesum.core.grids.grid import Grid, Order
from saythesum.core.grids.starters import DEFAULT, STARTERS, Stage
from saythesum.core.records.rows import End, EndReason
from saythesum.core.records.times import utc_text
from saythesum.dialogue.tutor.plan import Plan, activity, planned
from saythesum.dialogue.tutor.progress import ended, folded
from saythesum.errors import CallerError
from saythesum.learner.assessment import finding_out
from saythesum.learner.assessment.probe import form
from saythesum.office.plans.today import PlannedActivity
from saythesum.ports import Store, StoredActivity, StoredPractice
from saythesum.settings import Settings
from saythesum.store.reading import kept_grid
from saythesum.store.sqlite_errors import UnreadableError


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a new practice is to be about."""

    aim: Aim
    grid: Grid | None
    seed: int | None
    planned: tuple[PlannedActivity, ...] = ()
    """What the plan of the week has for today; () where something else was asked for, or nothing is planned."""


def gone_on(store: Store, pupil: str, wanted: Wanted) -> StoredPractice | None:
    """The unfinished practice of this plan, aim and grid, or of any kind where none was asked for."""
    aim, grid = wanted.aim, wanted.grid
    if wanted.planned:
        return store.unfinished(pupil, fits=lambda stored: _is_as_planned(stored, wanted.planned))
    if grid:
        return store.unfinished(pupil, aim=aim, grid_text=text_of(grid))
    return store.unfinished(pupil, aim=None if aim is Aim.PRACTISE else aim)


def new_practice(store: Store, pupil: str, wanted: Wanted, settings: Settings, now: datetime) -> StoredPractice:
    seed = SystemRandom().randrange(2**31) if wanted.seed is None else wanted.seed
    planned = wanted.planned or (PlannedActivity(wanted.aim, wanted.grid),)
    first, *then = _activities(store, pupil, planned, seed)
    return StoredPractice(
        id=uuid4(),
        pupil=pupil,
        began_at=utc_text(now),
        grid_text=first.grid_text,
        seed=seed,
        settings=settings,
        program_version=__version__,
        aim=first.aim,
        cells=first.cells,
        then=tuple(then),
    )


def _activities(store: Store, pupil: str, planned: Sequence[PlannedActivity], seed: int) -> list[StoredActivity]:
    """A talk about patterns is about the grid before it. Raises CallerError where there is none."""
    made: list[StoredActivity] = []
    for one in planned:
        if one.aim is not Aim.TALK:
            made.append(_activity(store, pupil, one, seed))
        elif made and made[-1].aim is Aim.PRACTISE:
            made.append(StoredActivity(Aim.TALK, made[-1].grid_text))
        else:
            raise CallerError("A talk about patterns needs a grid just before it.")
    return made


def _activity(store: Store, pupil: str, planned: PlannedActivity, seed: int) -> StoredActivity:
    match planned.aim:
        case Aim.PRACTISE:
            return StoredActivity(Aim.PRACTISE, text_of(planned.grid or _next_grid(store, pupil)))
        case Aim.FACTS:
            return StoredActivity(Aim.FACTS, text_of(planned.grid or FACT_ACTIVITIES[0].grid))
        case Aim.PROBE:
            probe = form(len(store.practices(pupil, aim=Aim.PROBE)))
            return StoredActivity(Aim.PROBE, text_of(probe.grid), probe.cells)
        case Aim.TALK:
            raise AssertionError("a talk is made of the grid before it")
        case Aim.FIND_OUT:
            return StoredActivity(Aim.FIND_OUT, text_of(finding_out.GRID), finding_out.cells_to_choose_from(seed))


def _is_as_planned(stored: StoredPractice, planned: Sequence[PlannedActivity]) -> bool:
    """A grid that the tool chose is any grid."""
    return len(stored.activities) == len(planned) and all(
        one.aim is asked.aim and (asked.grid is None or one.grid_text == text_of(asked.grid))
        for one, asked in zip(stored.activities, planned, strict=True)
    )


def is_done_today(store: Store, pupil: str, planned: Sequence[PlannedActivity], now: datetime) -> bool:
    """Whether what is planned was begun today and finished."""
    for stored in _readable(store, [*reversed(store.practices(pupil))]):
        if datetime.fromisoformat(stored.began_at).astimezone().date() < now.astimezone().date():
            return False
        if _is_as_planned(stored, planned) and ended(folded(stored.rows)) is EndReason.FINISHED:
            return True
    return False


def _next_grid(store: Store, pupil: str) -> Grid:
    """The first in the order of teaching that the pupil has not been through; never the same again.

    A pupil who did well with the first grid of all, which is mixed, need not begin with adding one.
    """
    ids = store.practices(pupil, aim=Aim.PRACTISE)[-len(STARTERS) :]
    practised = [practice for practice in _readable(store, ids) if practice.aim is Aim.PRACTISE]
    done = [practice for practice in practised if ended(folded(practice.rows)) is EndReason.FINISHED]
    if not done:
        return DEFAULT.grid
    been = {practice.grid_text for practice in done}
    went_well = any(practice.grid_text == text_of(DEFAULT.grid) and _went_well(practice) for practice in done)
    ahead = [one for one in STARTERS if not (went_well and one.stage in _BEFORE_CROSSING)]
    new = [one.grid for one in ahead if text_of(one.grid) not in been]
    others = [one.grid for one in ahead if text_of(one.grid) != done[-1].grid_text]
    return (new or others)[0]


def _readable(store: Store, ids: Sequence[UUID]) -> Iterator[StoredPractice]:
    """Skips answers from paper, and a practice that cannot be read; `check` names it."""
    for id in ids:
        with suppress(UnreadableError):
            if not (stored := store.practice(id)).is_from_paper:
                yield stored


_BEFORE_CROSSING = (Stage.PLUS_ONE, Stage.WITHIN, Stage.LANDING)
WELL = 0.75
"""The share of sums right at the first try from which a grid went well. Our own choice."""


def _went_well(practice: StoredPractice) -> bool:
    end = next(row for row in reversed(practice.rows) if isinstance(row, End))
    return end.right_first_time >= WELL * end.cells


def plan_of(stored: StoredPractice, store: Store, snapshots: Path) -> Plan:
    """The practice's plan, the same at every start of it: only what came before it is known of the pupil.

    `snapshots`: the pupil's folder for what is known after so many practices.
    """
    activities = [activity(kept_grid(one.grid_text), stored.seed, one.aim, one.cells) for one in stored.activities]
    is_chosen = any(one.grid.order is Order.CHOSEN for one in activities)
    before = known_before(stored.id, store, snapshots) if is_chosen else known_lately(stored.id, store)
    return planned(
        stored.id,
        activities,
        stored.settings,
        began_at=datetime.fromisoformat(stored.began_at),
        before=before,
        talked=talked_lately(stored.id, store),
    )
