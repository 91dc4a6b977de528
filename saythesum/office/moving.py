"""A practice, or a part of it, moved to the pupil whose it is. Moving it back undoes that."""

from contextlib import closing
from dataclasses import dataclass
from datetime import datetime, timedelta
from uuid import UUID

from saythesum.core.records.times import utc_text
from saythesum.errors import CallerError
from saythesum.office.places import Places
from saythesum.office.pupils import known_code
from saythesum.office.upkeep.snapshots import drop_snapshots
from saythesum.store.beside.moves import TO_THE_END, Move, insert_move
from saythesum.store.records import SqliteStore
from saythesum.store.sqlite_errors import store_errors


@dataclass(frozen=True, slots=True)
class Moved:
    practice: UUID
    rows: int
    before: tuple[str, ...]
    """Whose they were."""
    pupil: str
    """Whose they are now."""


def move(places: Places, practice: UUID, to: str, now: datetime, *, first: int = 0, last: int | None = None) -> Moved:
    """`first` and `last`: serials of rows, counted from 0; without `last` to the end, also what is added later.

    All or nothing. Nobody may be practising. Raises CallerError and StoreError.
    """
    code = known_code(places, to)
    with closing(SqliteStore(places.records_file)) as store, store_errors(places.records_file):
        stored = store.practice(practice)
        if not 0 <= first <= (len(stored.rows) - 1 if last is None else last) < max(len(stored.rows), 1):
            rows = f"0 to {len(stored.rows) - 1}" if stored.rows else "none"
            raise CallerError(f"The practice has the rows {rows}; name the first and the last of those to be moved.")
        end = len(stored.rows) - 1 if last is None else last
        owners = stored.owners or (stored.pupil,) * len(stored.rows)
        before = tuple(sorted({*owners[first : end + 1]} or {stored.pupil}))
        for one in {*before, code, *owners}:
            drop_snapshots(places, one)
        is_rest = end == len(stored.rows) - 1
        # A move is as new as the newest, also where the clock went back.
        (newest,) = store.connection.execute(
            "SELECT coalesce(max(at), '') FROM moves WHERE practice = ?", (str(practice),)
        ).fetchone()
        at = max(utc_text(now), _after(newest))
        store.connection.execute("BEGIN IMMEDIATE")
        insert_move(store.connection, Move(practice, first, TO_THE_END if is_rest else end, code, at))
        store.connection.execute("COMMIT")
    return Moved(practice, end - first + 1 if stored.rows else 0, before, code)


def _after(at: str) -> str:
    """A millisecond later than a kept time."""
    return utc_text(datetime.fromisoformat(at) + timedelta(milliseconds=1)) if at else ""
