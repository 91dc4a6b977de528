"""Rows to and from plain dicts, with exactly the names that the log and the store use."""

from collections.abc import Mapping
from dataclasses import fields
from typing import Any
from uuid import UUID

from saythesum.core.plain import from_plain, to_plain
from saythesum.core.rows import Answer, Ask, End, Note, Reason, Row, Void
from saythesum.errors import CallerError

ROW_KINDS: Mapping[str, type[Row]] = {"ask": Ask, "answer": Answer, "void": Void, "note": Note, "end": End}


def kind_of(row: Row) -> str:
    return type(row).__name__.lower()


def row_as_dict(row: Row) -> dict[str, Any]:
    return {"kind": kind_of(row), **to_plain(row)}


def row_from_dict(given: Mapping[str, object]) -> Row:
    """Reads a line of the log as well: its extra fields are left out.

    Raises CallerError for an unknown kind, and for a value that no row can have.
    """
    kind = given.get("kind")
    if not isinstance(kind, str) or kind not in ROW_KINDS:
        raise CallerError(f"`kind` is {kind!r}; a row's kind is one of {', '.join(ROW_KINDS)}.")
    row: Row = from_plain(ROW_KINDS[kind], given)
    _check_numbers(row)
    _check_ids(row)
    return row


def _check_numbers(row: Row) -> None:
    """No number in a row is below 0, a certainty is at most 1, and an answer belongs to a sum that exists."""
    for field in fields(row):
        value = getattr(row, field.name)
        for number in value if isinstance(value, tuple) else (value,):
            if isinstance(number, int | float) and not number >= 0:
                raise CallerError(f"`{field.name}` is {number}; it must be 0 or more.")
    if isinstance(row, Answer):
        if row.certainty is not None and row.certainty > 1:
            raise CallerError(f"`certainty` is {row.certainty}; it must be from 0 to 1.")
        _ = row.sum


def _check_ids(row: Row) -> None:
    """Ids of rows are UUIDs, so that a newer version's reason is never taken for the id of an answer."""
    for name in ("id", "of", "because"):
        value = getattr(row, name, None)
        if value is None or isinstance(value, Reason):
            continue
        try:
            UUID(value)
        except ValueError:
            raise CallerError(f"`{name}` is {value!r}; it must be a row's id (a UUID).") from None
