"""TOML that a person has typed: its values, and the line on which each of them stands."""

import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from difflib import get_close_matches

from saythesum.errors import CallerError
from saythesum.settings.toml_lines import Path, lines_of
from saythesum.settings.toml_problems import first_problem


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
        return _parsed(text)
    except RecursionError:
        raise CallerError(f"There are far too many brackets inside brackets; a line looks like {example}.") from None
    except ValueError as error:
        problem = first_problem(text)
        column = "" if problem.column is None else f", column {problem.column}"
        sentence = f"Line {problem.line} cannot be read ({problem.what}{column}); a line looks like {example}."
        raise CallerError(sentence) from error


def _parsed(text: str) -> Typed:
    """Curly quotes, as word processors make them, count as straight ones where the text cannot be read otherwise."""
    straight = text.translate(_STRAIGHT)
    try:
        return Typed(tomllib.loads(text), lines_of(text))
    except ValueError as error:
        with suppress(ValueError):
            if straight != text:
                return Typed(tomllib.loads(straight), lines_of(straight))
        raise error


_STRAIGHT = str.maketrans(dict.fromkeys("\u201c\u201d\u201e\u201f\u00ab\u00bb", '"'))


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
