"""Frozen dataclasses to and from plain values: what JSON can say, and nothing more.

Reading is lenient with time and strict with meaning: a field of a newer version is left out, a missing
one gets its default (or None, where that is allowed), a value that cannot be meant is refused.
"""

from collections.abc import Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from enum import StrEnum
from functools import cache
from types import NoneType, UnionType
from typing import Any, Literal, NewType, TypeVar, Union, cast, get_args, get_origin, get_type_hints
from uuid import UUID

from saythesum.core.records.older_rows import completed
from saythesum.core.records.rows import Answer, Ask, End, Note, Reason, Row, Void
from saythesum.core.sums import ExerciseName
from saythesum.errors import CallerError

T = TypeVar("T")


def to_plain(value: object) -> Any:
    """Tuples become lists, enums their text, dataclasses dicts of their fields, properties left out."""
    if isinstance(value, StrEnum):
        return value.value
    if isinstance(value, tuple):
        return [to_plain(item) for item in value]
    if is_dataclass(value) and not isinstance(value, type):
        return {field.name: to_plain(getattr(value, field.name)) for field in fields(value)}
    if value is None or isinstance(value, bool | int | float | str):
        return value
    raise TypeError(f"{type(value).__name__} has no plain form")


def from_plain(kind: type[T], given: Mapping[str, object]) -> T:
    """Raises CallerError naming the field, what it is and what would be right."""
    values: dict[str, object] = {}
    for field, hint in _hinted(cast(type, kind)):
        if field.name in given:
            values[field.name] = _field_read(field.name, hint, given[field.name])
        elif field.default is not MISSING or field.default_factory is not MISSING:
            continue
        elif NoneType in get_args(hint):
            values[field.name] = None
        else:
            raise CallerError(f"`{field.name}` is missing; it must be {_wanted(hint)}.")
    return kind(**values)


@cache
def _hinted(kind: type) -> tuple[tuple[Field[Any], Any], ...]:
    hints = get_type_hints(kind)
    return tuple((field, hints[field.name]) for field in fields(kind))


def _field_read(name: str, hint: Any, value: object) -> object:
    try:
        return _read(hint, value)
    except _UnfitError:
        raise CallerError(f"`{name}` is {value!r}; it must be {_wanted(hint)}.") from None


class _UnfitError(Exception):
    pass


def _read(hint: Any, value: object) -> object:
    if isinstance(hint, NewType):
        return _read(hint.__supertype__, value)
    origin = get_origin(hint)
    if origin in (Union, UnionType):
        return _read_one_of(get_args(hint), value)
    if origin is Literal:
        return _fit(value, value in get_args(hint))
    if origin is tuple:
        item = get_args(hint)[0]
        return tuple(_read(item, one) for one in value) if isinstance(value, list) else _fit(value, False)
    if is_dataclass(hint):
        return from_plain(hint, value) if isinstance(value, Mapping) else _fit(value, False)  # type: ignore[arg-type]
    if issubclass(hint, StrEnum):
        return hint(_fit(value, value in [member.value for member in hint]))
    if hint is float and type(value) is int:
        return float(value)
    return _fit(value, type(value) is hint)  # not isinstance: True is no whole number


def _read_one_of(options: tuple[Any, ...], value: object) -> object:
    """An enum's own words come before free text, wherever they stand in the hint."""
    for option in sorted(options, key=lambda option: isinstance(option, NewType) or option is str):
        try:
            return _read(option, value)
        except _UnfitError:
            continue
    raise _UnfitError


def _fit(value: object, fits: bool) -> object:
    if not fits:
        raise _UnfitError
    return value


def _wanted(hint: Any) -> str:
    if isinstance(hint, NewType):
        return _wanted(hint.__supertype__)
    origin = get_origin(hint)
    if origin in (Union, UnionType):
        return ", or ".join(_wanted(option) for option in get_args(hint))
    if origin is Literal:
        return "one of " + ", ".join(map(str, get_args(hint)))
    if origin is tuple:
        return "a list"
    if is_dataclass(hint):
        return "a group of fields"
    if issubclass(hint, StrEnum):
        return "one of " + ", ".join(hint)
    plain = {int: "a whole number", float: "a number", bool: "true or false", str: "text", NoneType: "null"}
    return plain[hint]


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
    row: Row = from_plain(ROW_KINDS[kind], completed(kind, given))
    _check_numbers(row)
    check_possible(row)
    _check_ids(row)
    return row


def _check_numbers(row: Row) -> None:
    """No number in a row is below 0."""
    for field in fields(row):
        value = getattr(row, field.name)
        for number in value if isinstance(value, tuple) else (value,):
            if isinstance(number, int | float) and not number >= 0:
                raise CallerError(f"`{field.name}` is {number}; it must be 0 or more.")


def check_possible(row: Row) -> None:
    """A sum has its place in a grid, a certainty is at most 1, and an answer belongs to a sum that exists."""
    if isinstance(row, Ask | Answer) and row.exercise is ExerciseName.SUM:
        for name, place in (("row", row.row), ("column", row.column)):
            if place is None:
                raise CallerError(f"`{name}` is missing; it must be a whole number.")
    if isinstance(row, Answer):
        if row.certainty is not None and row.certainty > 1:
            raise CallerError(f"`certainty` is {row.certainty}; it must be from 0 to 1.")
        _ = row.asked


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
