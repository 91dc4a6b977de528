"""Number words and figures in a line, read as numbers; other words are left where they stand."""

from itertools import groupby, pairwise, takewhile

from saythesum.core.meanings import LARGEST_NUMBER, Number, Unclear, WhyUnclear
from saythesum.wording.numbers import HOMOPHONES, OTHER_SPELLINGS, TENS, UNDER_TWENTY
from saythesum.wording.understand.tokens import PAUSE, Line

SMALL = {
    **{str(value): value for value in range(100)},
    **{f"0{value}": value for value in range(10)},
    **{name: value for value, name in enumerate(UNDER_TWENTY)},
    **{name: value for value, name in TENS.items()},
    **{name: value for value, names in OTHER_SPELLINGS.items() for name in names},
}
UNITS = {"hundred": 100, "thousand": 1000}
_SOUNDS_LIKE = {name: UNDER_TWENTY[value] for value, names in HOMOPHONES.items() for name in names}
_INSIDE = {PAUSE, "and", "oh"}
"""What may stand inside one number: "forty … and three", "a hundred and four"."""

Item = int | str


def items(line: Line) -> tuple[Item, ...]:
    """The line with each number in it read as far as it goes."""
    found: list[Item] = []
    at = 0
    while at < len(line):
        number = _number(line, at)
        item, at = number if number else (line[at], at + 1)
        found.append(item)
    return tuple(found)


def is_number_word(word: str) -> bool:
    return word in SMALL or word in UNITS or _figures(word) is not None


def with_homophones_read(line: Line) -> Line:
    """ "forty to" is forty-two, but only where the whole line then reads as numbers: "is it for me" is not four."""
    sounded = tuple(_SOUNDS_LIKE.get(word, word) for word in line)
    pure = all(isinstance(item, int) or item in (PAUSE, "oh") for item in items(sounded))
    return sounded if pure else line


def spelled_out(line: Line) -> int | None:
    """A number said in pieces without a pause: "five two", "one oh four", "one forty-two".

    Pieces that go up by one are somebody counting, not spelling. The line has a number word in it.
    """
    places = [at for at, word in enumerate(line) if is_number_word(word)]
    block = line[places[0] : places[-1] + 1] + _trailing_oh(line, places[-1] + 1)
    pieces = [0 if word == "oh" else SMALL.get(word, -1) for word in block]
    if len(pieces) < 2 or not 1 <= pieces[0] <= 9 or all(later - earlier == 1 for earlier, later in pairwise(pieces)):
        return None
    if len(pieces) <= 3 and all(0 <= piece <= 9 for piece in pieces):
        return int("".join(map(str, pieces)))
    rest = items(block[1:])
    if len(rest) == 1 and isinstance(rest[0], int) and 10 <= rest[0] <= 99 and PAUSE not in block:
        return pieces[0] * 100 + rest[0]
    return None


def _trailing_oh(line: Line, at: int) -> Line:
    return tuple(takewhile(lambda word: word == "oh", line[at:]))


def _number(line: Line, at: int) -> tuple[int, int] | None:
    """The longest number that starts here, and where it ends."""
    whole = _figures(line[at])
    if whole is not None:
        return _with_rest(line, at + 1, whole) if whole % 100 == 0 else (whole, at + 1)
    leading = _below_hundred(line, at)
    if leading is None and (line[at] in UNITS or (line[at] == "a" and _word(line, at + 1) in UNITS)):
        leading = (1, at if line[at] in UNITS else at + 1)
    if leading is None:
        return None
    count, end = leading
    unit = UNITS.get(_word(line, end))
    return _with_rest(line, end + 1, count * unit) if unit else leading


def _with_rest(line: Line, at: int, hundreds: int) -> tuple[int, int]:
    rest = _below_hundred(line, _past_inside(line, at))
    if rest is None or rest[0] == 0 or _word(line, rest[1]) in UNITS:
        return hundreds, at
    return hundreds + rest[0], rest[1]


def _below_hundred(line: Line, at: int) -> tuple[int, int] | None:
    value = SMALL.get(_word(line, at))
    if value is None:
        return None
    if value >= 20 and value % 10 == 0:
        ones_at = _past_inside(line, at + 1)
        ones = SMALL.get(_word(line, ones_at), 0)
        if 1 <= ones <= 9 and _word(line, ones_at + 1) not in UNITS:
            return value + ones, ones_at + 1
    return value, at + 1


def _past_inside(line: Line, at: int) -> int:
    while _word(line, at) in _INSIDE:
        at += 1
    return at


def _word(line: Line, at: int) -> str:
    return line[at] if at < len(line) else ""


def _figures(word: str) -> int | None:
    """A hundred or more in figures. ASCII only: int() would also read other scripts' digits."""
    if word.isascii() and word.isdigit() and word not in SMALL:
        return int(word[:9])
    return None


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
        return Unclear(WhyUnclear.OTHER)
    spelled = spelled_out(words)
    if len(values) == 1 and (spelled is None or "oh" not in words):
        return Number(values[0], objecting=denied)
    return _one_of(found, values, spelled)


def _one_of(found: tuple[Item, ...], values: list[int], spelled: int | None) -> Number | Unclear:
    if spelled is not None and "oh" in found:
        return Number(spelled)
    if {"or", "add", "plus"} & set(found):
        return Unclear(WhyUnclear.TWO_NUMBERS)
    if _is_count(found, values):
        return Number(values[-1], counting=True)
    if _is_begun_again(values):
        return Number(values[-1])
    return Unclear(WhyUnclear.TWO_NUMBERS) if spelled is None else Number(spelled)


def _is_beside_the_point(found: tuple[Item, ...], at: int) -> bool:
    """ "Two of the five"."""
    return _is_denied(found, at) or found[max(at - 2, 0) : at] == ("of", "the")


def _is_denied(found: tuple[Item, ...], at: int) -> bool:
    """ "Not fifty-two, sixty-two"."""
    follows_not = isinstance(found[at], int) and found[max(at - 1, 0) : at] == ("not",)
    return follows_not and not isinstance((*found, "")[at + 1], int)


def _is_count(found: tuple[Item, ...], values: list[int]) -> bool:
    """Counting aloud goes up, by one at first: the last number may be a jump to the answer. Counting back goes down by
    one each time.

    Two numbers are a count only with a pause between them, and only up: down, the second puts the first right.
    """
    if len(values) > 2 and all(earlier - later == 1 for earlier, later in pairwise(values)):
        return True
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
