"""Repairs damaged records: every readable row goes into a new file in their place; the damaged file is kept beside it.

Nothing in the damaged file is trusted: a row counts if its checksum matches or, in formats without one, if its id is
the one that follows from its practice and serial.
"""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, suppress
from dataclasses import dataclass
from itertools import count
from pathlib import Path
from typing import TypeAlias
from uuid import UUID

from saythesum.core.records.rows import row_id
from saythesum.errors import CallerError, StoreError
from saythesum.store.beside.entry_tables import Table
from saythesum.store.checksum import checksum_of
from saythesum.store.codec import plan_from_text, row_from_text, settings_from_text
from saythesum.store.columns import Columns, Value, insert_practice, insert_row
from saythesum.store.lock import lock_to_practise
from saythesum.store.migrations import migrate
from saythesum.store.pages import Found, records_in
from saythesum.store.sqlite_errors import store_errors

Other: TypeAlias = tuple[str, Columns]
"""A table's name, and what stood in it."""
_SIDE_FILES = ("-wal", "-shm", "-journal")


@dataclass(frozen=True, slots=True)
class Mended:
    """What became of damaged records."""

    kept_as: Path
    """The damaged file, as it was."""
    practices: int
    rows: int


def mend(path: Path) -> Mended:
    """Raises StoreError if the records are in use for practising, or if the new file cannot be written."""
    with closing(lock_to_practise(path.parent)):
        practices, rows, others = _readable(path)
        new = _unfinished(path)
        try:
            new.unlink(missing_ok=True)
            with store_errors(path):
                _write(new, practices, rows, others)
            kept_as = _move_aside(path)
            new.rename(path)
        except OSError as error:
            raise StoreError(
                f"The damaged records in {path} cannot be replaced ({error.strerror}): make room and the folder "
                "writable, or set SAYTHESUM_HOME to another folder; nothing in them was changed."
            ) from error
    return Mended(kept_as, len(practices), len(rows))


def finish_mending(path: Path) -> None:
    """Completes a repair that was killed between its two renames: the new file is complete, its place is empty."""
    with suppress(OSError):
        if _unfinished(path).exists() and not path.exists():
            _unfinished(path).rename(path)


def _unfinished(path: Path) -> Path:
    return path.with_name(f"{path.stem}-mended{path.suffix}")


def _readable(path: Path) -> tuple[list[Columns], list[Columns], set[Other]]:
    """The practices, the rows that belong to any of them, and what is kept in other tables."""
    practices: dict[Value, Columns] = {}
    rows: dict[tuple[Value, Value], Columns] = {}
    others: set[Other] = set()
    for found in records_in(_bytes_of(path), _bytes_of(path.with_name(f"{path.name}-wal"))):
        if practice := _as_practice(found):
            practices.setdefault(practice[1], practice)
        elif row := _as_row(found):
            rows.setdefault((row[0], row[1]), row)
        elif other := _as_other(found):
            others.add(other)
    in_order = sorted(practices.values(), key=lambda columns: str(columns[0]).zfill(20))
    return in_order, [row for row in rows.values() if row[0] in practices], others


def _bytes_of(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except FileNotFoundError:
        return b""
    except OSError as error:
        raise StoreError(f"{path} cannot be read ({error.strerror}).") from error


def _as_practice(found: Found) -> Columns | None:
    """number, id, pupil, began_at, plan, seed, settings, program_version, aim"""
    columns = (found.row_number, *found.values[1:])
    if len(columns) == 10 and _fits(columns):
        return columns[:9]
    if len(columns) in (8, 9) and found.row_number is not None:  # formats 1 and 2
        columns = (*columns, "practise")[:9]
        try:
            UUID(str(columns[1]))
            plan_from_text(str(columns[4]), str(columns[8]))
            settings_from_text(str(columns[6]))
        except ValueError:
            return None
        return columns
    return None


def _as_row(found: Found) -> Columns | None:
    """practice, serial, id, kind, at, at_ms, fields"""
    columns = found.values
    if len(columns) == 8 and _fits(columns):
        return columns[:7]
    if len(columns) == 7 and found.row_number is None:  # formats 1 and 2
        practice, serial, id, kind, _, _, fields = columns
        with suppress(CallerError, ValueError):
            if isinstance(serial, int) and id == row_id(UUID(str(practice)), serial):
                row_from_text(str(kind), id, str(fields))
                return columns
    return None


def _as_other(found: Found) -> Other | None:
    """The table's name is under the checksum; where there is none, what it holds tells."""
    columns = found.values
    if len(columns) in (5, 7):
        for table in (*Table, "moves"):
            if columns[-1] == checksum_of(str(table), *columns[:-1]):
                return str(table), columns
    with suppress(ValueError):
        if len(columns) == 4 and isinstance(columns[3], int):
            return "forks", (*(str(UUID(str(id))) for id in columns[:3]), columns[3])
        if len(columns) == 2 and len(str(columns[0])) == 64 and int(str(columns[0]), 16):
            return "erased", columns
    return None


def _fits(columns: Columns) -> bool:
    *kept, checksum = columns
    return checksum == checksum_of(*kept)


def _write(new: Path, practices: list[Columns], rows: list[Columns], others: set[Other]) -> None:
    with closing(sqlite3.connect(new, isolation_level=None)) as connection:
        connection.execute("PRAGMA foreign_keys = ON")
        migrate(connection)
        connection.execute("BEGIN IMMEDIATE")
        for practice in practices:
            with suppress(sqlite3.IntegrityError):  # a duplicate, say: it stays in the damaged file only
                insert_practice(connection, practice)
        for row in rows:
            with suppress(sqlite3.IntegrityError):
                insert_row(connection, row)
        for table, columns in others:
            with suppress(sqlite3.IntegrityError):
                connection.execute(f"INSERT INTO {table} VALUES ({', '.join('?' * len(columns))})", columns)  # noqa: S608
        connection.execute("COMMIT")


def _move_aside(path: Path) -> Path:
    aside = next(name for name in _names_aside(path) if not name.exists())
    for side in _SIDE_FILES:
        with suppress(FileNotFoundError):
            path.with_name(path.name + side).rename(aside.with_name(aside.name + side))
    os.replace(path, aside)
    return aside


def files_of_mending(path: Path) -> list[Path]:
    """Damaged records that were kept, and a repair that was not finished: rows of any pupil may be in them."""
    aside = path.parent.glob(f"{path.stem}-damaged-*{path.suffix}*")
    return sorted({*aside, *path.parent.glob(f"{_unfinished(path).name}*")})


def _names_aside(path: Path) -> Iterator[Path]:
    for number in count(1):
        yield path.with_name(f"{path.stem}-damaged-{number}{path.suffix}")
