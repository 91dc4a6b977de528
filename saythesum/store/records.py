"""The records of practices on disk: one SQLite file, only ever added to."""

import os
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path
from uuid import UUID

from saythesum.core.records.codec import kind_of
from saythesum.core.records.rows import Row
from saythesum.errors import CallerError, StoreError
from saythesum.ports import StoredPractice
from saythesum.store.beside.opening import check_write_ahead_log, make_folder, opened_to_write
from saythesum.store.codec import aim_column, plan_as_text, row_as_text, settings_as_text
from saythesum.store.columns import Columns, insert_practice, insert_row, practice_columns, row_columns
from saythesum.store.lock import lock_to_practise
from saythesum.store.mending import finish_mending
from saythesum.store.reading import StoredRecords, read_only_connection
from saythesum.store.sqlite_errors import check_is_a_file, store_errors

LARGEST_SEED = 2**63 - 1
"""SQLite's whole numbers have 64 bits."""


class SqliteStore(StoredRecords):
    """To practise with: locked against a second copy until it is closed.

    Raises StoreError when the records are foreign, newer, locked or cannot be written; then nothing in them has
    been changed. Raises DamagedError when the file is damaged where it is opened; damage elsewhere is reported when
    it is read, or by `check_file`.
    """

    def __init__(self, path: Path) -> None:
        make_folder(path.parent)
        check_is_a_file(path)
        self._lock = lock_to_practise(path.parent)
        try:
            finish_mending(path)
            check_write_ahead_log(path)
            super().__init__(opened_to_write(path), path)
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
            aim_column(practice.aim),
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

    @property
    def path(self) -> Path:
        return self._path

    def columns_of(self, practice: UUID) -> tuple[Columns, list[Columns]]:
        """The columns of the practice, and those of each of its rows."""
        with store_errors(self._path):
            return practice_columns(self._connection, practice), row_columns(self._connection, str(practice))

    def check_is_kept(self, row: str) -> None:
        """Raises StoreError unless the row is in the file that now has the name of the records.

        SQLite would go on writing into a file that was moved, deleted or replaced, and report no error.
        """
        found = None
        if os.path.exists(self._path):
            with store_errors(self._path), closing(read_only_connection(self._path)) as fresh:
                found = fresh.execute("SELECT 1 FROM rows WHERE id = ?", (row,)).fetchone()
        if not found:
            raise StoreError(f"The records in {self._path} were moved, deleted or replaced while they were in use.")

    def take_in(self, practice: Columns, rows: Sequence[Columns]) -> None:
        """Adds what is missing here of a practice that was kept elsewhere.

        Raises StoreError, and adds nothing, if the practice has continued differently here.
        """
        with store_errors(self._path):
            self._connection.execute("BEGIN IMMEDIATE")
            try:
                self._take_in(practice, rows)
                self._connection.execute("COMMIT")
            except BaseException:
                if self._connection.in_transaction:
                    self._connection.execute("ROLLBACK")
                raise

    def _take_in(self, practice: Columns, rows: Sequence[Columns]) -> None:
        _, id, *others = practice
        known = self._connection.execute("SELECT 1 FROM practices WHERE id = ?", (id,)).fetchone()
        if not known:
            (number,) = self._connection.execute("SELECT coalesce(max(number), 0) + 1 FROM practices").fetchone()
            insert_practice(self._connection, (number, id, *others))
        here = row_columns(self._connection, id)
        if any(row != other for row, other in zip(here, rows, strict=False)):
            raise StoreError(f"The practice {id!s} has continued in {self._path} without the answers kept elsewhere.")
        for row in rows[len(here) :]:
            insert_row(self._connection, row)

    def close(self) -> None:
        super().close()
        self._lock.close()

    def _add(self, statement: str, values: tuple[str | int, ...]) -> None:
        """One statement is one transaction: on disk when it returns, or not there at all."""
        with store_errors(self._path):
            self._connection.execute(statement, values)
