"""What adults decide about a pupil, in append-only tables beside the practices: the newest entry of a kind holds.

Written with SQLite's own lock, also while somebody practises.
"""

import json
import sqlite3
from collections.abc import Iterable, Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from uuid import UUID, uuid4

from saythesum.errors import StoreError
from saythesum.store.beside.entry_tables import Table
from saythesum.store.beside.opening import opened_to_write
from saythesum.store.checksum import checksum_of
from saythesum.store.reading import open_to_read
from saythesum.store.sqlite_errors import store_errors


@dataclass(frozen=True, slots=True)
class Entry:
    pupil: str
    at: str
    """UTC, ISO 8601."""
    fields: Mapping[str, Any]
    """What JSON can say."""
    id: UUID = field(default_factory=uuid4)


def add_entries(records: Path, entries: Mapping[Table, Sequence[Entry]]) -> None:
    """All of them or none. One that is there already, by its id, is not added again."""
    if not any(entries.values()):
        return
    with store_errors(records), closing(opened_to_write(records)) as connection:
        connection.execute("BEGIN IMMEDIATE")
        for table, some in entries.items():
            insert_entries(connection, table, some)
        connection.execute("COMMIT")


def insert_entries(connection: sqlite3.Connection, table: Table, entries: Iterable[Entry]) -> int:
    """How many of them were new."""
    before = connection.total_changes
    for entry in entries:
        # The table's name is under the checksum, so that an entry found in a damaged file shows where it belongs.
        columns = (str(entry.id), entry.pupil, entry.at, json.dumps(entry.fields, allow_nan=False))
        connection.execute(
            f"INSERT INTO {table} SELECT ?1, ?2, ?3, ?4, ?5 "  # noqa: S608 - a name of ours
            f"WHERE NOT EXISTS (SELECT 1 FROM {table} WHERE id = ?1)",
            (*columns, checksum_of(table.value, *columns)),
        )
    return connection.total_changes - before


def entries_in(records: Path, table: Table, pupil: str | None = None) -> tuple[Entry, ...]:
    """Oldest first; of all pupils where none is named. None where there are no records yet."""
    try:
        reader = open_to_read(records)
    except StoreError:
        if records.exists() and records.stat().st_size:
            raise
        return ()
    with closing(reader), store_errors(records):
        return read_entries(reader.connection, table, pupil)


def read_entries(connection: sqlite3.Connection, table: Table, pupil: str | None = None) -> tuple[Entry, ...]:
    """Those that were damaged on the disk are passed over."""
    found = connection.execute(
        f"SELECT id, pupil, at, fields, checksum FROM {table} "  # noqa: S608 - a name of ours
        "WHERE ?1 IS NULL OR pupil = ?1 ORDER BY at, rowid",
        (pupil,),
    )
    return tuple(
        Entry(of, at, json.loads(fields), UUID(id))
        for id, of, at, fields, checksum in found
        if checksum == checksum_of(table.value, id, of, at, fields)
    )
