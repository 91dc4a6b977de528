"""What is wrong in a text that is not TOML, and where: found by looking at the text.

The sentences of `tomllib` are for programmers, and change from one Python to the next. It is only asked whether a
statement can be read.
"""

import re
import tomllib
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

_PIECE = re.compile(
    r"""
      (?P<text> \"{3} (?: \\. | [^\\] )*? \"{3,5} | '{3} .*? '{3,5} | "(?: \\. | [^"\\\n] )*" | '[^'\n]*' )
    | (?P<comment> \#[^\n]* )
    | (?P<mark> [\[\]{},=\n] )
    | (?P<word> [^\s"'\#\[\]{},=]+ )
    | (?P<quote> ["'] )
    """,
    re.DOTALL | re.VERBOSE,
)
_BARE_NAME = re.compile(r"[A-Za-z0-9_.-]+")
_MOST_DIGITS = 4_000
"""Python refuses to read a longer number."""

NO_NAME = "it does not begin with a name"
ODD_NAME = "a name has a character that no name has"
NO_EQUALS = "there is no = after the name"
NO_VALUE = "after = comes a number, a list in [ ] or words in straight quotes"
LIST = "a list lacks its end ] or a comma, or has a number that begins with 0"
TABLE = "a [ is not closed"
BRACES = "a { is not closed"
QUOTES = "the quotes are not closed"
BACKSLASH = "inside quotes a backslash is written twice"
LEFT_OVER = "something is left over; numbers stand in a list, [ ]"
UNSEEN = "a character cannot be seen"
LONG_NUMBER = "a number far too long"
TWICE = "the same name is there twice"


@dataclass(frozen=True, slots=True)
class Problem:
    line: int
    column: int | None
    what: str


@dataclass(frozen=True, slots=True)
class _Piece:
    kind: str
    text: str
    line: int
    column: int

    def problem(self, what: str) -> Problem:
        return Problem(self.line, self.column, what)


@dataclass(frozen=True, slots=True)
class _Statement:
    text: str
    pieces: Sequence[_Piece]
    """Without comments and the ends of lines; at least one."""


def first_problem(text: str) -> Problem:
    """`text` is not TOML."""
    statements = list(_statements(text.replace("\r\n", "\n")))
    for statement in statements:
        if not _is_toml(statement.text):
            return _problem_in(statement)
    # Each can be read alone, so two of them name the same thing.
    count = bisect_left(
        range(1, len(statements)),
        True,
        key=lambda count: not _is_toml("\n".join(statement.text for statement in statements[:count])),
    )
    return Problem(statements[count].pieces[0].line if statements else 1, None, TWICE)


def _is_toml(text: str) -> bool:
    try:
        tomllib.loads(text)
    except (ValueError, RecursionError):
        return False
    return True


def _statements(text: str) -> Iterator[_Statement]:
    """A statement goes to the end of its line, or of the line in which its last bracket is closed."""
    line, line_begin, begin, depth = 1, 0, 0, 0
    pieces: list[_Piece] = []
    for found in _PIECE.finditer(f"{text}\n"):
        piece = _Piece(str(found.lastgroup), found[0], line, found.start() - line_begin + 1)
        if piece.text == "\n" and depth <= 0:
            if pieces:
                yield _Statement(text[begin : found.start()], pieces)
            pieces, begin, depth = [], found.end(), 0
        elif piece.text != "\n" and (piece.kind != "comment" or _hides_something(piece.text)):
            pieces.append(piece)
            depth += (piece.text in ("[", "{")) - (piece.text in ("]", "}"))
        if "\n" in piece.text:
            line += piece.text.count("\n")
            line_begin = found.start() + piece.text.rindex("\n") + 1
    if pieces:
        yield _Statement(text[begin:], pieces)


def _problem_in(statement: _Statement) -> Problem:
    first = statement.pieces[0]
    for piece in statement.pieces:
        if piece.kind == "word" and sum(map(str.isdigit, piece.text)) > _MOST_DIGITS:
            return Problem(piece.line, None, LONG_NUMBER)
        if _hides_something(piece.text):
            return piece.problem(UNSEEN)
    equals = next((place for place, piece in enumerate(statement.pieces) if piece.text == "="), None)
    if first.text == "[":
        return _problem_in_table(statement.pieces)
    if first.kind != "text" and not _BARE_NAME.match(first.text):
        return first.problem(QUOTES if first.kind == "quote" else NO_NAME)
    if equals is None or equals > 1:
        if not _is_name(first):
            return first.problem(ODD_NAME)
        after = statement.pieces[1:2]
        return after[0].problem(NO_EQUALS) if after else _behind(first, NO_EQUALS)
    if not _is_name(first):
        return first.problem(ODD_NAME)
    return _problem_in_value(statement.pieces[equals], statement.pieces[equals + 1 :])


def _hides_something(text: str) -> bool:
    """Source: TOML 1.0.0, which permits no control characters but the tab, nor DEL."""
    return any((letter < " " and letter not in "\t\n") or letter == "\x7f" for letter in text)


def _is_name(piece: _Piece) -> bool:
    return _is_toml(f"{piece.text} = 0")


def _behind(piece: _Piece, what: str) -> Problem:
    return Problem(piece.line, piece.column + len(piece.text), what)


def _problem_in_table(pieces: Sequence[_Piece]) -> Problem:
    opened = sum(piece.text == "[" for piece in pieces)
    closed = sum(piece.text == "]" for piece in pieces)
    if closed < opened:
        return _behind(pieces[-1], TABLE)
    inside = next((piece for piece in pieces if piece.text not in "[]"), None)
    return pieces[0].problem(NO_NAME) if inside is None else inside.problem(ODD_NAME)


def _problem_in_value(equals: _Piece, value: Sequence[_Piece]) -> Problem:
    if not value:
        return _behind(equals, NO_VALUE)
    first = value[0]
    if first.text in ("[", "{"):
        return _problem_in_list(value)
    if problem := _problem_of_one(first):
        return problem
    return value[1].problem(LEFT_OVER) if len(value) > 1 else first.problem(NO_VALUE)


def _problem_in_list(value: Sequence[_Piece]) -> Problem:
    """Also of a table in braces, in which there are names as well."""
    is_list = value[0].text == "["
    depth = 0
    before = ""
    for piece in value:
        if depth == 0 and before:
            return piece.problem(LEFT_OVER)
        if piece.kind == "mark":
            depth += (piece.text in ("[", "{")) - (piece.text in ("]", "}"))
        elif is_list and before == "value":
            return piece.problem(LIST)
        elif is_list and (problem := _problem_of_one(piece)):
            return piece.problem(LIST) if piece.text.lstrip("+-").startswith("0") else problem
        before = piece.text if piece.kind == "mark" else "value"
    if depth > 0:
        return _behind(value[-1], LIST if is_list else BRACES)
    return value[0].problem(LIST if is_list else NO_VALUE)


def _problem_of_one(piece: _Piece) -> Problem | None:
    """None where it is a value."""
    if _is_toml(f"value = {piece.text}"):
        return None
    if piece.kind == "quote":
        return piece.problem(QUOTES)
    return piece.problem(BACKSLASH if piece.kind == "text" and "\\" in piece.text else NO_VALUE)
