"""Reading a file of records that was given out, here or on another computer: nothing in it is trusted."""

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from typing import Any
from uuid import UUID

import msgspec

from saythesum.core.records.rows import row_id
from saythesum.errors import CallerError
from saythesum.office.giving import FORMAT, VERSION
from saythesum.office.grids import grid_name
from saythesum.settings.changing import without_own_words
from saythesum.settings.toml_text import shown
from saythesum.store.beside.entries import Entry
from saythesum.store.beside.entry_tables import Table
from saythesum.store.beside.families import CopiedRow, Line
from saythesum.store.beside.merging import Contents, Family, Head
from saythesum.store.beside.moves import TO_THE_END, Move
from saythesum.store.codec import plan_from_text, row_from_text, settings_from_text
from saythesum.store.pupils import pupil_code

MOST_BYTES = 1_000_000_000
"""A larger file was named by mistake; it would not fit into the memory of an old laptop."""


class GivenFileError(CallerError):
    """It cannot be taken in as it is."""


class EditedError(GivenFileError):
    """It was changed since it was given out."""


@dataclass(frozen=True, slots=True)
class GivenFile:
    contents: Contents
    settings: Mapping[str, str]
    """The text of each pupil's settings file."""
    grids: Mapping[str, str]
    pupils: tuple[str, ...]
    unreadable: tuple[str, ...]
    """A sentence for each practice that is left out, as no version of this program could have written it."""


class _File(msgspec.Struct):
    format: str
    version: int
    pupils: list[msgspec.Raw] = []
    grids: list[msgspec.Raw] = []
    moves: list[msgspec.Raw] = []
    practices: list[msgspec.Raw] = []
    digest: str = ""


class _Version(msgspec.Struct):
    format: str
    version: int


def read_given(file: Path, *, even_edited: bool = False) -> GivenFile:
    """Raises GivenFileError, and EditedError unless the file may be an edited one."""
    data = _bytes(file)
    try:
        version = msgspec.json.decode(data, type=_Version)
    except msgspec.ValidationError as error:
        raise GivenFileError(f"{file} is no file of records that saythesum gave out.") from error
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        cut = "it seems to be cut off" if data.lstrip()[:1] == b"{" else "it is not JSON"
        raise GivenFileError(f"{file} cannot be read, {cut}: copy it again, or give the records out again.") from error
    if version.format != FORMAT:
        raise GivenFileError(f"{file} is no file of records that saythesum gave out.")
    if version.version > VERSION:
        raise GivenFileError(f"{file} is from a newer saythesum: install the newer one here; nothing was taken in.")
    try:
        found = msgspec.json.decode(data, type=_File)
        if not even_edited:
            _check_digest(file, found)
        return _read(found)
    except (msgspec.DecodeError, KeyError, TypeError, ValueError, AttributeError, RecursionError) as error:
        if isinstance(error, GivenFileError):
            raise
        what = f"{error}".rstrip(".")
        raise GivenFileError(f"{file} holds what no records have ({what}): give the records out again.") from error


def _bytes(file: Path) -> bytes:
    try:
        if file.exists() and not file.is_file():
            raise GivenFileError(f"{file} is not a file: name the file of records.")
        if file.stat().st_size > MOST_BYTES:
            raise GivenFileError(f"{file} is larger than any file of records: name the right one.")
        return file.read_bytes()
    except FileNotFoundError as error:
        raise GivenFileError(f"There is no file {file}.") from error
    except OSError as error:
        raise GivenFileError(f"{file} cannot be read ({error.strerror}).") from error


def _check_digest(file: Path, found: _File) -> None:
    digest = sha256()
    for part in (found.pupils, found.grids, found.moves, found.practices):
        for item in part:
            digest.update(bytes(item))
    if digest.hexdigest() != found.digest:
        raise EditedError(
            f"{file} was changed since it was given out: give the records out again, or take it in as it is."
        )


def _read(found: _File) -> GivenFile:
    entries: dict[Table, list[Entry]] = {table: [] for table in Table}
    settings: dict[str, str] = {}
    codes: list[str] = []
    for raw in found.pupils:
        pupil = json.loads(bytes(raw))
        code = pupil_code(pupil["code"])
        codes.append(code)
        if isinstance(pupil.get("settings"), str):
            settings[code] = without_own_words(pupil["settings"])
        for table in Table:
            entries[table] += [_entry(code, one) for one in pupil.get(table.value, [])]
    grids = {grid_name(one["name"]): str(one["text"]) for one in map(json.loads, map(bytes, found.grids))}
    moves = tuple(_move(json.loads(bytes(raw))) for raw in found.moves)
    families, unreadable = _families(found.practices)
    pupils = dict.fromkeys([*codes, *(one.head.pupil for one in families), *(move.pupil for move in moves)])
    return GivenFile(Contents(families, entries, moves), settings, grids, tuple(pupils), unreadable)


def _entry(code: str, given: dict[str, Any]) -> Entry:
    fields = {name: value for name, value in given.items() if name not in ("id", "at")}
    return Entry(code, _time(given["at"]), fields, UUID(given["id"]))


def _move(given: dict[str, Any]) -> Move:
    first, last = given["first"], given["last"]
    if type(first) is not int or type(last) is not int or not 0 <= first <= last <= TO_THE_END:
        raise CallerError(f"a move has the rows {shown(first)} to {shown(last)}")
    return Move(UUID(given["practice"]), first, last, pupil_code(given["pupil"]), _time(given["at"]), UUID(given["id"]))


def _families(practices: list[msgspec.Raw]) -> tuple[tuple[Family, ...], tuple[str, ...]]:
    heads: dict[UUID, Head] = {}
    lines: dict[UUID, list[Line]] = {}
    unreadable: dict[UUID, str] = {}
    for raw in practices:
        given = json.loads(bytes(raw))
        id = UUID(given["id"])
        fork = given.get("fork")
        root = UUID(fork["root"]) if fork else id
        try:
            heads.setdefault(root, _head(given))
            parent, serial = (UUID(fork["parent"]), int(fork["serial"])) if fork else (None, 0)
            lines.setdefault(root, []).append(Line(id, parent, serial, _rows(id, given["rows"])))
        except (CallerError, KeyError, TypeError, ValueError) as error:
            unreadable[root] = f"The practice {root} in the file cannot be read: {error}"
    for root, some in lines.items():
        if not _is_complete(root, some):
            unreadable.setdefault(root, f"The practice {root} in the file cannot be read: a part of it is missing.")
    families = tuple(Family(root, heads[root], tuple(some)) for root, some in lines.items() if root not in unreadable)
    return families, tuple(unreadable.values())


def _is_complete(root: UUID, lines: list[Line]) -> bool:
    """Each fork parts from a line before it, within that line's rows."""
    ends: dict[UUID, int] = {}
    for line in lines:
        if (line.parent is None) != (line.id == root) or line.id in ends:
            return False
        if line.parent is not None and not 0 <= line.serial < ends.get(line.parent, -1):
            return False
        ends[line.id] = line.serial + len(line.rows)
    return root in ends


def _head(given: dict[str, Any]) -> Head:
    head = Head(
        pupil=pupil_code(given["pupil"]),
        began_at=_time(given["began_at"]),
        plan=json.dumps(given["plan"], allow_nan=False),
        seed=given["seed"],
        settings=json.dumps(given["settings"], allow_nan=False),
        program_version=str(given["program_version"]),
        aim=str(given["aim"]),
    )
    _ = plan_from_text(head.plan, head.aim), settings_from_text(head.settings)
    if type(head.seed) is not int or abs(head.seed) >= 2**63:
        raise CallerError(f"its seed is {shown(head.seed)}.")
    return head


def _rows(practice: UUID, given: list[dict[str, Any]]) -> tuple[CopiedRow, ...]:
    rows = []
    for place, one in enumerate(given):
        fields = {name: value for name, value in one.items() if name not in ("id", "kind", "at", "at_ms")}
        row = CopiedRow(_time(one["at"]), one["at_ms"], str(one["kind"]), json.dumps(fields, allow_nan=False))
        if type(row.at_ms) is not int or one["id"] != row_id(practice, place):
            raise CallerError(f"row {place} is not of this practice.")
        _ = row_from_text(row.kind, one["id"], row.fields)
        rows.append(row)
    return tuple(rows)


_TIME = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)")


def _time(given: object) -> str:
    if not isinstance(given, str) or not _TIME.fullmatch(given):
        raise CallerError(f"{shown(given)} is not a time.")
    _ = datetime.fromisoformat(given)
    return given
