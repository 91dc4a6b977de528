"""When the records are lost during a practice, its rows go into a rescue file until the records are back."""

import os
import sqlite3
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing, suppress
from dataclasses import dataclass
from itertools import count
from pathlib import Path
from uuid import UUID
from zlib import crc32

from saythesum.core.records.codec import kind_of
from saythesum.core.records.rows import Row
from saythesum.errors import StoreError
from saythesum.store.codec import row_as_text
from saythesum.store.columns import Columns, insert_practice, insert_row, practice_columns, row_columns
from saythesum.store.migrations import check_is_ours, migrate
from saythesum.store.records import SqliteStore
from saythesum.store.sqlite_errors import store_errors


@dataclass(frozen=True, slots=True)
class RecordsLost:
    why: str
    """A sentence for the adult."""
    rescue: Path
    """Where the whole practice is kept from now on."""


@dataclass(frozen=True, slots=True)
class RecordsBack:
    """The records hold all of the practice again, and the rescue file has been removed."""


class PracticeKeeper:
    """Keeps the rows of one practice. Not to be shared between threads."""

    def __init__(
        self,
        store: SqliteStore,
        practice: UUID,
        folders: Sequence[Path],
        on_news: Callable[[RecordsLost | RecordsBack], None],
    ) -> None:
        """`folders`: where a rescue file may be made, the best place first."""
        self._store: SqliteStore | None = store
        self._path, self._folders, self._on_news = store.path, folders, on_news
        self._practice, self._rows = store.columns_of(practice)
        self._rescue: Path | None = None

    def keep(self, practice: UUID, row: Row, *, at: str, at_ms: int) -> None:
        """On disk when it returns. Raises StoreError if no folder can be written."""
        columns = (str(practice), len(self._rows), row.id, kind_of(row), at, at_ms, row_as_text(row))
        self._rows.append(columns)
        if self._store is None:
            self._keep_elsewhere()
            return
        try:
            self._store.keep(practice, row, at=at, at_ms=at_ms)
            self._store.check_is_kept(row.id)
        except StoreError as error:
            self._close_store()
            self._rescue = self._written_elsewhere(error)
            self._on_news(RecordsLost(str(error), self._rescue))

    def close(self) -> None:
        if self._rescue:
            self._go_back()
        self._close_store()

    def _keep_elsewhere(self) -> None:
        if self._go_back():
            return
        try:
            assert self._rescue is not None
            with store_errors(self._rescue):
                _add(self._rescue, self._practice, self._rows)
        except StoreError as error:
            self._rescue = self._written_elsewhere(error)
            self._on_news(RecordsLost(str(error), self._rescue))

    def _written_elsewhere(self, why: StoreError) -> Path:
        for folder in self._folders:
            file = next(name for name in _names(folder, self._path) if not os.path.lexists(name))
            try:
                _make(file)
                _add(file, self._practice, self._rows)
            except (OSError, sqlite3.Error):
                with suppress(OSError):
                    file.unlink()
                continue
            return file
        raise why

    def _go_back(self) -> bool:
        """Returns to the records if they are writable again. Never creates them: the old file may still come back."""
        if not self._path.exists():
            return False
        try:
            store = SqliteStore(self._path)
        except StoreError:
            return False
        try:
            store.take_in(self._practice, self._rows)
            store.check_is_kept(str(self._rows[-1][2]))
        except StoreError:
            store.close()
            return False
        self._store = store
        if self._rescue:
            _remove(self._rescue)
        self._rescue = None
        self._on_news(RecordsBack())
        return True

    def _close_store(self) -> None:
        if self._store:
            with suppress(sqlite3.Error):
                self._store.close()
        self._store = None


def take_in_rescued(store: SqliteStore, folders: Sequence[Path]) -> Iterator[tuple[Path, StoreError | None]]:
    """Yields each rescue file of these records, with the error if it could not be taken in; others are removed."""
    for file in rescue_files(store.path, folders):
        try:
            with store_errors(file), closing(_opened(file)) as rescued:
                check_is_ours(rescued, file)
                ids = [UUID(id) for (id,) in rescued.execute("SELECT id FROM practices")]
                kept = [(practice_columns(rescued, id), row_columns(rescued, str(id))) for id in ids]
            for practice, rows in kept:
                store.take_in(practice, rows)
        except StoreError as error:
            yield file, error
        else:
            _remove(file)
            yield file, None


def rescue_files(records: Path, folders: Sequence[Path]) -> list[Path]:
    """Only files that this user owns: in a shared folder another user could plant one."""
    found = [file for folder in folders for file in sorted(folder.glob(f"{_stem(records)}-*.sqlite"))]
    return [file for file in dict.fromkeys(found) if _is_own(file)]


def _is_own(file: Path) -> bool:
    with suppress(OSError):
        return not file.is_symlink() and (sys.platform == "win32" or file.stat().st_uid == os.getuid())
    return False


def _stem(records: Path) -> str:
    """Names the records by their path, so that other records on this machine get other names."""
    return f"saythesum-rescue-{crc32(os.fsencode(records.absolute())):08x}"


def _names(folder: Path, records: Path) -> Iterator[Path]:
    for number in count(1):
        yield folder / f"{_stem(records)}-{number}.sqlite"


def _make(file: Path) -> None:
    """Readable by its owner only. Raises OSError if the file exists."""
    os.close(os.open(file, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))


def _opened(file: Path) -> sqlite3.Connection:
    return sqlite3.connect(file, isolation_level=None)


def _add(file: Path, practice: Columns, rows: Sequence[Columns]) -> None:
    """Adds what the rescue file lacks. It has no side files, so that it can be copied anywhere."""
    with closing(_opened(file)) as connection:
        connection.execute("PRAGMA synchronous = FULL")
        migrate(connection)
        connection.execute("BEGIN IMMEDIATE")
        (known,) = connection.execute("SELECT count(*) FROM practices").fetchone()
        if not known:
            insert_practice(connection, practice)
        (kept,) = connection.execute("SELECT count(*) FROM rows").fetchone()
        for row in rows[kept:]:
            insert_row(connection, row)
        connection.execute("COMMIT")


def _remove(file: Path) -> None:
    with suppress(OSError):
        file.unlink()
