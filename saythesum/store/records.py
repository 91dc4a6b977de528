"""The records of practices on disk: one SQLite file, only ever added to."""

import sqlite3
from pathlib import Path
from uuid import UUID

from saythesum.core.records.codec import kind_of
from saythesum.core.records.rows import Row
from saythesum.errors import CallerError, StoreError
from saythesum.ports import StoredPractice
from saythesum.store.codec import plan_as_text, row_as_text, settings_as_text
from saythesum.store.lock import lock_to_practise
from saythesum.store.migrations import check_is_ours, migrate, version_of
from saythesum.store.reading import StoredRecords
from saythesum.store.sqlite_errors import check_is_a_file, told_plainly

LARGEST_SEED = 2**63 - 1
"""SQLite's whole numbers have 64 bits."""


class SqliteStore(StoredRecords):
    """To practise with: locked against a second copy until it is closed.

    Raises StoreError when the records are foreign, newer, locked or cannot be written; then nothing in them has
    been changed. Damage further on is told when it is met, or by `check_file`.
    """

    def __init__(self, path: Path) -> None:
        _make_folder(path.parent)
        check_is_a_file(path)
        self._lock = lock_to_practise(path.parent)
        try:
            super().__init__(_opened_to_write(path), path)
        except BaseException:
            self._lock.close()
            raise

    def begin(self, practice: StoredPractice) -> None:
        if practice.rows:
            raise ValueError("a practice begins without rows")
        if abs(practice.seed) > LARGEST_SEED:
            raise CallerError(f"The seed {practice.seed} is too long: at most {LARGEST_SEED}, either way.")
        values = (
            str(practice.id),
            practice.pupil,
            practice.began_at,
            plan_as_text(practice.activities),
            practice.seed,
            settings_as_text(practice.settings),
            practice.program_version,
            practice.aim.value,
        )
        self._add(
            "INSERT INTO practices (number, id, pupil, began_at, plan, seed, settings, program_version, aim, checksum) "
            "SELECT next, ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, checksum_of(next, ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8) "
            "FROM (SELECT coalesce(max(number) + 1, 1) AS next FROM practices)",
            values,
        )

    def keep(self, practice: UUID, row: Row, *, at: str, at_ms: int) -> None:
        self._add(
            "INSERT INTO rows (practice, serial, id, kind, at, at_ms, fields, checksum) "
            "SELECT ?1, next, ?2, ?3, ?4, ?5, ?6, checksum_of(?1, next, ?2, ?3, ?4, ?5, ?6) "
            "FROM (SELECT coalesce(max(serial) + 1, 0) AS next FROM rows WHERE practice = ?1)",
            (str(practice), row.id, kind_of(row), at, at_ms, row_as_text(row)),
        )

    def close(self) -> None:
        super().close()
        self._lock.close()

    def _add(self, statement: str, values: tuple[str | int, ...]) -> None:
        """One statement is one transaction: on disk when it returns, or not there at all."""
        with told_plainly(self._path):
            self._connection.execute(statement, values)


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        raise StoreError(
            f"The folder {folder} for the records cannot be made ({error.strerror}): "
            "set SAYTHESUM_HOME to a folder that can be written."
        ) from error


def _opened_to_write(path: Path) -> sqlite3.Connection:
    """Looks before it writes: another program's file, or one that is not whole at its beginning, is left as it is."""
    with told_plainly(path):
        connection = sqlite3.connect(path, isolation_level=None)
        try:
            check_is_ours(connection, path)
            connection.execute("PRAGMA journal_mode = WAL")
            connection.execute("PRAGMA synchronous = FULL")
            connection.execute("PRAGMA foreign_keys = ON")
            migrate(connection)
            # A file that is read-only shows it at the first real write, which should not be a pupil's answer.
            connection.execute(f"PRAGMA user_version = {version_of(connection)}")
        except BaseException:
            connection.close()
            raise
    return connection
