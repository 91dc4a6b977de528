"""A pupil erased completely: rows, entries, settings, snapshots, rescue files, damaged copies, free pages.

In steps that may each be broken off: the code stands in the table `erasing` from the transaction that deletes to the
last step, and `finish_erasing` goes on from there. What lies outside the program's own folders is not removed.
"""

import json
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import closing, suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from uuid import UUID

from saythesum.core.records.times import utc_text
from saythesum.errors import CallerError, StoreError
from saythesum.office.places import Places
from saythesum.office.plans.weeks import plans_of, take_out_of_plan
from saythesum.office.pupils import known_code
from saythesum.office.upkeep.erased import remember_erased
from saythesum.office.upkeep.snapshots import drop_snapshots
from saythesum.settings.changing import parts_of
from saythesum.store.beside.entry_tables import Table
from saythesum.store.beside.moves import Moves, moves_in
from saythesum.store.columns import Columns, insert_practice, insert_row, practice_columns, row_columns
from saythesum.store.mending import files_of_mending
from saythesum.store.pupils import pupil_code
from saythesum.store.reading import open_to_read
from saythesum.store.records import SqliteStore
from saythesum.store.rescue import rescue_files
from saythesum.store.sqlite_errors import store_errors
from saythesum.wording.for_adults.counted import counted

_BLANK = json.dumps({"of": None, "what": "text", "value": "", "by": "adult"})
"""What stands in place of a row in a practice that was partly another pupil's."""

NOT_REMOVED = "Not removed: files of records, logs and reports that you saved elsewhere, and the school's own backups."


@dataclass(frozen=True, slots=True)
class Erased:
    """What was removed, or would be."""

    code: str
    practices: int
    rows: int
    entries: int
    """Targets, plans, offers, changes and sheets."""
    files: tuple[Path, ...]
    """Settings, own words, snapshots, rescue files, and damaged copies of all the records."""
    plans: tuple[Path, ...] = ()
    """Plans of the week out of which the code is taken; one that is left with nobody is removed."""


def look_at_erasing(places: Places, given: str) -> Erased:
    """What `erase` would remove; nothing is changed. Raises CallerError and StoreError."""
    code = known_code(places, given)
    with closing(open_to_read(places.records_file)) as reader, store_errors(places.records_file):
        return _would_erase(places, reader.connection, code)


def _would_erase(places: Places, connection: sqlite3.Connection, code: str) -> Erased:
    owned = _owned(connection, moves_in(connection), code)
    entries = sum(_count(connection, table.value, code) for table in Table)
    rows = sum(one.owners.count(code) for one in owned)
    return Erased(
        code, sum(one.is_all for one in owned), rows, entries, tuple(_files(places, code)), plans_of(places, code)
    )


def erase(places: Places, given: str, now: datetime) -> Erased:
    """Nobody may be practising. Raises CallerError and StoreError; called again, it goes on where it broke off."""
    code = pupil_code(given)
    with closing(SqliteStore(places.records_file)) as store:
        if code in finish_erasing(places, store, now):
            return Erased(code, 0, 0, 0, ())
        code = known_code(places, code)
        with store_errors(places.records_file):
            would = _would_erase(places, store.connection, code)
        _erase(places, store, code, utc_text(now))
    return would


def finish_erasing(places: Places, store: SqliteStore, now: datetime) -> tuple[str, ...]:
    """Goes on with what was broken off. The codes that were erased."""
    with store_errors(places.records_file):
        codes = [code for (code,) in store.connection.execute("SELECT pupil FROM erasing ORDER BY pupil")]
    for code in codes:
        _erase(places, store, code, utc_text(now))
    return tuple(codes)


def _erase(places: Places, store: SqliteStore, code: str, at: str) -> None:
    connection = store.connection
    with store_errors(places.records_file):
        connection.execute("PRAGMA secure_delete = ON")
        connection.execute("BEGIN IMMEDIATE")
        try:
            others = _delete(connection, code, at)
            connection.execute("COMMIT")
        except BaseException:
            if connection.in_transaction:
                connection.execute("ROLLBACK")
            raise
    for other in others:
        drop_snapshots(places, other)
    _remove(places, code)
    with store_errors(places.records_file):
        connection.execute("VACUUM")
        _empty_log(connection, places)
        connection.execute("DELETE FROM erasing WHERE pupil = ?", (code,))
        _empty_log(connection, places)


def _empty_log(connection: sqlite3.Connection, places: Places) -> None:
    (is_busy, _, _) = connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
    if is_busy:
        raise StoreError(
            f"Another program is reading the records in {places.records_file}: close it and erase once more; "
            "until then what was erased can still be found in the file."
        )


@dataclass(frozen=True, slots=True)
class _Owned:
    """A practice that has to do with the pupil."""

    id: str
    owners: Sequence[str]
    """Whose each row is."""
    heir: str | None
    """Who keeps what is left of it; None where all of it is the pupil's."""

    @property
    def is_all(self) -> bool:
        return self.heir is None


def _owned(connection: sqlite3.Connection, moves: Moves, code: str) -> list[_Owned]:
    owned = []
    moved = {str(id) for id in moves}
    for id, first in connection.execute("SELECT id, pupil FROM practices NOT INDEXED").fetchall():
        if first != code and id not in moved:
            continue
        serials = [
            serial
            for (serial,) in connection.execute("SELECT serial FROM rows WHERE practice = ? ORDER BY serial", (id,))
        ]
        owners = [moves.owner(UUID(id), serial, first) for serial in serials] if id in moved else [first] * len(serials)
        holders = owners or [moves.pupil(UUID(id), first) if id in moved else first]
        if code in (*holders, first):
            owned.append(_Owned(id, owners, next((one for one in reversed(holders) if one != code), None)))
    return owned


def _delete(connection: sqlite3.Connection, code: str, at: str) -> set[str]:
    """The pupils who have a part in the same practices."""
    moves = moves_in(connection)
    owned = _owned(connection, moves, code)
    firsts = {str(practice_columns(connection, UUID(one.id))[2]) for one in owned}
    connection.executemany("INSERT OR IGNORE INTO erasing VALUES (?)", [(one,) for one in {code, *firsts}])
    for one in owned:
        if one.is_all:
            connection.execute("DELETE FROM rows WHERE practice = ?", (one.id,))
            connection.execute("DELETE FROM forks WHERE practice = ?", (one.id,))
            connection.execute("DELETE FROM practices WHERE id = ?", (one.id,))
            connection.execute("DELETE FROM moves WHERE practice = ?", (one.id,))
        else:
            _leave_to_heir(connection, one, code)
    connection.execute("DELETE FROM moves WHERE pupil = ?", (code,))
    for table in Table:
        connection.execute(f"DELETE FROM {table} WHERE pupil = ?", (code,))  # noqa: S608 - names of ours
    remember_erased(connection, code, at)
    connection.executemany("DELETE FROM erasing WHERE pupil = ?", [(one,) for one in firsts - {code}])
    return {owner for one in owned for owner in one.owners} - {code}


def _leave_to_heir(connection: sqlite3.Connection, of: _Owned, code: str) -> None:
    """The pupil's rows are blank then, and the practice bears the other's code."""
    practice = practice_columns(connection, UUID(of.id))
    rows = row_columns(connection, of.id)
    fork = connection.execute("SELECT * FROM forks WHERE practice = ?", (of.id,)).fetchone()
    connection.execute("DELETE FROM rows WHERE practice = ?", (of.id,))
    connection.execute("DELETE FROM forks WHERE practice = ?", (of.id,))
    connection.execute("DELETE FROM practices WHERE id = ?", (of.id,))
    number, id, first, *others = practice
    insert_practice(connection, (number, id, of.heir if first == code else first, *others))
    for row, owner in zip(rows, of.owners, strict=True):
        insert_row(connection, _blank(row) if owner == code else row)
    if fork:
        connection.execute("INSERT INTO forks VALUES (?, ?, ?, ?)", fork)


def _blank(row: Columns) -> Columns:
    practice, serial, id, _, at, _, _ = row
    return practice, serial, id, "note", at, 0, _BLANK


def _count(connection: sqlite3.Connection, table: str, code: str) -> int:
    query = f"SELECT count(*) FROM {table} WHERE pupil = ?"  # noqa: S608 - a name of ours
    (count,) = connection.execute(query, (code,)).fetchone()
    return int(count)


def _files(places: Places, code: str) -> Iterator[Path]:
    for file in (places.pupil_file(code), places.words_file(code)):
        yield from (one for one in (file, *parts_of(file)) if one.exists())
    if places.snapshots(code).exists():
        yield places.snapshots(code)
    yield from (file for file in rescue_files(places.records_file, places.for_rescue) if _may_hold(file, code))
    yield from files_of_mending(places.records_file)


def _may_hold(rescue: Path, code: str) -> bool:
    """Also where it cannot be read: nobody knows then whose answers are in it."""
    with suppress(sqlite3.Error), closing(sqlite3.connect(rescue)) as connection:
        return code in {pupil for (pupil,) in connection.execute("SELECT pupil FROM practices")}
    return True


def _remove(places: Places, code: str) -> None:
    drop_snapshots(places, code)
    for plan in plans_of(places, code):
        try:
            take_out_of_plan(plan, code)
        except OSError as error:
            raise CallerError(
                f"{plan} cannot be changed ({error.strerror}): make its folder writable and erase once more."
            ) from error
    for file in _files(places, code):
        try:
            file.unlink(missing_ok=True)
        except OSError as error:
            raise CallerError(
                f"{file} cannot be removed ({error.strerror}): make its folder writable and erase once more."
            ) from error


def account_of_erasing(came: Erased, *, would: bool) -> Iterator[str]:
    begins = "Would be erased" if would else "Erased"
    yield (
        f"{begins} of {came.code}: {counted(came.practices, 'practice')}, {counted(came.rows, 'row')}, "
        f"{counted(came.entries, 'target or change', 'targets and changes')}."
    )
    for file in came.files:
        yield f"{begins}: {file}"
    for plan in came.plans:
        yield f"{begins} from the plan {plan}"
    yield NOT_REMOVED
