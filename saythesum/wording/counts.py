"""One number out of words that may hold several: repeated, begun again, counted up to, spelled out, or just two."""

from itertools import groupby, pairwise

from saythesum.dialogue.heard import LARGEST_NUMBER, Number, Unclear, Why
from saythesum.wording.lines import PAUSE, Line
from saythesum.wording.reading import Item, items, spelled_out

_TAKES = {"minus", "take", "less"}
JOINS = {"add", "plus", "and", "away"} | _TAKES
"""What stands between the numbers of a sum."""


def number_of(words: Line) -> Number | Unclear:
    found = items(words)
    given = [item for at, item in enumerate(found) if isinstance(item, int) and not _is_beside_the_point(found, at)]
    denied = any(_is_denied(found, at) for at in range(len(found)))
    values = [value for value, _ in groupby(given)]
    last_word = next((item for item in reversed(found) if item != PAUSE), "")
    if not values or max(values) > LARGEST_NUMBER or last_word in JOINS | {"or"} or not _TAKES.isdisjoint(found):
        return Unclear(Why.OTHER)
    spelled = spelled_out(words)
    if len(values) == 1 and (spelled is None or "oh" not in words):
        return Number(values[0], objecting=denied)
    return _one_of(found, values, spelled)


def _one_of(found: tuple[Item, ...], values: list[int], spelled: int | None) -> Number | Unclear:
    if spelled is not None and "oh" in found:
        return Number(spelled)
    if {"or", "add", "plus"} & set(found):
        return Unclear(Why.TWO_NUMBERS)
    if _is_count(found, values):
        return Number(values[-1], counting=True)
    if _is_begun_again(values):
        return Number(values[-1])
    return Unclear(Why.TWO_NUMBERS) if spelled is None else Number(spelled)


def _is_beside_the_point(found: tuple[Item, ...], at: int) -> bool:
    """ "Two of the five"."""
    return _is_denied(found, at) or found[max(at - 2, 0) : at] == ("of", "the")


def _is_denied(found: tuple[Item, ...], at: int) -> bool:
    """ "Not fifty-two, sixty-two"."""
    follows_not = isinstance(found[at], int) and found[max(at - 1, 0) : at] == ("not",)
    return follows_not and not isinstance((*found, "")[at + 1], int)


def _is_count(found: tuple[Item, ...], values: list[int]) -> bool:
    """Counting aloud goes up, by one at first: the last number may be a jump to the answer.

    Two numbers are a count only with a pause between them.
    """
    if values[1] - values[0] != 1 or any(later <= earlier for earlier, later in pairwise(values)):
        return False
    start = max(at for at, item in enumerate(found) if item == values[0])
    between = set(found[start + 1 : found.index(values[1])])
    return len(values) > 2 or between == {PAUSE}


def _is_begun_again(values: list[int]) -> bool:
    """ "Forty … forty-three": a round number, then the whole of it."""
    return all(begun < whole < begun + _left_open(begun) for begun, whole in pairwise(values))


def _left_open(value: int) -> int:
    """How far its words may still go on: "forty …" to forty-nine, "a hundred …" to a hundred and ninety-nine."""
    if value == 0 or value % 10 or value % 100 == 10:
        return 0
    return 100 if value % 100 == 0 else 10
