"""Rows compared for what they say: without ids, times, and how it became certain what was heard."""

from collections.abc import Sequence
from dataclasses import replace

from saythesum.core.records.rows import Answer, Ask, HeardId, Note, Row, RowId, Settled, Void


def without_ids(rows: Sequence[Row], *, with_how: bool = True) -> tuple[Row, ...]:
    """Ids become places in the order of rows. `with_how` False also leaves out how each answer settled."""
    places = {row.id: RowId(str(place)) for place, row in enumerate(rows)}
    return tuple(_plain(row, places, with_how=with_how) for row in rows)


def _plain(row: Row, places: dict[RowId, RowId], *, with_how: bool) -> Row:
    row = replace(row, id=places[row.id])
    match row:
        case Ask(because=because):
            return replace(row, because=places.get(because, because))  # type: ignore[arg-type]
        case Answer():
            row = replace(row, heard=HeardId("") if row.heard else None, took_ms=None)
            return row if with_how else replace(row, settled=Settled.SAID_BACK)
        case Void():
            return replace(row, of=places[row.of])
        case Note(of=of):
            return replace(row, of=places[of] if of else None)
        case _:
            return row
