"""Forms of sentences, and the numbers in them, read by a reader of its own that knows nothing of the wording.

In a form {n} stands for any number and {g} for the one that was given.
"""

import re
from collections.abc import Iterable, Iterator
from itertools import product

SMALL = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"),
    *("thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"),
)
TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")


def _below_hundred() -> Iterator[tuple[str, int]]:
    yield from ((word, value) for value, word in enumerate(SMALL))
    for (place, ten), ones in product(enumerate(TENS, 2), range(10)):
        yield (ten if ones == 0 else f"{ten}-{SMALL[ones]}", 10 * place + ones)


def _all_numbers() -> Iterator[tuple[str, int]]:
    below = dict(_below_hundred())
    yield from below.items()
    for hundreds in range(1, 11):
        large = "a thousand" if hundreds == 10 else f"{'a' if hundreds == 1 else SMALL[hundreds]} hundred"
        yield (large, 100 * hundreds)
        yield from ((f"{large} and {word}", 100 * hundreds + value) for word, value in below.items() if value)


NUMBERS = dict(_all_numbers())
_BELOW = rf"(?:(?:{'|'.join(TENS)})(?:-(?:{'|'.join(SMALL[1:10])}))?|{'|'.join(SMALL[1:])})"
_LARGE = rf"(?:a thousand|(?:a|{'|'.join(SMALL[2:10])}) hundred)"
_NUMBER = re.compile(rf"\b(?:{_LARGE}(?: and {_BELOW})?|{_BELOW}|zero)\b", re.IGNORECASE)
_SLOT = re.compile(rf"{{g}}|{{n}}|{_NUMBER.pattern}", re.IGNORECASE)


def numbers_in(text: str) -> list[int]:
    return [NUMBERS[one.lower()] for one in _NUMBER.findall(text)]


Fit = tuple[str, tuple[int, ...], int | None]
"""A form, the numbers in its {n}, and the one in its {g}."""


class Forms:
    """Found by what is left of a sentence without its numbers. A full stop at the end need not be in the form."""

    def __init__(self, forms: Iterable[str]) -> None:
        self._by_shape: dict[str, list[tuple[str, list[str]]]] = {}
        self._found: dict[str, list[Fit]] = {}
        for form in forms:  # a number in a form itself ("the next ten") is a slot with one filling
            self._by_shape.setdefault(_shape(form, _SLOT), []).append((form, _SLOT.findall(form)))

    def that_fit(self, sentence: str) -> list[Fit]:
        if sentence not in self._found:
            self._found[sentence] = [*self._fits(sentence)]
        return self._found[sentence]

    def _fits(self, sentence: str) -> Iterator[Fit]:
        numbers = numbers_in(sentence)
        shape = _shape(sentence, _NUMBER)
        for form, slots in self._by_shape.get(shape, []) + self._by_shape.get(shape.removesuffix("."), []):
            filled = list(zip(slots, numbers, strict=True))
            if all(slot in ("{g}", "{n}") or NUMBERS[slot.lower()] == number for slot, number in filled):
                given = [number for slot, number in filled if slot == "{g}"]
                yield form, tuple(number for slot, number in filled if slot == "{n}"), given[0] if given else None


def _shape(text: str, slot: re.Pattern[str]) -> str:
    return slot.sub("#", text).lower()
