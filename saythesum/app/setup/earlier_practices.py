"""What is known of a pupil from earlier practices."""

from collections.abc import Iterable
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import NamedTuple
from uuid import UUID

from saythesum.app.setup.snapshots import Snapshot, keep_snapshot, latest_snapshot
from saythesum.core.aims import Aim
from saythesum.core.grids.grid import Grid
from saythesum.core.records.rows import Row
from saythesum.learner.pupil import Pupil
from saythesum.learner.replay import Kept, changes_earlier_rows, grid_of, learned
from saythesum.learner.worth_finding import Talked, talks_in
from saythesum.ports import EarlierPractice, Store
from saythesum.store.reading import kept_grid
from saythesum.store.sqlite_errors import UnreadableError

TALKED_IN = 12
"""So many earlier practices are looked through for talks about patterns: our own choice."""
RECENT = 3
"""So many earlier practices are read where the next sum is not chosen: enough to tell what a wrong answer could be."""


def known_lately(practice: UUID, store: Store) -> Pupil:
    """After the last few practices before this one."""
    return learned(_read(store, store.earlier(practice, last=RECENT), store.practice(practice).pupil).rows)


def known_before(practice: UUID, store: Store, snapshots: Path) -> Pupil:
    """After all the pupil's practices before this one.

    It goes on from the latest snapshot in the pupil's folder, and leaves one for the next start.
    """
    earlier, code = store.earlier(practice), store.practice(practice).pupil
    begun = latest_snapshot(snapshots, earlier) or Snapshot(0, Pupil())
    if begun.practices == len(earlier):
        return begun.pupil
    new = _read(store, earlier[begun.practices :], code)
    if changes_earlier_rows(kept.row for kept in new.rows):
        begun, new = Snapshot(0, Pupil()), _read(store, earlier, code)
    pupil = learned(new.rows, begun.pupil)
    if new.is_all:
        keep_snapshot(snapshots, earlier, pupil)
    return pupil


def talked_lately(practice: UUID, store: Store) -> tuple[Talked, ...]:
    """The talks about patterns in the last practices before this one, each on the day on which its practice began."""
    code = store.practice(practice).pupil
    rows: list[tuple[Row, datetime]] = []
    for id, _ in store.earlier(practice, last=TALKED_IN):
        with suppress(UnreadableError):
            earlier = store.practice(id)
            began_at = datetime.fromisoformat(earlier.began_at)
            rows += [(row, began_at) for row in earlier.rows_of(code)]
    return talks_in(rows)


class _Read(NamedTuple):
    rows: list[Kept]
    is_all: bool
    """Otherwise a practice or a row could not be read and is passed over; `check` names it."""


def _known_grid(aim: Aim, text: str) -> Grid | None:
    grid = kept_grid(text)
    return None if grid.is_one_by_one or not aim.has_grid else grid


def _read(store: Store, practices: Iterable[EarlierPractice], pupil: str) -> _Read:
    rows: list[Kept] = []
    is_all = True
    for id, _ in practices:
        try:
            practice = store.practice(id)
            began_at = datetime.fromisoformat(practice.began_at)
            grids = [_known_grid(one.aim, one.grid_text) for one in practice.activities]
        except UnreadableError:
            is_all = False
        else:
            is_all = is_all and not practice.left_aside
            rows += [Kept(row, began_at, grid_of(row, grids)) for row in practice.rows_of(pupil)]
    return _Read(rows, is_all)
