"""Which line of a TOML text each name and each item of a list stands on; tomllib keeps no places."""

import re
import tomllib
from typing import TypeAlias

Path: TypeAlias = tuple[str | int, ...]
"""Names from the outside in; a number is the place in a list, counted from 0."""

_PIECE = re.compile(
    r"""
      \"{3} (?: \\. | [^\\] )*? \"{3,5}
    | '{3} .*? '{3,5}
    | " (?: \\. | [^"\\] )* "
    | '[^']*'
    | \#[^\n]*
    | [\[\]{},=\n]
    | [^\s"'\#\[\]{},=]+
    """,
    re.DOTALL | re.VERBOSE,
)


def lines_of(text: str) -> dict[Path, int]:
    """Where tables, names and the items of lists begin. `text` is TOML that can be read."""
    reader = _Lines()
    for piece in _PIECE.finditer(text + "\n"):
        reader.take(piece.group())
    return reader.lines


class _Lines:
    """Goes through the pieces of a text once: before an equals sign it reads a name, after it a value."""

    def __init__(self) -> None:
        self.lines: dict[Path, int] = {}
        self._line = 1
        self._table: Path = ()
        self._name: list[str] = []
        self._value: Path | None = None
        self._depth = 0
        self._item = 0
        self._is_new_item = False

    def take(self, piece: str) -> None:
        if piece == "\n" and self._depth == 0:
            self._end_statement()
        elif piece[0] not in "#\n":
            if self._value is None:
                self._take_name(piece)
            else:
                self._take_value(self._value, piece)
        self._line += piece.count("\n")

    def _end_statement(self) -> None:
        if self._value is None and self._name:
            self._table = _path("".join(piece for piece in self._name if piece not in "[]"))
            self.lines.setdefault(self._table, self._line)
        self._name = []
        self._value = None

    def _take_name(self, piece: str) -> None:
        if piece != "=":
            self._name.append(piece)
            return
        self._value = self._table + _path("".join(self._name))
        for length in range(1, len(self._value) + 1):
            self.lines.setdefault(self._value[:length], self._line)

    def _take_value(self, value: Path, piece: str) -> None:
        if piece in "]}":
            self._depth -= 1
            return
        if self._depth == 1 and piece == ",":
            self._item += 1
            self._is_new_item = True
            return
        if self._depth == 1 and self._is_new_item:
            self.lines[(*value, self._item)] = self._line
            self._is_new_item = False
        if piece in "[{":
            self._depth += 1
            if self._depth == 1:
                self._item, self._is_new_item = 0, True


def _path(name: str) -> Path:
    """The parts of a name that may be dotted and quoted, read by tomllib itself."""
    inner: object = tomllib.loads(f"{name} = 0")
    path: Path = ()
    while isinstance(inner, dict):
        ((part, inner),) = inner.items()
        path = (*path, part)
    return path
