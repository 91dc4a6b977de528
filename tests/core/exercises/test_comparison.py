"""Every standing is true of its number, false of the right answer, and holds no right answer."""

from collections.abc import Callable, Iterator
from itertools import product

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.comparison import Stand, Standing, standing_of
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.sums import Kind

SAYS: dict[Standing, Callable[[int, int, Sum], bool]] = {
    Standing.LESS_THAN_START: lambda number, by, asked: number + by == asked.start and by > 0,
    Standing.AT_START: lambda number, by, asked: number == asked.start,
    Standing.BEFORE_TEN: lambda number, by, asked: asked.start < number == asked.next_ten - by and by > 0,
    Standing.AT_TEN: lambda number, by, asked: number == asked.next_ten,
    Standing.PAST_TEN: lambda number, by, asked: number == asked.next_ten + by and by > 0,
    Standing.MORE_THAN_START: lambda number, by, asked: number == asked.start + by and by > 0,
    Standing.PAST_AMOUNT: lambda number, by, asked: number > asked.start + asked.amount,
    Standing.MORE_THAN_TEN_PAST: lambda number, by, asked: number > asked.start + 10,
    Standing.FAR_PAST_START: lambda number, by, asked: number >= asked.start + 20,
}
"""What a sentence made from each standing claims about a number."""

NAMES_TEN = {Standing.BEFORE_TEN, Standing.AT_TEN, Standing.PAST_TEN}
NAMES_DISTANCE = {
    Standing.LESS_THAN_START,
    Standing.BEFORE_TEN,
    Standing.PAST_TEN,
    Standing.MORE_THAN_START,
}


def check(asked: Sum, number: int) -> None:
    stand = standing_of(asked, number)
    claim = SAYS[stand.standing]
    assert claim(number, stand.by, asked), (asked, number, stand)
    assert not claim(asked.total, stand.by, asked), (asked, number, stand)
    heard = {number, asked.next_ten if stand.standing in NAMES_TEN else asked.start}
    if stand.standing is Standing.MORE_THAN_TEN_PAST:
        heard.add(10)
    if stand.standing is Standing.PAST_AMOUNT:
        heard.add(asked.amount)
    if stand.standing in NAMES_DISTANCE:
        heard.add(stand.by)
    else:
        assert stand.by == 0
    assert asked.total not in heard, (asked, number, stand)


def numbers_of_mistakes(asked: Sum) -> Iterator[int]:
    for mistake in MISTAKES:
        for number in mistake.gives(asked):
            if number >= 0 and number != asked.total:
                yield number


def test_every_number_that_a_mistake_gives_in_every_sum() -> None:
    for start, amount in product(range(1000), range(1, 10)):
        asked = Sum(start, amount)
        for number in numbers_of_mistakes(asked):
            check(asked, number)


def test_every_number_in_a_sample_of_sums() -> None:
    starts = (*range(21), *range(38, 1000, 97), 99, 100, 999)
    for start, amount in product(starts, range(1, 10)):
        asked = Sum(start, amount)
        for number in range(1100):
            if number != asked.total:
                check(asked, number)


def test_every_number_near_every_sum() -> None:
    for start, amount in product(range(1000), range(1, 10)):
        asked = Sum(start, amount)
        for number in range(max(0, start - 3), start + 22):
            if number != asked.total:
                check(asked, number)


@pytest.mark.parametrize(
    ("start", "amount", "number", "stand"),
    [
        (57, 5, 52, Stand(Standing.LESS_THAN_START, 5)),
        (57, 5, 57, Stand(Standing.AT_START, 0)),
        (57, 5, 59, Stand(Standing.BEFORE_TEN, 1)),
        (57, 5, 60, Stand(Standing.AT_TEN, 0)),
        (38, 5, 45, Stand(Standing.PAST_TEN, 5)),
        (57, 5, 72, Stand(Standing.MORE_THAN_TEN_PAST, 0)),
        (57, 5, 77, Stand(Standing.FAR_PAST_START, 0)),
        (94, 9, 105, Stand(Standing.MORE_THAN_TEN_PAST, 0)),  # two past the answer is not far
        (57, 3, 61, Stand(Standing.MORE_THAN_START, 4)),
        (8, 5, 21, Stand(Standing.MORE_THAN_TEN_PAST, 0)),  # thirteen past eight, and thirteen is the answer
        (2, 3, 7, Stand(Standing.PAST_AMOUNT, 0)),  # five past two, and five is the answer
        (4, 6, 14, Stand(Standing.PAST_AMOUNT, 0)),
        (4, 6, 17, Stand(Standing.PAST_AMOUNT, 0)),  # "more than ten past" would say the answer
    ],
)
def test_examples(start: int, amount: int, number: int, stand: Stand) -> None:
    assert standing_of(Sum(start, amount), number) == stand


def test_only_crossing_sums_are_told_of_the_next_ten() -> None:
    """In a sum that lands, the next ten is the answer."""
    for start, amount in product(range(1000), range(1, 10)):
        asked = Sum(start, amount)
        if asked.kind is not Kind.CROSSING:
            near = {standing_of(asked, start + step).standing for step in range(1, 11) if step != amount}
            assert not near & NAMES_TEN


def test_the_right_answer_has_no_standing() -> None:
    with pytest.raises(ValueError, match="62 is the right answer"):
        standing_of(Sum(57, 5), 62)
