"""Kept rows to a pupil: all at once, or some more onto what was known.

Both come to the same. A row that an adult takes back, or amends, counts as if it had always been so.
"""

from collections import deque
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from operator import ior
from typing import NamedTuple

from saythesum.core.grids.grid import Grid
from saythesum.core.records.marks import judged_right, takes_back, with_help
from saythesum.core.records.rows import Answer, Ask, Note, NoteKind, Row, RowId, Void
from saythesum.core.records.voiding import gone_with
from saythesum.learner.pupil import Pupil, with_answer

WEIGHED_AS = 3
"""Raised whenever the same rows come to another pupil than before, so that no pupil kept from then is taken for one of
now."""
STAGES = 8
"""The last answers are taken back now and then, those before them hardly ever."""


@dataclass(frozen=True, slots=True)
class Kept:
    row: Row
    at: datetime
    """UTC."""
    grid: Grid | None = None
    """The grid of the row's practice."""


def learned(rows: Iterable[Kept], before: Pupil | None = None) -> Pupil:
    """What is known after these rows; `before`: after the rows that came before them, which none of these changes."""
    pupil = _with_own_dicts(before or Pupil())
    for kept in _live(rows):
        if isinstance(kept.row, Answer):
            pupil = with_answer(pupil, kept.row, kept.at.date(), kept.grid, merge=ior)
    return pupil


def _with_own_dicts(pupil: Pupil) -> Pupil:
    """One that may be used up."""
    return replace(pupil, beliefs={**pupil.beliefs}, traces={**pupil.traces}, upkeep={**pupil.upkeep})


def changes_earlier_rows(rows: Iterable[Row]) -> bool:
    """Whether one of them takes back or amends a row that is not among those before it here."""
    ids: set[RowId] = set()
    for row in rows:
        changed = _row_changed(row)
        if changed is not None and changed not in ids:
            return True
        ids.add(row.id)
    return False


class KnownSoFar:
    """What is known of a pupil in the course of one practice, from its live rows.

    It goes on from what it was asked for last, so an answer costs the same at the end of a long practice as at its
    beginning. That is all it remembers: the same rows come to the same pupil, whatever was asked before.
    """

    def __init__(self, before: Pupil, at: datetime, grids: Sequence[Grid | None]) -> None:
        """`grids`: of each of the practice's activities."""
        self._at = at
        self._grids = grids
        self._start = _Stage((), before)
        self._stages: deque[_Stage] = deque(maxlen=STAGES)

    def after(self, live: tuple[Row, ...]) -> Pupil:
        begun = next((stage for stage in reversed(self._stages) if _leads_to(stage, live)), self._start)
        new = live[len(begun.live) :]
        if not new:
            return begun.pupil
        pupil = learned((Kept(row, self._at, grid_of(row, self._grids)) for row in new), begun.pupil)
        self._stages.append(_Stage(live, pupil))
        return pupil


def grid_of(row: Row, grids: Sequence[Grid | None]) -> Grid | None:
    """Where it was asked, of the grids of the practice's activities; None where no grid is known."""
    return grids[row.activity] if isinstance(row, Answer) and row.activity < len(grids) else None


class _Stage(NamedTuple):
    live: tuple[Row, ...]
    pupil: Pupil


def _leads_to(stage: _Stage, live: tuple[Row, ...]) -> bool:
    so_many = len(stage.live)
    return live[:so_many] == stage.live and not changes_earlier_rows(live[so_many:])


def _live(rows: Iterable[Kept]) -> list[Kept]:
    """The rows that hold, with every void and amendment carried out in the order it was made."""
    rows = list(rows)
    live: list[Kept] = []
    places: dict[RowId, int] = {}
    holding = _notes_that_hold(kept.row for kept in rows)
    for kept in rows:
        changed = _row_changed(kept.row)
        if changed is not None and isinstance(kept.row, Note) and kept.row.id not in holding:
            continue
        if changed is None:
            places[kept.row.id] = len(live)
            live.append(kept)
        elif changed in places:
            at = places[changed]
            since = live[at:]
            for later in since:
                places.pop(later.row.id, None)  # a damaged store may hold an id twice
            live[at:] = _without(kept.row, changed, since)
            places.update({later.row.id: place for place, later in enumerate(live[at:], at)})
    return live


def _notes_that_hold(rows: Iterable[Row]) -> frozenset[RowId]:
    """The newest of each kind about each row, unless it only takes back the one before."""
    newest = {(row.of, row.what): row for row in rows if isinstance(row, Note)}
    return frozenset(note.id for note in newest.values() if not takes_back(note))


def _row_changed(row: Row) -> RowId | None:
    """The row that a void or an adult's note changes; None for all rows that only add."""
    match row:
        case Answer() | Ask():  # nearly all rows
            return None
        case Void(of=of):
            return of
        case Note(of=of, what=NoteKind.NOT_COUNTED | NoteKind.SUPPORT | NoteKind.WAS_RIGHT):
            return of
        case _:
            return None


def _without(row: Row, changed: RowId, since: Sequence[Kept]) -> list[Kept]:
    """`since` begins with the row that is changed. A level of help that is not known changes nothing."""
    first, later = since[0], list(since[1:])
    match row:
        case Void():
            gone = gone_with(changed, [kept.row for kept in since])
            return [kept for kept in since if kept.row.id not in gone]
        case Note(what=NoteKind.SUPPORT, value=value) if isinstance(first.row, Answer):
            return [replace(first, row=with_help(first.row, value)), *later]
        case Note(what=NoteKind.WAS_RIGHT) if isinstance(first.row, Answer):
            gone = gone_with(changed, [kept.row for kept in since])
            return [replace(first, row=judged_right(first.row)), *(kept for kept in later if kept.row.id not in gone)]
        case Note(what=NoteKind.NOT_COUNTED):
            return later
        case _:
            return list(since)
