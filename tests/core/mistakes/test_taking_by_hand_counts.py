"""The mirrored mistakes beside a brute force of our own: counting aloud, and digits written in columns.

Nothing here uses gaps, rests or tens of the exercise: a mistake is acted out on words counted and digits written.
"""

from collections.abc import Callable, Iterator
from itertools import product

import pytest

from saythesum.core.exercises.taking import Difference
from saythesum.core.mistakes.pattern import Occasion
from saythesum.core.mistakes.taking import TAKE_MISTAKES
from saythesum.core.sums import Kind


def counted_back(start: int, amount: int) -> list[int]:
    return [start - step for step in range(1, amount + 1)]


def in_columns(start: int, amount: int, column: Callable[[int, int], int]) -> int:
    """The ones by `column`, the other digits copied."""
    digits = str(start)
    return int(digits[:-1] + str(column(int(digits[-1]), amount)))


def on_the_way(start: int, amount: int) -> Iterator[int]:
    """The tens among the words that are counted."""
    return (word for word in counted_back(start, amount) if word % 10 == 0)


def left_at_the_ten(start: int, amount: int) -> int:
    words = counted_back(start, amount)
    return len(words) - 1 - words.index(next(on_the_way(start, amount)))


ACTED_OUT: dict[str, Callable[[int, int], int]] = {
    "ones-differenced": lambda start, amount: in_columns(start, amount, lambda ones, other: abs(other - ones)),
    "ten-not-taken": lambda start, amount: in_columns(start, amount, lambda ones, other: ones + 10 - other),
    "stopped-at-the-ten": lambda start, amount: next(on_the_way(start, amount)),
    "whole-amount-after-bridging": lambda start, amount: counted_back(next(on_the_way(start, amount)), amount)[-1],
    "first-jump-twice": lambda start, amount: counted_back(
        next(on_the_way(start, amount)), amount - left_at_the_ten(start, amount)
    )[-1],
    "start-counted": lambda start, amount: [start, *counted_back(start, amount)][amount - 1],
    "one-too-many": lambda start, amount: counted_back(start, amount + 1)[-1],
    "added": lambda start, amount: start + len(counted_back(start, amount)),
    "start-reversed": lambda start, amount: int(str(start)[::-1]) - amount,
    "answer-reversed": lambda start, amount: int(f"{start - amount:02}"[::-1]),
    "did-not-compensate": lambda start, amount: counted_back(start, 10)[-1],
}
CROSSING = [
    (start, amount)
    for start, amount in product(range(11, 100), range(1, 10))
    if amount <= start and start % 10 and 10 <= max(on_the_way(start, amount), default=0) != start - amount
]


@pytest.mark.parametrize("name", ACTED_OUT)
def test_each_formula_gives_what_comes_of_acting_it_out(name: str) -> None:
    (mistake,) = [mistake for mistake in TAKE_MISTAKES if mistake.name == name]
    shown = 0
    for start, amount in CROSSING:
        given = ACTED_OUT[name](start, amount)
        if name == "did-not-compensate" and amount < 7:
            continue
        assert mistake.fits(Difference(start, amount), given) == (given >= 0 and given != start - amount), (
            start,
            amount,
        )
        shown += 1
    assert shown > 100


def test_the_same_questions_cross_a_ten() -> None:
    crossing = {
        (start, amount)
        for start, amount in product(range(11, 100), range(1, 10))
        if amount <= start and Difference(start, amount).kind is Kind.CROSSING
    }
    assert crossing == set(CROSSING)


def test_a_right_answer_fits_nothing() -> None:
    for start, amount in CROSSING:
        asked = Difference(start, amount)
        assert not any(pattern.fits(Occasion(asked), start - amount) for pattern in asked.patterns)


# ---- those that give several numbers, or only from some starts


_TEENS = ("thir", "four", "fif", "six", "seven", "eigh", "nine")
_ENDINGS: dict[str, Callable[[int], int]] = {"teen": lambda place: 13 + place, "ty": lambda place: 10 * (3 + place)}


def misheard(start: int) -> list[int]:
    """By the word itself, with its ending changed."""
    said = [
        (place, ending) for place, _ in enumerate(_TEENS) for ending, value in _ENDINGS.items() if value(place) == start
    ]
    values = [(place, _ENDINGS["ty" if ending == "teen" else "teen"]) for place, ending in said]
    return [value(place) for place, value in values]


def beyond_the_ten(start: int, amount: int) -> set[int]:
    """The count stops on a ten, and one to nine words more are said."""
    words = counted_back(start, amount)
    is_landing = start % 10 != 0 and words[-1] % 10 == 0 and len(list(on_the_way(start, amount))) == 1
    return {word for word in counted_back(words[-1], 9)} if is_landing else set()


ALL_ACTED_OUT: dict[str, Callable[[int, int], set[int]]] = {
    "extra-ten-taken": lambda start, amount: {counted_back(start, 10 + amount)[-1]},
    "number-repeated": lambda start, amount: {start, amount},
    "compensated-the-wrong-way": lambda start, amount: (
        {counted_back(start, 10 + (10 - amount))[-1]} if amount in (7, 8, 9) else set()
    ),
    "ones-only": lambda start, amount: {int(str(start - amount)[-1])},
    "teen-or-ty-start": lambda start, amount: {counted_back(heard, amount)[-1] for heard in misheard(start)},
    "landing-crossed": beyond_the_ten,
}


@pytest.mark.parametrize("name", ALL_ACTED_OUT)
def test_each_formula_gives_all_that_comes_of_acting_it_out(name: str) -> None:
    (mistake,) = [mistake for mistake in TAKE_MISTAKES if mistake.name == name]
    shown = 0
    for start, amount in product(range(1, 100), range(1, 10)):
        if amount > start:
            continue
        asked = Difference(start, amount)
        given = {number for number in ALL_ACTED_OUT[name](start, amount) if number >= 0} - {start - amount}
        assert {number for number in range(200) if mistake.fits(asked, number)} == given, (start, amount)
        shown += len(given)
    assert shown > 50


def test_every_mirrored_mistake_is_acted_out() -> None:
    assert {*ACTED_OUT, *ALL_ACTED_OUT} == {mistake.name for mistake in TAKE_MISTAKES}
