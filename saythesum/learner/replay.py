"""Kept rows to a pupil: all at once, or one more row onto what was known.

Both come to the same. A row that an adult takes back, or amends, counts as if it had always been so.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from operator import ior, or_

from saythesum.core.grids.grid import Grid
from saythesum.core.records.rows import Answer, Ask, Note, NoteKind, Row, RowId, Support, Void
from saythesum.core.records.voiding import gone_with
from saythesum.learner.pupil import Merge, Pupil, with_answer

REACH = 400
"""A void looks back over so many rows at once; further back, everything is replayed. A practice is shorter."""


@dataclass(frozen=True, slots=True)
class Kept:
    row: Row
    at: datetime
    """UTC."""
    grid: Grid | None = None
    """The grid of the row's practice."""


@dataclass(frozen=True, slots=True)
class Step:
    kept: Kept
    before: Pupil


@dataclass(frozen=True, slots=True)
class Record:
    pupil: Pupil = field(default_factory=Pupil)
    steps: tuple[Step, ...] = ()
    """The last live rows and what was known before each, so that they can be taken back."""
    wants_replay: bool = False
    """A row from long ago was taken back or amended: only `learned` from all rows is true now."""


def learned(rows: Iterable[Kept]) -> Record:
    live = _live(rows)
    early = max(len(live) - REACH, 0)
    pupil = Pupil()
    for kept in live[:early]:
        pupil = _after(pupil, kept, merge=ior)  # nobody else holds it
    return _followed(Record(pupil), live[early:])


def with_row(record: Record, kept: Kept) -> Record:
    """What is known with one more row."""
    changed = _row_changed(kept.row)
    if changed is None:
        return _followed(record, (kept,))
    places = [place for place, step in enumerate(record.steps) if step.kept.row.id == changed]
    if not places:
        return replace(record, wants_replay=True)
    at = places[-1]
    since = _without(kept.row, changed, [step.kept for step in record.steps[at:]])
    begun = Record(record.steps[at].before, record.steps[:at], record.wants_replay)
    return _followed(begun, since)


def with_rows(record: Record, rows: Iterable[Kept]) -> Record:
    """As `with_row` for each of them, but many cost little more than one."""
    plain: list[Kept] = []
    for kept in rows:
        if _row_changed(kept.row) is None:
            plain.append(kept)
        else:
            record, plain = with_row(_followed(record, plain), kept), []
    return _followed(record, plain)


def _followed(record: Record, rows: Sequence[Kept]) -> Record:
    pupil, steps = record.pupil, list(record.steps)
    for kept in rows:
        steps.append(Step(kept, pupil))
        pupil = _after(pupil, kept)
    return Record(pupil, tuple(steps[-REACH:]), record.wants_replay)


def _after(pupil: Pupil, kept: Kept, *, merge: Merge = or_) -> Pupil:
    if not isinstance(kept.row, Answer):
        return pupil
    return with_answer(pupil, kept.row, kept.at.date(), kept.grid, merge=merge)


def _live(rows: Iterable[Kept]) -> list[Kept]:
    """The rows that hold, with every void and amendment carried out in the order it was made."""
    live: list[Kept] = []
    places: dict[RowId, int] = {}
    for kept in rows:
        changed = _row_changed(kept.row)
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


def _row_changed(row: Row) -> RowId | None:
    """The row that a void or an adult's note changes; None for all rows that only add."""
    match row:
        case Answer() | Ask():  # nearly all rows
            return None
        case Void(of=of):
            return of
        case Note(of=of, what=NoteKind.NOT_COUNTED | NoteKind.SUPPORT):
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
        case Note(what=NoteKind.SUPPORT, value=value) if isinstance(first.row, Answer) and value in list(Support):
            return [replace(first, row=replace(first.row, support=Support(value))), *later]
        case Note(what=NoteKind.NOT_COUNTED):
            return later
        case _:
            return list(since)
