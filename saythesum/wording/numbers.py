"""Number words for 0 to 1099 as British people say them, and the other ways those words get written."""

from collections.abc import Iterable

from saythesum.core.meanings import LARGEST_NUMBER

UNDER_TWENTY = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"),
    *("ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen"),
    "nineteen",
)
TENS = {
    **{20: "twenty", 30: "thirty", 40: "forty", 50: "fifty"},
    **{60: "sixty", 70: "seventy", 80: "eighty", 90: "ninety"},
}
OTHER_SPELLINGS = {0: ("nought",), 30: ("firty",), 40: ("fourty",)}
"""Written in place of the word and never meaning anything else."""
HOMOPHONES = {1: ("won",), 2: ("to", "too"), 3: ("free", "tree"), 4: ("for",), 8: ("ate",)}
"""Other words that sound the same, in some mouths: "free" and "tree" are a fronted and a stopped th."""


def words(value: int) -> str:
    """As the tool says it: "a hundred and four". Raises ValueError outside 0 to 1099."""
    if not 0 <= value <= LARGEST_NUMBER:
        raise ValueError(f"{value} is not a number the tool can say; 0 to {LARGEST_NUMBER} would be right")
    if value < 100:
        return _below_hundred(value)
    unit, name = (1000, "thousand") if value >= 1000 else (100, "hundred")
    count, rest = divmod(value, unit)
    start = f"{'a' if count == 1 else UNDER_TWENTY[count]} {name}"
    return f"{start} and {_below_hundred(rest)}" if rest else start


def listed(values: Iterable[int]) -> str:
    """Numbers side by side with a comma between them, so that no voice joins "forty, three" into one."""
    return ", ".join(words(value) for value in values)


def in_tens(value: int, link: str = " and ") -> str:
    """From 10 to 99, by its places: "two tens and seven"."""
    tens, ones = divmod(value, 10)
    counted = f"{UNDER_TWENTY[tens]} {'ten' if tens == 1 else 'tens'}"
    return f"{counted}{link}{UNDER_TWENTY[ones]}" if ones else counted


def _below_hundred(value: int) -> str:
    if value < 20:
        return UNDER_TWENTY[value]
    ones = value % 10
    return f"{TENS[value - ones]}-{UNDER_TWENTY[ones]}" if ones else TENS[value]
