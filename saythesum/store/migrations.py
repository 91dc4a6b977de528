"""The shape of the records, as numbered changes. A change that has landed is never edited: add the next one.

A new kind of row is a change too (`kind` is checked), so a program that does not know it refuses the records
instead of passing over them. Plain SQL that PostgreSQL could take as well, but for STRICT, the triggers and
`checksum_of`, a function of ours.
"""

import sqlite3
from collections.abc import Sequence
from pathlib import Path
from typing import TypeAlias

from saythesum.errors import StoreError
from saythesum.store.checksum import checksum_of

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
    # A pupil is erased on purpose only: named here first, in the same transaction that deletes.
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
    # INSERT OR REPLACE deletes without asking the trigger above.
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
    # The default stands for the moment between the two statements only: every row gets its checksum here.
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

MIGRATIONS: tuple[Change, ...] = (_BEGIN, _AIMS, _CHECKSUMS, _EXERCISES, _ACTIVITIES, _TELLING_APART)


def version_of(connection: sqlite3.Connection) -> int:
    version: int = connection.execute("PRAGMA user_version").fetchone()[0]
    return version


def check_is_ours(connection: sqlite3.Connection, path: Path) -> None:
    """Raises StoreError for another program's database and for records of a newer version of this one."""
    (holds_tables,) = connection.execute("SELECT count(*) > 0 FROM sqlite_schema").fetchone()
    (application,) = connection.execute("PRAGMA application_id").fetchone()
    if holds_tables and application != OURS:
        raise StoreError(
            f"The file {path} is another program's database: move it elsewhere, "
            "or set SAYTHESUM_HOME to another folder."
        )
    version = version_of(connection)
    if version > len(MIGRATIONS):
        raise StoreError(
            f"The records in {path} are from a newer saythesum (format {version}; this one knows "
            f"{len(MIGRATIONS)}): install the newer one; nothing in them was changed."
        )


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
            connection.execute("ROLLBACK")
            raise
