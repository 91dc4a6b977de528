"""All that is kept of pupils, as values: how it leaves one file of records and is added to another."""

import sqlite3
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from uuid import UUID

from saythesum.core.records.rows import row_id
from saythesum.store.beside.entries import Entry, insert_entries
from saythesum.store.beside.entry_tables import Table
from saythesum.store.beside.families import CopiedRow, Line, copies, laid_out
from saythesum.store.beside.moves import Move, insert_move
from saythesum.store.checksum import checksum_of
from saythesum.store.columns import insert_practice, insert_row


@dataclass(frozen=True, slots=True)
class Head:
    """A practice without its rows, as its columns have it. A fork has that of the practice as it began."""

    pupil: str
    began_at: str
    plan: str
    seed: int
    settings: str
    program_version: str
    aim: str


@dataclass(frozen=True, slots=True)
class Family:
    """A practice and its forks."""

    root: UUID
    head: Head
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Contents:
    families: tuple[Family, ...] = ()
    entries: Mapping[Table, Sequence[Entry]] = field(default_factory=dict)
    moves: tuple[Move, ...] = ()


@dataclass(frozen=True, slots=True)
class Added:
    """What was new."""

    practices: int = 0
    rows: int = 0
    entries: int = 0
    moves: int = 0
    forked: tuple[UUID, ...] = ()
    """Practices that went on differently here and there."""
    refused: tuple[UUID, ...] = ()
    """Practices of which another one with the same id is here: nothing of them was added."""
    other_pupil: tuple[tuple[UUID, str], ...] = ()
    """Practices that are here as another pupil's, and stay so."""


def families_in(connection: sqlite3.Connection, roots: Iterable[UUID]) -> tuple[tuple[Family, ...], tuple[UUID, ...]]:
    """In the order in which they are kept; and those whose rows are damaged or not all there, which are left out."""
    families, damaged = [], []
    for root in roots:
        found = connection.execute(
            "SELECT practice, parent, serial FROM forks WHERE root = ? ORDER BY rowid", (str(root),)
        ).fetchall()
        head = _head(connection, root)
        of = [(root, None, 0), *((UUID(id), UUID(parent), serial) for id, parent, serial in found)]
        lines = [
            Line(id, parent, serial, rows) for id, parent, serial in of if (rows := _rows(connection, id)) is not None
        ]
        if head is None or len(lines) < len(of):
            damaged.append(root)
        else:
            families.append(Family(root, head, tuple(lines)))
    return tuple(families), tuple(damaged)


def add_contents(connection: sqlite3.Connection, contents: Contents) -> Added:
    """Within a transaction of the caller's, who holds the practising lock."""
    added = Added()
    for family in sorted(contents.families, key=lambda one: (one.head.began_at, str(one.root))):
        added = _add_family(connection, family, added)
    entries = sum(insert_entries(connection, table, some) for table, some in contents.entries.items())
    moves = sum(insert_move(connection, move) for move in contents.moves)
    return replace(added, entries=entries, moves=moves)


def _add_family(connection: sqlite3.Connection, family: Family, added: Added) -> Added:
    known, damaged = families_in(connection, [family.root])
    is_here = connection.execute("SELECT 1 FROM practices WHERE id = ?", (str(family.root),)).fetchone()
    if not is_here:
        here: tuple[Line, ...] = ()
        head = family.head
    elif damaged or replace(known[0].head, pupil="") != replace(family.head, pupil=""):
        return replace(added, refused=(*added.refused, family.root))
    else:
        here, head = known[0].lines, known[0].head
        if head.pupil != family.head.pupil:
            added = replace(added, other_pupil=(*added.other_pupil, (family.root, head.pupil)))
    if here == family.lines:
        return added
    together = laid_out(family.root, copies(family.root, here) | copies(family.root, family.lines))
    return _counted(added, family.root, here, together, _write(connection, head, here, together))


def _counted(added: Added, root: UUID, here: Sequence[Line], together: Sequence[Line], practices: int) -> Added:
    new = sum(len(line.rows) for line in together) - sum(len(line.rows) for line in here)
    is_forked = here and len(together) > len(here)
    return replace(
        added,
        practices=added.practices + practices,
        rows=added.rows + new,
        forked=(*added.forked, root) if is_forked else added.forked,
    )


def _write(connection: sqlite3.Connection, head: Head, here: Sequence[Line], together: Sequence[Line]) -> int:
    """How many practices are new, forks among them."""
    before = {line.id: line for line in here}
    (number,) = connection.execute("SELECT coalesce(max(number), 0) FROM practices").fetchone()
    new = [line for line in together if line.id not in before]
    for place, line in enumerate(new, 1):
        columns = (head.pupil, head.began_at, head.plan, head.seed, head.settings, head.program_version, head.aim)
        insert_practice(connection, (number + place, str(line.id), *columns))
    parted = [line for line in together if _is_rewritten(before.get(line.id), line)]
    if parted:
        _drop_rows(connection, head.pupil, parted)
    for line in together:
        kept = 0 if line in parted else len(before[line.id].rows) if line.id in before else 0
        for serial, row in enumerate(line.rows[kept:], kept):
            id = str(line.id)
            insert_row(connection, (id, serial, row_id(line.id, serial), row.kind, row.at, row.at_ms, row.fields))
    root = together[0].id
    connection.execute("DELETE FROM forks WHERE root = ?", (str(root),))
    forks = [(str(line.id), str(root), str(line.parent), line.serial) for line in together if line.parent]
    connection.executemany("INSERT INTO forks VALUES (?, ?, ?, ?)", forks)
    return len(new)


def _is_rewritten(before: Line | None, now: Line) -> bool:
    """What is kept under this id is not the beginning of what is to be."""
    return before is not None and before.rows != now.rows[: len(before.rows)]


def _drop_rows(connection: sqlite3.Connection, pupil: str, lines: Iterable[Line]) -> None:
    """They are added again in the same transaction, under this or another id."""
    connection.execute("INSERT INTO erasing VALUES (?)", (pupil,))
    connection.executemany("DELETE FROM rows WHERE practice = ?", [(str(line.id),) for line in lines])
    connection.execute("DELETE FROM erasing WHERE pupil = ?", (pupil,))


def _head(connection: sqlite3.Connection, id: UUID) -> Head | None:
    found = connection.execute(
        "SELECT number, id, pupil, began_at, plan, seed, settings, program_version, aim, checksum "
        "FROM practices WHERE id = ?",
        (str(id),),
    ).fetchone()
    if found is None or found[-1] != checksum_of(*found[:-1]):
        return None
    return Head(*found[2:-1])


def _rows(connection: sqlite3.Connection, id: UUID) -> tuple[CopiedRow, ...] | None:
    found = connection.execute(
        "SELECT practice, serial, id, kind, at, at_ms, fields, checksum FROM rows WHERE practice = ? ORDER BY serial",
        (str(id),),
    ).fetchall()
    for place, (*columns, checksum) in enumerate(found):
        if checksum != checksum_of(*columns) or columns[1:3] != [place, row_id(id, place)]:
            return None
    return tuple(CopiedRow(at, at_ms, kind, fields) for _, _, _, kind, at, at_ms, fields, _ in found)
