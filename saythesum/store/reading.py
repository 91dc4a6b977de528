"""Reading the records, also while another copy practises."""

import sqlite3
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import UTC, datetime
from functools import lru_cache, partial
from pathlib import Path
from typing import Any
from uuid import UUID

from saythesum.core.aims import Aim
from saythesum.core.grids.facts import FACT_ACTIVITIES
from saythesum.core.grids.file_format import grid_from
from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.records.rows import Answer, Ask, Row
from saythesum.core.sums import LARGEST_START
from saythesum.errors import CallerError, GridError, StoreError
from saythesum.ports import EarlierPractice, StoredPractice
from saythesum.store.beside.moves import Moves, moves_in
from saythesum.store.checksum import checksum_of
from saythesum.store.codec import aim_column, plan_from_text, row_from_text, settings_from_text
from saythesum.store.migrations import MIGRATIONS, check_is_ours, migrate, version_of
from saythesum.store.sqlite_errors import UnreadableError, check_is_a_file, damaged, store_errors

_ROW_COLUMNS = "rows.practice, rows.serial, rows.id, rows.kind, rows.at, rows.at_ms, rows.fields, rows.checksum"
_OF_A_PUPIL = "WHERE pupil = ?1 AND (?2 IS NULL OR aim = ?2) ORDER BY number"
"""Used without the index: the table is short, and a damaged index would hide intact practices."""
_UNFINISHED = """
    SELECT practices.id
    FROM practices NOT INDEXED LEFT JOIN rows AS last ON last.practice = practices.id AND last.serial = (
        SELECT serial FROM rows WHERE practice = practices.id AND kind <> 'note' ORDER BY serial DESC LIMIT 1
    )
    WHERE (?2 IS NULL OR aim = ?2) AND practices.id NOT IN (SELECT practice FROM forks)
    AND (pupil = ?1 OR practices.id IN (SELECT practice FROM moves)) AND (
        last.kind IS NOT 'end' OR NOT json_valid(last.fields)
        OR json_extract(last.fields, '$.reason') IS NOT 'finished'
    )
    ORDER BY number DESC
"""
"""An adult's notes may follow the end of a practice; anything else (a voided answer, say) opens it again. Of a
practice that went on differently on another computer, a fork is not gone on with."""


_EARLIER = """
    SELECT before.id, (SELECT coalesce(max(serial) + 1, 0) FROM rows WHERE practice = before.id)
    FROM practices JOIN practices AS before ON before.pupil = practices.pupil AND before.number < practices.number
    WHERE practices.id = ?1 ORDER BY before.number DESC LIMIT ?2
"""
_PUPIL = "SELECT pupil FROM practices WHERE id = ?"
_BEGAN_WITH_ROWS = """
    SELECT id, pupil, began_at, CASE WHEN id IN (SELECT practice FROM moves)
        THEN (SELECT coalesce(max(serial) + 1, 0) FROM rows WHERE practice = practices.id) ELSE 0 END
    FROM practices NOT INDEXED ORDER BY number
"""
_WITH_ROWS = """
    SELECT id, pupil, (SELECT coalesce(max(serial) + 1, 0) FROM rows WHERE practice = practices.id)
    FROM practices NOT INDEXED WHERE ?1 IS NULL OR aim = ?1 ORDER BY number
"""


@dataclass(slots=True)
class _Rows:
    """The readable rows of a practice, when each was kept, and a sentence for each unreadable one."""

    whole: list[Row] = field(default_factory=list)
    times: list[datetime] = field(default_factory=list)
    serials: list[int] = field(default_factory=list)
    left_aside: list[str] = field(default_factory=list)


class StoredRecords:
    """What both a reader and the one who practises can do. Not to be shared between threads."""

    def __init__(self, connection: sqlite3.Connection, path: Path) -> None:
        self._connection = connection
        self._path = path
        # Damaged bytes may not be valid UTF-8. Decode them anyway: the checksum then reports them like other damage.
        connection.text_factory = partial(str, encoding="utf-8", errors="replace")

    def unfinished(
        self,
        pupil: str,
        *,
        aim: Aim | None = None,
        grid_text: str | None = None,
        fits: Callable[[StoredPractice], bool] | None = None,
    ) -> StoredPractice | None:
        """Skips a practice that this version cannot read and one with a damaged row, because what comes next in it is
        not known. `unreadable` names it.
        """
        with store_errors(self._path):
            newest = self._connection.execute(_UNFINISHED, (pupil, aim and aim_column(aim))).fetchall()
        for (id,) in newest:
            with suppress(UnreadableError):
                stored = self.practice(_uuid(id))
                is_own = stored.pupil == pupil and not stored.owners and not stored.is_from_paper
                is_asked_for = aim in (None, stored.aim) and grid_text in (None, stored.grid_text)
                is_wanted = is_asked_for and (fits is None or fits(stored))
                if is_own and is_wanted and not stored.left_aside:
                    _check_places(stored)
                    return stored
        return None

    def practices(self, pupil: str, *, aim: Aim | None = None) -> Sequence[UUID]:
        """Those, too, of which only a part is the pupil's; an aim without a word in the column is not looked for."""
        with store_errors(self._path):
            if moves := moves_in(self._connection):
                return [one.id for one in self._with_moves(moves, pupil, aim)]
            query = f"SELECT id FROM practices NOT INDEXED {_OF_A_PUPIL}"  # noqa: S608 - as above
            found = self._connection.execute(query, (pupil, aim)).fetchall()
        return [UUID(id) for (id,) in found if _is_uuid(id)]

    def earlier(self, practice: UUID, *, last: int | None = None) -> Sequence[EarlierPractice]:
        with store_errors(self._path):
            if moves := moves_in(self._connection):
                (first,) = self._connection.execute(_PUPIL, (str(practice),)).fetchone() or ("",)
                own = self._with_moves(moves, moves.pupil(practice, first), None)
                before = own[: next((place for place, one in enumerate(own) if one.id == practice), 0)]
                return before if last is None else before[len(before) - min(last, len(before)) :]
            newest_first = self._connection.execute(_EARLIER, (str(practice), -1 if last is None else last)).fetchall()
        return [EarlierPractice(UUID(id), rows) for id, rows in reversed(newest_first) if _is_uuid(id)]

    def _with_moves(self, moves: Moves, pupil: str, aim: Aim | None) -> list[EarlierPractice]:
        """The pupil's practices, with how many rows of each are the pupil's."""
        found = self._connection.execute(_WITH_ROWS, (aim,)).fetchall()
        moved = set(moves)
        own: list[EarlierPractice] = []
        for id, first, rows in found:
            if not _is_uuid(id):
                continue
            practice = UUID(id)
            if practice not in moved:
                mine = rows if first == pupil else None
            else:
                owners = [moves.owner(practice, serial, first) for serial in range(rows)]
                is_theirs = pupil in owners or (not owners and moves.pupil(practice, first) == pupil)
                mine = owners.count(pupil) if is_theirs else None
            if mine is not None:
                own.append(EarlierPractice(practice, mine))
        return own

    def practice(self, id: UUID) -> StoredPractice:
        """Includes only the rows that can be read; `left_aside` describes the others."""
        return self.practice_in_time(id)[0]

    def practice_in_time(self, id: UUID) -> tuple[StoredPractice, tuple[datetime, ...]]:
        """The same, with when each of its rows was kept, UTC."""
        *columns, checksum = self._practice_columns(id)
        _, _, pupil, began_at, plan, seed, settings, program_version, aim = columns
        rows = self._rows(id)
        try:
            _check_unchanged(columns, checksum)
            _ = _time(began_at)
            first, *then = plan_from_text(plan, aim)
            with store_errors(self._path):
                moves = moves_in(self._connection)
            stored = StoredPractice(
                id=id,
                pupil=moves.pupil(id, pupil),
                began_at=began_at,
                grid_text=first.grid_text,
                seed=seed,
                settings=settings_from_text(settings),
                program_version=program_version,
                aim=first.aim,
                cells=first.cells,
                then=tuple(then),
                rows=tuple(rows.whole),
                left_aside=tuple(rows.left_aside),
                owners=tuple(moves.owner(id, serial, pupil) for serial in rows.serials) if moves.is_divided(id) else (),
            )
            return stored, tuple(rows.times)
        except CallerError as error:
            raise UnreadableError(f"The practice {id} in {self._path} cannot be read: {error}") from error

    def pupils(self) -> tuple[str, ...]:
        """The codes of all who have practised."""
        with store_errors(self._path):
            moves = moves_in(self._connection)
            if not moves:
                query = "SELECT DISTINCT pupil FROM practices NOT INDEXED ORDER BY pupil"
                return tuple(pupil for (pupil,) in self._connection.execute(query))
            moved = set(moves)
            codes: set[str] = set()
            for id, first, rows in self._connection.execute(_WITH_ROWS, (None,)):
                if UUID(id) in moved:
                    codes |= {moves.owner(UUID(id), serial, first) for serial in range(max(rows, 1))}
                else:
                    codes.add(first)
        return tuple(sorted(codes))

    def last_practices(self) -> dict[str, UUID]:
        """The newest practice of each pupil, as a whole."""
        with store_errors(self._path):
            moves = moves_in(self._connection)
            found = self._connection.execute("SELECT id, pupil FROM practices NOT INDEXED ORDER BY number").fetchall()
        return {moves.pupil(UUID(id), first): UUID(id) for id, first in found if _is_uuid(id)}

    def began(self, pupil: str) -> tuple[str, ...]:
        """When each practice of the pupil began, in their order: UTC, ISO 8601."""
        own = {str(id) for id in self.practices(pupil)}
        with store_errors(self._path):
            found = self._connection.execute("SELECT id, began_at FROM practices NOT INDEXED ORDER BY number")
            return tuple(at for id, at in found if id in own)

    def began_by_pupil(self) -> Mapping[str, Sequence[str]]:
        """As `began`, of all at once: a practice of which parts are several pupils' is each one's."""
        began: dict[str, list[str]] = {}
        with store_errors(self._path):
            moves = moves_in(self._connection)
            if not moves:
                found = self._connection.execute(
                    "SELECT id, pupil, began_at, 0 FROM practices NOT INDEXED ORDER BY number"
                )
            else:
                found = self._connection.execute(_BEGAN_WITH_ROWS)
            for id, first, at, rows in found:
                if not _is_uuid(id):
                    continue
                owners = {moves.owner(UUID(id), serial, first) for serial in range(max(rows, 1))} if moves else {first}
                for owner in owners:
                    began.setdefault(owner, []).append(at)
        return began

    def times(self, practice: UUID) -> tuple[datetime, ...]:
        """When each readable row was kept, UTC, in the same order as `practice(id).rows`."""
        return tuple(self._rows(practice).times)

    def check_file(self) -> None:
        """Raises DamagedError unless the whole file is intact. It reads all of it, so only `check` calls this."""
        with store_errors(self._path):
            (verdict,) = self._connection.execute("PRAGMA integrity_check(1)").fetchone()
        if verdict != "ok":
            raise damaged(self._path, str(verdict).splitlines()[-1])

    def unreadable(self) -> tuple[str, ...]:
        """A sentence for each practice and each row that cannot be read, oldest first."""
        with store_errors(self._path):
            ids = self._connection.execute("SELECT id FROM practices NOT INDEXED ORDER BY number").fetchall()
            orphans = self._connection.execute(
                "SELECT practice, count(*) FROM rows WHERE practice NOT IN (SELECT id FROM practices NOT INDEXED) "
                "GROUP BY practice"
            ).fetchall()
        sentences: list[str] = []
        for (id,) in ids:
            try:
                stored = self.practice(_uuid(id))
                sentences += stored.left_aside
                _check_places(stored)
            except UnreadableError as error:
                sentences.append(str(error))
        for practice, count in orphans:
            sentences.append(
                f"The records in {self._path} hold {count} rows of the practice {practice}, which is missing."
            )
        return tuple(sentences)

    @property
    def connection(self) -> sqlite3.Connection:
        """For what is kept beside practices and rows."""
        return self._connection

    def close(self) -> None:
        self._connection.close()

    def _practice_columns(self, id: UUID) -> Sequence[Any]:
        query = (
            "SELECT number, id, pupil, began_at, plan, seed, settings, program_version, aim, checksum "
            "FROM practices {} WHERE id = ?"
        )
        with store_errors(self._path):
            for way in ("", "NOT INDEXED"):  # the index may be damaged
                found: Sequence[Any] | None = self._connection.execute(query.format(way), (str(id),)).fetchone()
                if found is not None:
                    return found
        raise StoreError(f"The records in {self._path} hold no practice {id}.")

    def _rows(self, practice: UUID) -> _Rows:
        with store_errors(self._path):
            query = f"SELECT {_ROW_COLUMNS} FROM rows WHERE practice = ? ORDER BY serial"  # noqa: S608 - as above
            kept = self._connection.execute(query, (str(practice),)).fetchall()
        rows = _Rows()
        for place, (*columns, checksum) in enumerate(kept):
            _, serial, id, kind, at, _, fields = columns
            try:
                _check_unchanged(columns, checksum)
                row, time = row_from_text(kind, id, fields), _time(at)
            except CallerError as error:
                rows.left_aside.append(f"Row {place} of the practice {practice} in {self._path} is left aside: {error}")
                continue
            rows.whole.append(row)
            rows.times.append(time)
            rows.serials.append(serial)
        lost = max(rows.serials, default=-1) + 1 - len(rows.serials) - len(rows.left_aside)
        if lost > 0:
            rows.left_aside.append(f"The practice {practice} in {self._path} has lost {lost} of its rows.")
        return rows


@lru_cache(maxsize=64)
def kept_grid(text: str) -> Grid:
    """A grid as it was saved with a practice. The program's own grids may have more rows than a typed one may.

    Raises UnreadableError.
    """
    try:
        return grid_from(text, most_rows=LARGEST_START + 1)
    except (GridError, RecursionError) as error:
        raise UnreadableError(f"The grid of a practice cannot be read: {error}") from error


def _check_places(stored: StoredPractice) -> None:
    """Raises UnreadableError unless the grids can be read and contain every cell that was asked."""
    grids = [kept_grid(activity.grid_text) for activity in stored.activities]
    grids += [facts.grid for facts in FACT_ACTIVITIES]  # the sums may have led back to them
    for row in stored.rows:
        if isinstance(row, Ask | Answer) and not _has_place(row, grids):
            place = f"row {row.row}, column {row.column} of activity {row.activity}"
            raise UnreadableError(f"The practice {stored.id} asks for {place}, which its plan does not have.")


def _has_place(row: Ask | Answer, grids: Sequence[Grid]) -> bool:
    """Questions outside a grid have neither row nor column."""
    if row.activity >= len(grids):
        return False
    grid = grids[row.activity]
    return Cell(row.row or 0, row.column or 0) in grid


def _check_unchanged(columns: Sequence[str | int], checksum: object) -> None:
    """Raises CallerError if the columns no longer match their checksum."""
    if checksum != checksum_of(*columns):
        raise CallerError("it has changed on the disk since it was kept (its checksum does not match).")


def _time(at: str) -> datetime:
    try:
        return datetime.fromisoformat(at).astimezone(UTC)
    except (ValueError, OverflowError) as error:
        raise CallerError(f"{at!r} is not a time.") from error


def _is_uuid(id: object) -> bool:
    try:
        return str(UUID(str(id))) == id
    except ValueError:
        return False


def _uuid(id: object) -> UUID:
    if not _is_uuid(id):
        raise UnreadableError(f"A practice cannot be read: its id is {id!r}; it must be a UUID.")
    return UUID(str(id))


def open_to_read(path: Path) -> StoredRecords:
    """Raises StoreError where there are no records, or they cannot be read."""
    check_is_a_file(path)
    if not path.exists():
        raise StoreError(f"There are no records in {path}: they are made when the first practice starts.")
    with store_errors(path):
        connection = read_only_connection(path)
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


def read_only_connection(path: Path) -> sqlite3.Connection:
    return sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True, isolation_level=None)


def _up_to_date(connection: sqlite3.Connection) -> sqlite3.Connection:
    """Records of an older format are read from a copy in memory: reading changes no file."""
    copy = sqlite3.connect(":memory:", isolation_level=None)
    connection.backup(copy)
    connection.close()
    migrate(copy)
    return copy
