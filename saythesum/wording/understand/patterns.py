"""A small notation for the ways to say something in a sentence, and what it compiles to.

`a/b` is either word, a `?` after it means that it may be missing, a `*` that it may stand any number of times; `..` is
up to three words whatever they are, `...` any number; `^` and `$` are the beginning and the end of the sentence;
`<name>` is a set of words with that name.
"""

import re
from collections.abc import Mapping, Sequence


def compiled(ways: Sequence[str], sets: Mapping[str, str]) -> re.Pattern[str]:
    """One pattern for all the ways, to be searched for in words that each have a space behind them."""
    return re.compile("|".join(f"(?:{_way(way, sets)})" for way in ways))


def _way(way: str, sets: Mapping[str, str]) -> str:
    pieces = [_piece(piece, sets) for piece in way.split()]
    return "".join(pieces if way.startswith("^") else [r"(?<!\S)", *pieces])


def _piece(piece: str, sets: Mapping[str, str]) -> str:
    match piece:
        case "^" | "$":
            return piece
        case "..":
            return r"(?:\S+ ){0,3}?"
        case "...":
            return r"(?:\S+ )*?"
        case _:
            times = piece[-1] if piece[-1] in "?*" else ""
            word = piece.removesuffix(times) if times else piece
            words = [part for name in word.split("/") for part in _named(name, sets)]
            return f"(?:(?:{'|'.join(map(re.escape, words))}) ){times}"


def _named(name: str, sets: Mapping[str, str]) -> list[str]:
    return sets[name[1:-1]].split() if name.startswith("<") else [name]
