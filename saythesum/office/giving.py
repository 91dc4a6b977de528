"""Records given out: one JSON file with all that is kept of a pupil, or of all. DEVELOPERS.md documents the format."""

import json
import os
from collections.abc import Iterable, Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import IO, Any
from uuid import UUID

import saythesum
from saythesum.core.records.rows import row_id
from saythesum.core.records.times import utc_text
from saythesum.errors import CallerError
from saythesum.office.grids import grid_texts
from saythesum.office.places import Places
from saythesum.office.pupils import codes, known_code, note_changes
from saythesum.office.upkeep.settings_texts import EXAMPLE
from saythesum.settings.changing import without_own_words
from saythesum.settings.text_files import text_in
from saythesum.store.beside.entries import read_entries
from saythesum.store.beside.entry_tables import Table
from saythesum.store.beside.families import Line
from saythesum.store.beside.merging import Family, families_in
from saythesum.store.beside.moves import Move, read_moves
from saythesum.store.reading import StoredRecords, open_to_read

FORMAT = "saythesum records"
VERSION = 1


@dataclass(frozen=True, slots=True)
class Given:
    file: Path
    pupils: tuple[str, ...]
    practices: int
    rows: int
    left_out: tuple[UUID, ...]
    """Practices with damaged rows: `saythesum check` says more of them."""
    shared_with: tuple[str, ...]
    """Other pupils of whom a part of a practice is in it, because it was moved to or from them."""


def give(places: Places, into: Path, now: datetime, given: Sequence[str] = ()) -> Given:
    """Of the pupils named, or of all. `into`: a folder, or a file that is not there yet.

    Never word templates or consent. Raises CallerError and StoreError.
    """
    wanted = [known_code(places, code) for code in given] or list(codes(places))
    if not wanted:
        raise CallerError("There is nothing to give out: nobody has been added, and nobody has practised.")
    file = into / _file_name(wanted if given else [], now) if into.is_dir() else into
    if file.exists():
        raise CallerError(f"There is a file {file} already: name another, or move it away first.")
    for code in wanted:
        note_changes(places, code, now)
    with closing(open_to_read(places.records_file)) as reader:
        return _written(places, reader, file, now, wanted)


def _file_name(wanted: Sequence[str], now: datetime) -> str:
    return f"saythesum-{'-'.join(wanted)[:60] or 'all'}-{now:%Y-%m-%d}.json"


def _written(places: Places, reader: StoredRecords, file: Path, now: datetime, wanted: Sequence[str]) -> Given:
    connection = reader.connection
    ids = dict.fromkeys(id for code in wanted for id in reader.practices(code))
    forks = {UUID(fork): UUID(root) for fork, root in connection.execute("SELECT practice, root FROM forks")}
    roots = tuple(dict.fromkeys(forks.get(id, id) for id in ids))
    moves = tuple(move for move in read_moves(connection) if forks.get(move.practice, move.practice) in roots)
    pupils = [_pupil(places, reader, code) for code in wanted]
    grids = [{"name": name, "text": text} for name, text in grid_texts(places).items()]
    counts = [0, 0]
    damaged: list[UUID] = []
    holders: set[str] = {move.pupil for move in moves}

    def practices() -> Iterator[dict[str, Any]]:
        for root in roots:
            families, lost = families_in(connection, [root])
            damaged.extend(lost)
            for family in families:
                holders.add(family.head.pupil)
                for line in family.lines:
                    counts[0] += 1
                    counts[1] += len(line.rows)
                    yield _practice(family, line)

    head = {
        "format": FORMAT,
        "version": VERSION,
        "program_version": saythesum.__version__,
        "given_at": utc_text(now),
    }
    parts: dict[str, Iterable[dict[str, Any]]] = {
        "pupils": pupils,
        "grids": grids,
        "moves": [_move(move) for move in moves],
        "practices": practices(),
    }
    try:
        _write(file, head, parts, lambda: {"pupils": len(pupils), "practices": counts[0], "rows": counts[1]})
    except OSError as error:
        raise CallerError(f"{file} cannot be written ({error.strerror}): name another place.") from error
    others = tuple(sorted(holders - set(wanted)))
    return Given(file, tuple(wanted), counts[0], counts[1], tuple(damaged), others)


def _write(file: Path, head: dict[str, Any], parts: dict[str, Iterable[dict[str, Any]]], count: Any) -> None:
    """Whole or not at all; a line for each pupil, grid, move and practice."""
    digest = sha256()
    file.parent.mkdir(parents=True, exist_ok=True)
    part: IO[str] | None = None
    try:
        with NamedTemporaryFile("w", encoding="utf-8", dir=file.parent, suffix=".part", delete=False) as part:
            part.write("{\n" + "".join(f"{json.dumps(name)}: {json.dumps(value)},\n" for name, value in head.items()))
            for name, items in parts.items():
                part.write(f"{json.dumps(name)}: [")
                for place, item in enumerate(items):
                    text = json.dumps(item, allow_nan=False)
                    digest.update(text.encode())
                    part.write(("," if place else "") + "\n" + text)
                part.write("\n],\n")
            part.write(f'"count": {json.dumps(count())},\n"digest": "{digest.hexdigest()}"\n}}\n')
            part.flush()
            os.fsync(part.fileno())
        os.replace(part.name, file)
    except BaseException:
        if part:
            Path(part.name).unlink(missing_ok=True)
        raise


def _pupil(places: Places, reader: StoredRecords, code: str) -> dict[str, Any]:
    try:
        settings: str | None = without_own_words(text_in(places.pupil_file(code), EXAMPLE))
    except (FileNotFoundError, CallerError):
        settings = None
    tables = {
        table.value: [
            {"id": str(one.id), "at": one.at, **one.fields} for one in read_entries(reader.connection, table, code)
        ]
        for table in Table
    }
    return {"code": code, "settings": settings, **tables}


def _move(move: Move) -> dict[str, Any]:
    return {
        "id": str(move.id),
        "practice": str(move.practice),
        "first": move.first,
        "last": move.last,
        "pupil": move.pupil,
        "at": move.at,
    }


def _practice(family: Family, line: Line) -> dict[str, Any]:
    head = family.head
    return {
        "id": str(line.id),
        "pupil": head.pupil,
        "began_at": head.began_at,
        "aim": head.aim,
        "plan": json.loads(head.plan),
        "seed": head.seed,
        "settings": json.loads(head.settings),
        "program_version": head.program_version,
        "fork": {"root": str(family.root), "parent": str(line.parent), "serial": line.serial} if line.parent else None,
        "rows": [
            {"id": row_id(line.id, place), "kind": row.kind, "at": row.at, "at_ms": row.at_ms, **json.loads(row.fields)}
            for place, row in enumerate(line.rows)
        ],
    }
