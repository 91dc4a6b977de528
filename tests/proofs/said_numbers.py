"""The numbers in a sentence, read off the words it is made of and not with the tool's own ears."""

import re

from saythesum.core.meanings import LARGEST_NUMBER
from saythesum.wording.numbers import words

_VALUES = {tuple(words(value).split()): value for value in range(LARGEST_NUMBER + 1)}
_LONGEST = max(map(len, _VALUES))


def numbers_said(text: str) -> set[int]:
    """Every number that is said whole: "a hundred, then two more" holds a hundred and a two.

    "The next ten" and "not a ten" are names of places and no numbers.
    """
    text = text.lower().replace("next ten", "next").replace("not a ten", "")
    found: set[int] = set()
    for clause in re.split(r"[.,;:?!]", text):
        said = clause.split()
        at = 0
        while at < len(said):
            length = next((n for n in range(_LONGEST, 0, -1) if tuple(said[at : at + n]) in _VALUES), 0)
            if length:
                found.add(_VALUES[tuple(said[at : at + length])])
            at += length or 1
    return found
