"""The shape of the records, as numbered changes. A change that has landed is never edited: add the next one.

A new kind of row is a change too (`kind` is checked), so a program that does not know it refuses the records
instead of passing over them. The SQL would run on PostgreSQL too, except for STRICT, the triggers and
`checksum_of`, which is our own function.
"""

import sqlite3
from collections.abc import Sequence
from contextlib import closing
from functools import cache
from pathlib import Path
from typing import TypeAlias

from saythesum.errors import StoreError
from saythesum.store.checksum import checksum_of
from saythesum.store.sqlite_errors import damaged

Change: TypeAlias = tuple[str, ...]

OURS = int.from_bytes(b"SaTS")
"""SQLite's application id: tells our records from another program's database."""

_BEGIN: Change = (
    f"PRAGMA application_id = {OURS}",
    """
    CREATE TABLE practices (
        number INTEGER PRIMARY KEY,
        id TEXT NOT NULL UNIQUE,
        pupil TEXT NOT NULL,
        began_at TEXT NOT NULL,
        plan TEXT NOT NULL,
        seed INTEGER NOT NULL,
        settings TEXT NOT NULL,
        program_version TEXT NOT NULL
    ) STRICT
    """,
    "CREATE INDEX practices_of_a_pupil ON practices (pupil, number)",
    """
    CREATE TABLE rows (
        practice TEXT NOT NULL REFERENCES practices (id),
        serial INTEGER NOT NULL CHECK (serial >= 0),
        id TEXT NOT NULL UNIQUE,
        kind TEXT NOT NULL CHECK (kind IN ('ask', 'answer', 'void', 'note', 'end')),
        at TEXT NOT NULL,
        at_ms INTEGER NOT NULL,
        fields TEXT NOT NULL,
        PRIMARY KEY (practice, serial)
    ) STRICT, WITHOUT ROWID
    """,
    # Erasing a pupil must be deliberate: the pupil is listed here first, in the transaction that deletes.
    "CREATE TABLE erasing (pupil TEXT PRIMARY KEY) STRICT",
    """
    CREATE TRIGGER rows_are_never_changed BEFORE UPDATE ON rows
    BEGIN SELECT raise(ABORT, 'rows are only added'); END
    """,
    """
    CREATE TRIGGER rows_are_never_deleted BEFORE DELETE ON rows
    WHEN NOT EXISTS (
        SELECT 1 FROM practices JOIN erasing USING (pupil) WHERE practices.id = OLD.practice
    )
    BEGIN SELECT raise(ABORT, 'rows are only added'); END
    """,
    # INSERT OR REPLACE deletes rows without firing the trigger above.
    """
    CREATE TRIGGER rows_are_never_replaced BEFORE INSERT ON rows
    WHEN EXISTS (
        SELECT 1 FROM rows WHERE id = NEW.id OR (practice = NEW.practice AND serial = NEW.serial)
    )
    BEGIN SELECT raise(ABORT, 'rows are only added'); END
    """,
    """
    CREATE TRIGGER practices_are_never_changed BEFORE UPDATE ON practices
    BEGIN SELECT raise(ABORT, 'practices are only added'); END
    """,
    """
    CREATE TRIGGER practices_are_never_deleted BEFORE DELETE ON practices
    WHEN NOT EXISTS (SELECT 1 FROM erasing WHERE pupil = OLD.pupil)
    BEGIN SELECT raise(ABORT, 'practices are only added'); END
    """,
    """
    CREATE TRIGGER practices_are_never_replaced BEFORE INSERT ON practices
    WHEN EXISTS (SELECT 1 FROM practices WHERE id = NEW.id OR number = NEW.number)
    BEGIN SELECT raise(ABORT, 'practices are only added'); END
    """,
)

_AIMS: Change = (
    # A column, and not a field of the plan: a program that knows no probes must refuse these records, for it would
    # help in one.
    """
    ALTER TABLE practices ADD COLUMN aim TEXT NOT NULL DEFAULT 'practise'
        CHECK (aim IN ('practise', 'probe', 'find-out'))
    """,
)

_CHECKSUMS: Change = (
    # The default only lasts until the UPDATE below, which gives every row its checksum.
    "ALTER TABLE practices ADD COLUMN checksum INTEGER NOT NULL DEFAULT 0",
    "ALTER TABLE rows ADD COLUMN checksum INTEGER NOT NULL DEFAULT 0",
    "DROP TRIGGER practices_are_never_changed",
    "DROP TRIGGER rows_are_never_changed",
    """
    UPDATE practices SET checksum =
        checksum_of(number, id, pupil, began_at, plan, seed, settings, program_version, aim)
    """,
    "UPDATE rows SET checksum = checksum_of(practice, serial, id, kind, at, at_ms, fields)",
    """
    CREATE TRIGGER practices_are_never_changed BEFORE UPDATE ON practices
    BEGIN SELECT raise(ABORT, 'practices are only added'); END
    """,
    """
    CREATE TRIGGER rows_are_never_changed BEFORE UPDATE ON rows
    BEGIN SELECT raise(ABORT, 'rows are only added'); END
    """,
)

_EXERCISES: Change = ()
"""Rows say more of a question: its exercise, its activity, the form of its words, and whether the gate was sure.

All of that stands in `fields`, so no table changes; the number alone keeps an older program from reading every
question as a sum.
"""

_ACTIVITIES: Change = ()
"""A plan may hold further activities (`then`); the number keeps an older program from ending after the first."""

_TELLING_APART: Change = ()
"""Questions may ask for parts that are no steps, in forms that an older program has no words for."""


def _append_only(table: str, columns: str) -> Change:
    """Only erasing a pupil deletes from it, as with rows."""
    name, only = f"{table}_are_never", f"raise(ABORT, '{table} are only added')"
    known, erases = f"SELECT 1 FROM {table} WHERE id = NEW.id", "SELECT 1 FROM erasing"  # noqa: S608 - names of ours
    return (
        f"CREATE TABLE {table} (id TEXT PRIMARY KEY, {columns}, checksum INTEGER NOT NULL) STRICT",
        f"CREATE TRIGGER {name}_changed BEFORE UPDATE ON {table} BEGIN SELECT {only}; END",
        f"CREATE TRIGGER {name}_replaced BEFORE INSERT ON {table} WHEN EXISTS ({known}) BEGIN SELECT {only}; END",
        f"CREATE TRIGGER {name}_deleted BEFORE DELETE ON {table} WHEN NOT EXISTS ({erases}) BEGIN SELECT {only}; END",
    )


_ENTRY = "pupil TEXT NOT NULL, at TEXT NOT NULL, fields TEXT NOT NULL"

_DESK: Change = (
    *_append_only("targets", _ENTRY),
    *_append_only("plans", _ENTRY),
    *_append_only("offers", _ENTRY),
    *_append_only("changes", _ENTRY),
    *_append_only("sheets", _ENTRY),
    # The rows `first` to `last` of a practice belong to `pupil` since `at`; the newest move of a row counts.
    *_append_only(
        "moves",
        "practice TEXT NOT NULL, first INTEGER NOT NULL, last INTEGER NOT NULL, pupil TEXT NOT NULL, at TEXT NOT NULL",
    ),
    # A practice that was continued on two computers: the later way on is kept as a practice of its own, which goes on
    # from the row before `serial` of `parent`; `root` is the practice as it began.
    """
    CREATE TABLE forks (
        practice TEXT PRIMARY KEY REFERENCES practices (id),
        root TEXT NOT NULL,
        parent TEXT NOT NULL,
        serial INTEGER NOT NULL
    ) STRICT
    """,
    # Whose records were erased, as a digest of the code: taking in an older file asks before it brings them back.
    "CREATE TABLE erased (code_digest TEXT PRIMARY KEY, at TEXT NOT NULL) STRICT",
)
"""What adults decide beside the practices, moves of practices to another pupil, and practices of two computers."""

_FACTS: Change = ()
"""A practice may be of facts, or its sums may lead back to some, which stand in no activity of its plan. Its aim stands
in the plan, for the column's words are checked. Help may go by other ways than through the ten, with parts and a form
of their own."""

_PATTERNS: Change = ()
"""A practice may hold a talk about patterns, whose questions stand in no cell: an older program would take them for
sums. A talk follows its grid, so it is never a practice's first activity, whose aim has a column of its own."""

_OTHER_SUMS: Change = ()
"""A sum may ask for its amount or its start, its amount may have tens, and a plan may be a list of sums: an older
program would refuse them as damaged."""

_MARKS: Change = ()
"""An adult's notes are of more kinds, and the newest of a kind holds; an older program would leave such rows aside, and
count what was taken back."""

MIGRATIONS: tuple[Change, ...] = (
    *(_BEGIN, _AIMS, _CHECKSUMS, _EXERCISES, _ACTIVITIES, _TELLING_APART, _DESK),
    _FACTS,
    _PATTERNS,
    _OTHER_SUMS,
    _MARKS,
)


def version_of(connection: sqlite3.Connection) -> int:
    version: int = connection.execute("PRAGMA user_version").fetchone()[0]
    return version


_PLAUSIBLE_NEWER_FORMATS = 100
"""A format number higher than that is a damaged number, not a newer program's."""


def check_is_ours(connection: sqlite3.Connection, path: Path) -> None:
    """Raises StoreError for another program's database and for records of a newer version of this one, and
    DamagedError for records of ours that have lost their header or a table.
    """
    found = _shape(connection)
    (application,) = connection.execute("PRAGMA application_id").fetchone()
    version = version_of(connection)
    if not found and not version:
        return  # new
    if application != OURS and not any(found & _shape_of(each) for each in range(1, len(MIGRATIONS) + 1)):
        raise StoreError(
            f"The file {path} is another program's database: move it elsewhere, "
            "or set SAYTHESUM_HOME to another folder."
        )
    if len(MIGRATIONS) < version <= len(MIGRATIONS) + _PLAUSIBLE_NEWER_FORMATS:
        raise StoreError(
            f"The records in {path} are from a newer saythesum (format {version}; this one knows "
            f"{len(MIGRATIONS)}): install the newer one; nothing in them was changed."
        )
    if application != OURS:
        raise damaged(path, "the mark of saythesum in its header is gone")
    if not 0 < version <= len(MIGRATIONS):
        raise damaged(path, f"format {version} does not exist")
    if lost := _shape_of(version) - found:
        raise damaged(path, f"missing or changed: {', '.join(sorted(name for name, _ in lost))}")


Shape: TypeAlias = frozenset[tuple[str, str]]
"""The name of each table, index and trigger, and the SQL that made it."""


def _shape(connection: sqlite3.Connection) -> Shape:
    made = connection.execute("SELECT name, sql FROM sqlite_schema WHERE sql NOT NULL")
    return frozenset((str(name), " ".join(str(sql).split())) for name, sql in made)


@cache
def _shape_of(version: int) -> Shape:
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as made:
        migrate(made, MIGRATIONS[:version])
        return _shape(made)


def migrate(connection: sqlite3.Connection, changes: Sequence[Change] = MIGRATIONS) -> None:
    """Makes the changes that are missing, each in one transaction with its number.

    The connection must leave transactions to us (`isolation_level=None`).
    """
    connection.create_function("checksum_of", -1, checksum_of, deterministic=True)
    for number, statements in enumerate(changes, 1):
        connection.execute("BEGIN IMMEDIATE")
        try:
            if version_of(connection) < number:
                for statement in statements:
                    connection.execute(statement)
                connection.execute(f"PRAGMA user_version = {number}")
            connection.execute("COMMIT")
        except BaseException:
            if (
                connection.in_transaction
            ):  # a full disk has already rolled back; a failing ROLLBACK would hide that error
                connection.execute("ROLLBACK")
            raise
