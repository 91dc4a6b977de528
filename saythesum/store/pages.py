"""Finds records in the pages of an SQLite file without trusting its header, schema or b-trees.

The caller must be able to tell a genuine record from garbage; in our records the checksum of each row does that.
Source: "Database File Format", sections 1.6, 2.1 and 4.1, https://www.sqlite.org/fileformat2.html
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import chain
from struct import unpack, unpack_from

from saythesum.store.columns import Columns, Value

_USUAL_PAGE_SIZE = 4096
_FILE_HEADER, _LOG_HEADER, _FRAME_HEADER = 100, 32, 24
_TABLE_LEAF, _INDEX_LEAF, _INDEX_INTERIOR = 0x0D, 0x0A, 0x02
_CONTENT_OF_TYPE: Mapping[int, tuple[int, int]] = {_TABLE_LEAF: (8, 0), _INDEX_LEAF: (8, 0), _INDEX_INTERIOR: (12, 4)}
"""For each type of page: the length of its header, and what stands before a cell's payload size."""
_LENGTHS = (0, 1, 2, 3, 4, 6, 8, 8, 0, 0)
"""In bytes, of the types 0 to 9: null, whole numbers, a float, 0 and 1."""


@dataclass(frozen=True, slots=True)
class Found:
    row_number: int | None
    """SQLite's own number of the row; None in a table without."""
    values: Columns


def records_in(database: bytes, log: bytes = b"") -> Iterator[Found]:
    """`log`: the write-ahead log. The same row may be found more than once, and garbage too."""
    size = _page_size(database)
    in_database = [database[at : at + size] for at in range(0, len(database), size)]
    in_log = list(_logged(log, size))
    newest = dict(enumerate(in_database, 1)) | dict(in_log)
    for number, page in chain(enumerate(in_database, 1), in_log):
        yield from _in_page(page.ljust(size, b"\0"), _FILE_HEADER if number == 1 else 0, newest)


def _page_size(database: bytes) -> int:
    """An impossible size means that the header is damaged."""
    size = int.from_bytes(database[16:18])
    size = 65536 if size == 1 else size
    return size if size >= 512 and size & (size - 1) == 0 else _USUAL_PAGE_SIZE


def _logged(log: bytes, size: int) -> Iterator[tuple[int, bytes]]:
    """Each frame's page number and page."""
    for at in range(_LOG_HEADER, len(log), _FRAME_HEADER + size):
        start = at + _FRAME_HEADER
        if start < len(log):
            yield int.from_bytes(log[at : at + 4]), log[start : start + size]


def _in_page(page: bytes, header: int, pages: Mapping[int, bytes]) -> Iterator[Found]:
    """A page with an unknown type may be damaged in that byte, so it is tried as each type that holds records."""
    if not any(page):
        return
    types = [page[header]] if page[header] in _CONTENT_OF_TYPE else list(_CONTENT_OF_TYPE)
    for type_ in types:
        header_length, before_size = _CONTENT_OF_TYPE[type_]
        pointers = header + header_length
        count = min(int.from_bytes(page[header + 3 : header + 5]), (len(page) - pointers) // 2)
        for (at,) in (unpack_from(">H", page, pointers + 2 * cell) for cell in range(count)):
            try:
                yield _cell(page, at + before_size, type_ == _TABLE_LEAF, pages)
            except (IndexError, ValueError, KeyError):
                continue  # not a cell, or a damaged one


def _cell(page: bytes, at: int, is_table: bool, pages: Mapping[int, bytes]) -> Found:
    length, at = _varint(page, at)
    row_number = None
    if is_table:
        row_number, at = _varint(page, at)
    local = _local_length(length, len(page), is_table=is_table)
    payload = page[at : at + local]
    if local < length:
        payload += _overflow(int.from_bytes(page[at + local : at + local + 4]), length - local, pages)
    if len(payload) != length:
        raise ValueError("the payload is cut off")
    return Found(row_number, _values(payload))


def _local_length(length: int, page_size: int, *, is_table: bool) -> int:
    """How much of a payload stands in the page itself."""
    most = page_size - 35 if is_table else (page_size - 12) * 64 // 255 - 23
    if length <= most:
        return length
    least = (page_size - 12) * 32 // 255 - 23
    wanted = least + (length - least) % (page_size - 4)
    return wanted if wanted <= most else least


def _overflow(number: int, length: int, pages: Mapping[int, bytes]) -> bytes:
    if length > len(pages) * 65536:
        raise ValueError("no file holds that much")
    parts = b""
    while len(parts) < length:
        page = pages[number]
        if len(page) <= 4:
            raise ValueError("the page is cut off")
        number, parts = int.from_bytes(page[:4]), parts + page[4:]
    return parts[:length]


def _values(payload: bytes) -> Columns:
    header_end, at = _varint(payload, 0)
    types = []
    while at < header_end:
        type_, at = _varint(payload, at)
        types.append(type_)
    values = []
    for type_ in types:
        value, at = _value(payload, at, type_)
        values.append(value)
    return tuple(values)


def _value(payload: bytes, at: int, type_: int) -> tuple[Value, int]:
    length = _length_of(type_)
    raw = payload[at : at + length]
    if len(raw) != length:
        raise ValueError("the value is cut off")
    return _read(raw, type_), at + length


def _length_of(type_: int) -> int:
    if type_ >= 12:
        return (type_ - 12) // 2
    if type_ in (10, 11):
        raise ValueError("a type that SQLite keeps for itself")
    return _LENGTHS[type_]


def _read(raw: bytes, type_: int) -> Value:
    match type_:
        case 0:
            return None
        case 7:
            value: float = unpack(">d", raw)[0]
            return value
        case 8 | 9:
            return type_ - 8
        case _ if type_ < 7:
            return int.from_bytes(raw, signed=True)
        case _:
            return raw.decode("utf-8", "replace") if type_ % 2 else raw


def _varint(data: bytes, at: int) -> tuple[int, int]:
    """The number, and where it ends."""
    value = 0
    for place in range(8):
        byte = data[at + place]
        value = value << 7 | byte & 0x7F
        if byte < 0x80:
            return value, at + place + 1
    return value << 8 | data[at + 8], at + 9
