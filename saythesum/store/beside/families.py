"""A practice that was continued on two computers: from whatever order and number of copies, the same rows.

Every copy of a practice is a sequence of rows, and two copies share a beginning. All known sequences of a practice are
laid out again each time: where they part, the way on that began first keeps the practice's id, and each later one is
a practice of its own, a fork, that holds only its own rows. Its id follows from the rows that lead to it, so it is the
same on every computer.

Inside a sequence, rows name each other by the ids they were kept with (`row_id` of the practice and the place). In a
fork they have ids of the fork.
"""

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from typing import NamedTuple, TypeAlias
from uuid import UUID, uuid5

from saythesum.core.records.rows import row_id

_NAMES_A_ROW = ("of", "because")
"""The fields that hold another row's id."""


class CopiedRow(NamedTuple):
    at: str
    """First, so that rows are in order of time."""
    at_ms: int
    kind: str
    fields: str
    """JSON text, as the records have it."""


Copy: TypeAlias = tuple[CopiedRow, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """One practice as it is stored: the practice as it began, or a fork of it."""

    id: UUID
    parent: UUID | None
    """The line that a fork parts from; None for the practice as it began."""
    serial: int
    """How many rows of the whole sequence come before the line's own."""
    rows: Copy
    """With ids as they are stored."""


def copies(root: UUID, lines: Iterable[Line]) -> set[Copy]:
    """The whole sequences that the stored lines stand for."""
    by_id = {line.id: line for line in lines}
    whole: dict[UUID, Copy] = {}

    def of(id: UUID) -> Copy:
        if id not in whole:
            line = by_id[id]
            before = of(line.parent)[: line.serial] if line.parent else ()
            whole[id] = before + tuple(_renamed(row, _as_kept(root, line, by_id)) for row in line.rows)
        return whole[id]

    return {of(id) for id in by_id}


def laid_out(root: UUID, sequences: Iterable[Copy]) -> tuple[Line, ...]:
    """The practice as it began comes first, and each fork after the line that it parts from."""
    lines: list[Line] = []
    waiting: list[tuple[UUID, UUID | None, int, list[Copy], Mapping[str, str]]] = [(root, None, 0, [*sequences], {})]
    while waiting:
        id, parent, serial, some, names = waiting.pop(0)
        names = dict(names)
        rows: list[CopiedRow] = []
        place = serial
        while some := [one for one in some if len(one) > place]:
            if id != root:
                names[row_id(root, place)] = row_id(id, place - serial)
            first, *later = sorted({one[place] for one in some})
            for row in later:
                others = [one for one in some if one[place] == row]
                fork = uuid5(root, f"fork {_digest(others[0][: place + 1])}")
                before = {old: new for old, new in names.items() if old != row_id(root, place)}
                waiting.append((fork, id, place, others, before))
            rows.append(_renamed(first, names.get))
            some = [one for one in some if one[place] == first]
            place += 1
        lines.append(Line(id, parent, serial, tuple(rows)))
    return tuple(lines)


def _as_kept(root: UUID, line: Line, by_id: Mapping[UUID, Line]) -> Callable[[str], str | None]:
    """From an id as it is stored in the line to the one that the row was kept with."""
    names: dict[str, str] = {}
    end = line.serial + len(line.rows)
    here: Line | None = line
    while here:
        if here.parent:
            for place in range(here.serial, end):
                names[row_id(here.id, place - here.serial)] = row_id(root, place)
        end = here.serial
        here = by_id[here.parent] if here.parent else None
    return names.get


def _renamed(row: CopiedRow, name: Callable[[str], str | None]) -> CopiedRow:
    fields = json.loads(row.fields)
    changed = {
        field: new
        for field in _NAMES_A_ROW
        if isinstance(old := fields.get(field), str) and (new := name(old)) is not None
    }
    return row._replace(fields=json.dumps({**fields, **changed}, allow_nan=False)) if changed else row


def _digest(rows: Sequence[CopiedRow]) -> str:
    return sha256(json.dumps(rows).encode()).hexdigest()
