"""TOML that a person has typed: its values, and the line on which each of them stands."""

import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches

from saythesum.errors import CallerError
from saythesum.settings.toml_lines import Path, lines_of


@dataclass(frozen=True, slots=True)
class Typed:
    values: Mapping[str, object]
    lines: Mapping[Path, int]

    def line_of(self, *path: str | int) -> int:
        """Of the value, or of the nearest thing around it; 1 where nothing is known."""
        known = (path[:length] for length in range(len(path), 0, -1))
        return next((self.lines[part] for part in known if part in self.lines), 1)


def typed(text: str, example: str) -> Typed:
    """Raises CallerError with one sentence, ending in `example`: a line as it should look."""
    text = text.removeprefix("\ufeff")  # Notepad's mark at the beginning of a file
    try:
        return Typed(tomllib.loads(text), lines_of(text))
    except RecursionError:
        raise CallerError(f"There are far too many brackets inside brackets; a line looks like {example}.") from None
    except ValueError as error:
        line, what = _where_and_what(text, str(error))
        raise CallerError(f"Line {line} cannot be read ({what}); a line looks like {example}.") from error


def _where_and_what(text: str, told: str) -> tuple[int, str]:
    """tomllib tells the place in its sentence; Python, refusing thousands of digits, tells none."""
    if place := re.fullmatch(r"(.*) \(at line (\d+), column (\d+)\)", told, re.DOTALL):
        return int(place[2]), f"{_plainly(place[1])}, column {place[3]}"
    if long_number := re.search(r"\d[\d_]{4000}", text):
        return text.count("\n", 0, long_number.start()) + 1, "a number far too long"
    return text.rstrip().count("\n") + 1, _plainly(told.removesuffix(" (at end of document)"))


_PLAINLY = {
    "Expected newline or end of document after a statement": "something is left over; numbers stand in a list, [ ]",
    "Unclosed array": "a list lacks its end ] or a comma, or has a number that begins with 0",
    "Invalid value": "after = comes a number, a list in [ ] or words in straight quotes",
    "Invalid statement": "it does not begin with a name",
    "Invalid initial character for a key part": "a name has a character that no name has",
    "Expected '=' after a key": "there is no = after the name",
    "Unterminated string": "the quotes are not closed",
    "Illegal character '\\n'": "the quotes are not closed",
    "Illegal character": "a character cannot be seen",
    "Found invalid character": "a character cannot be seen",
    "Unclosed inline table": "a { is not closed",
    "Expected ']": "a [ is not closed",
    'Expected "': "the quotes are not closed",
    "Expected '\"": "the quotes are not closed",
    "Unescaped": "inside quotes a backslash is written twice",
    "Escaped": "inside quotes a backslash is written twice",
    "Invalid hex": "inside quotes a backslash is written twice",
    "Cannot": "the same name is there twice",
    "Duplicate": "the same name is there twice",
}
"""How what tomllib tells begins, and the same for people."""


def _plainly(told: str) -> str:
    for begins, plain in _PLAINLY.items():
        if told.startswith(begins):
            return plain
    return told[:1].lower() + told[1:]


def shown(value: object) -> str:
    """A value as it would be typed, short, in one line and without anything that cannot be seen."""
    match value:
        case bool():
            return str(value).lower()
        case int() if abs(value) >= 10**12:
            return "a number of more than twelve digits"
        case str():
            seen = "".join(letter if letter.isprintable() else "?" for letter in value)
            return f'"{seen}"' if len(seen) <= 30 else f'"{seen[:30]}…"'
        case list() if len(value) <= 4 and all(type(item) is int for item in value):
            return f"[{', '.join(map(shown, value))}]"
        case list():
            return "a list"
        case Mapping():
            return "a table"
        case _:
            return str(value)


def shown_name(name: str) -> str:
    return name if re.fullmatch(r"[\w-]{1,30}", name) else shown(name)


MOST_PROBLEMS = 20


def first_of(problems: Sequence[str]) -> tuple[str, ...]:
    """What a person can read of them, with a word about the rest."""
    left = len(problems) - MOST_PROBLEMS
    more = (f"There are {left} more such problems.",) if left > 1 else tuple(problems[MOST_PROBLEMS:])
    return (*problems[:MOST_PROBLEMS], *more)


def rather(name: str, known: Iterable[str]) -> str:
    """The end of a sentence about a wrong name: the name that was probably meant, or all there are."""
    names = tuple(known)
    for near in get_close_matches(name.lower()[:50], names, n=1):
        return f"did you mean {near}?"
    return f"there are {', '.join(names[:-1])} and {names[-1]}."
