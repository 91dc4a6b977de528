"""Reading the records, also while another copy practises."""

import sqlite3
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from pathlib import Path
from uuid import UUID

from saythesum.core.aims import Aim
from saythesum.core.records.rows import Row
from saythesum.errors import CallerError, StoreError
from saythesum.ports import EarlierPractice, StoredPractice
from saythesum.store.checksum import checksum_of
from saythesum.store.codec import plan_from_text, row_from_text, settings_from_text
from saythesum.store.migrations import MIGRATIONS, check_is_ours, migrate, version_of
from saythesum.store.sqlite_errors import UnreadableError, check_is_a_file, damaged, told_plainly

_UNFINISHED = """
    SELECT practices.id
    FROM practices LEFT JOIN rows AS last ON last.practice = practices.id AND last.serial = (
        SELECT serial FROM rows WHERE practice = practices.id AND kind <> 'note' ORDER BY serial DESC LIMIT 1
    )
    WHERE pupil = ?1 AND (?2 IS NULL OR aim = ?2) AND (
        last.kind IS NOT 'end' OR NOT json_valid(last.fields)
        OR json_extract(last.fields, '$.reason') IS NOT 'finished'
    )
    ORDER BY number DESC
"""
"""An adult's notes may follow the end of a practice; anything else (a voided answer, say) opens it again."""


_EARLIER = """
    SELECT before.id, (SELECT coalesce(max(serial) + 1, 0) FROM rows WHERE practice = before.id)
    FROM practices JOIN practices AS before ON before.pupil = practices.pupil AND before.number < practices.number
    WHERE practices.id = ?1 ORDER BY before.number DESC LIMIT ?2
"""


class StoredRecords:
    """What both a reader and the one who practises can do. Not to be shared between threads."""

    def __init__(self, connection: sqlite3.Connection, path: Path) -> None:
        self._connection = connection
        self._path = path

    def unfinished(self, pupil: str, *, aim: Aim | None = None, grid_text: str | None = None) -> StoredPractice | None:
        """A practice that this version cannot read to its end is passed over: `unreadable` names it."""
        with told_plainly(self._path):
            unfinished = self._connection.execute(_UNFINISHED, (pupil, aim)).fetchall()
        for (id,) in unfinished:
            try:
                stored = self.practice(UUID(id))
            except UnreadableError:
                continue
            if grid_text in (None, stored.grid_text):
                return stored
        return None

    def practices(self, pupil: str, *, aim: Aim | None = None) -> Sequence[UUID]:
        query = "SELECT id FROM practices WHERE pupil = ?1 AND (?2 IS NULL OR aim = ?2) ORDER BY number"
        return self._ids(query, pupil, aim)

    def earlier(self, practice: UUID, *, last: int | None = None) -> Sequence[EarlierPractice]:
        with told_plainly(self._path):
            newest_first = self._connection.execute(_EARLIER, (str(practice), -1 if last is None else last)).fetchall()
        return [EarlierPractice(UUID(id), rows) for id, rows in reversed(newest_first)]

    def practice(self, id: UUID) -> StoredPractice:
        with told_plainly(self._path):
            found = self._connection.execute(
                "SELECT number, id, pupil, began_at, plan, seed, settings, program_version, aim, checksum "
                "FROM practices WHERE id = ?",
                (str(id),),
            ).fetchone()
        if found is None:
            raise StoreError(f"The records in {self._path} hold no practice {id}.")
        *columns, checksum = found
        _, _, pupil, began_at, plan, seed, settings, program_version, aim = columns
        try:
            _check_unchanged(columns, checksum)
            first, *then = plan_from_text(plan, aim)
            return StoredPractice(
                id=id,
                pupil=pupil,
                began_at=began_at,
                grid_text=first.grid_text,
                seed=seed,
                settings=settings_from_text(settings),
                program_version=program_version,
                aim=first.aim,
                cells=first.cells,
                then=tuple(then),
                rows=tuple(self._rows(id)),
            )
        except CallerError as error:
            raise UnreadableError(f"The practice {id} in {self._path} cannot be read: {error}") from error

    def pupils(self) -> tuple[str, ...]:
        """The codes of all who have practised."""
        with told_plainly(self._path):
            found = self._connection.execute("SELECT DISTINCT pupil FROM practices ORDER BY pupil").fetchall()
        return tuple(pupil for (pupil,) in found)

    def times(self, practice: UUID) -> tuple[datetime, ...]:
        """When each of its rows was kept, UTC, in the order of its rows."""
        with told_plainly(self._path):
            query = "SELECT serial, at FROM rows WHERE practice = ? ORDER BY serial"
            kept = self._connection.execute(query, (str(practice),)).fetchall()
        return tuple(self._time(practice, serial, at) for serial, at in kept)

    def _time(self, practice: UUID, serial: int, at: str) -> datetime:
        try:
            return datetime.fromisoformat(at).astimezone(UTC)
        except ValueError as error:
            raise UnreadableError(
                f"The practice {practice} in {self._path} has {at!r} for the time of row {serial}, which is no time."
            ) from error

    def unreadable(self) -> tuple[str, ...]:
        """A sentence for each practice that this version cannot read, oldest first."""
        sentences = []
        for id in self._ids("SELECT id FROM practices ORDER BY number"):
            try:
                self.practice(id)
                self.times(id)
            except UnreadableError as error:
                sentences.append(str(error))
        return tuple(sentences)

    def check_file(self) -> None:
        """Raises StoreError where the file is damaged anywhere. It reads all of it, so no start waits for it."""
        with told_plainly(self._path):
            (verdict,) = self._connection.execute("PRAGMA quick_check(1)").fetchone()
        if verdict != "ok":
            raise damaged(self._path, str(verdict).splitlines()[-1])

    def close(self) -> None:
        self._connection.close()

    def _ids(self, query: str, *values: str | None) -> list[UUID]:
        with told_plainly(self._path):
            return [UUID(id) for (id,) in self._connection.execute(query, values)]

    def _rows(self, practice: UUID) -> Iterator[Row]:
        with told_plainly(self._path):
            kept = self._connection.execute(
                "SELECT practice, serial, id, kind, at, at_ms, fields, checksum FROM rows WHERE practice = ? "
                "ORDER BY serial",
                (str(practice),),
            ).fetchall()
        for *columns, checksum in kept:
            _, serial, id, kind, _, _, fields = columns
            try:
                _check_unchanged(columns, checksum)
                yield row_from_text(kind, id, fields)
            except CallerError as error:
                raise CallerError(f"row {serial}: {error}") from error


def _check_unchanged(columns: Sequence[str | int], checksum: int) -> None:
    """Raises CallerError where the disk gives something else than was kept."""
    if checksum != checksum_of(*columns):
        raise CallerError("it has changed on the disk since it was kept (its checksum does not fit).")


def open_to_read(path: Path) -> StoredRecords:
    """Raises StoreError where there are no records, or they cannot be read."""
    check_is_a_file(path)
    if not path.exists():
        raise StoreError(f"There are no records in {path}: they are made when the first practice starts.")
    with told_plainly(path):
        connection = sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True, isolation_level=None)
        try:
            check_is_ours(connection, path)
            if version_of(connection) == 0:
                raise StoreError(f"The records in {path} are empty: they are filled when the first practice starts.")
            if version_of(connection) < len(MIGRATIONS):
                connection = _up_to_date(connection)
        except BaseException:
            connection.close()
            raise
    return StoredRecords(connection, path)


def _up_to_date(connection: sqlite3.Connection) -> sqlite3.Connection:
    """Records of an older format are read from a copy in memory: reading changes no file."""
    copy = sqlite3.connect(":memory:", isolation_level=None)
    connection.backup(copy)
    connection.close()
    migrate(copy)
    return copy
