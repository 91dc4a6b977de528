"""Sums and their steps: arithmetic for every start and amount, and worked forms printed in curricula."""

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.sums import CLOSING_PARTS, LARGEST_AMOUNT, LARGEST_START, Kind, Part
from saythesum.errors import CallerError

EVERY_SUM = [Sum(start, amount) for start in range(LARGEST_START + 1) for amount in range(1, 10)]


@pytest.mark.parametrize(
    ("start", "amount", "worked"),
    [
        # US Common Core, 1.OA.C.6: 8+6 = 8+2+4 = 10+4 = 14
        (8, 6, {Part.GAP: 2, Part.REST: 4, Part.NEXT_TEN: 10, Part.TOTAL: 14}),
        # Australian Curriculum 9, AC9M1N04: 7+5 = 7+3+2 = 10+2 = 12
        (7, 5, {Part.GAP: 3, Part.REST: 2, Part.NEXT_TEN: 10, Part.TOTAL: 12}),
        # QCA 1999, Teaching mental calculation strategies, Year 1: 8+3 = 8+2+1
        (8, 3, {Part.GAP: 2, Part.REST: 1}),
    ],
)
def test_worked_forms_of_published_curricula(start: int, amount: int, worked: dict[Part, int]) -> None:
    asked = Sum(start, amount)
    assert {part: asked.answer_to(part) for part in worked} == worked
    assert asked.parts == (Part.NEXT_TEN, Part.GAP, Part.REST, Part.TOTAL)


@pytest.mark.parametrize(
    ("start", "amount", "kind"),
    [
        (39, 1, Kind.LANDING),  # NCETM 1.13, teaching point 1: one more, also onto a ten
        (42, 5, Kind.WITHIN),  # teaching point 2: known facts within ten
        (42, 8, Kind.LANDING),  # teaching point 3: the sum is a multiple of ten
        (45, 8, Kind.CROSSING),  # teaching point 4: bridging a multiple of ten
    ],
)
def test_kinds_in_the_order_of_teaching(start: int, amount: int, kind: Kind) -> None:
    """The teaching points are NCETM's (topic 1.13); the numbers are ours."""
    assert Sum(start, amount).kind is kind


def test_the_parts_of_every_sum_add_up() -> None:
    for asked in EVERY_SUM:
        assert asked.gap + asked.rest == asked.amount
        assert asked.start + asked.gap == asked.next_ten
        assert asked.next_ten + asked.rest == asked.total == asked.start + asked.amount
        assert asked.tens + asked.ones == asked.start
        assert asked.tens + asked.ones_total == asked.total


def test_the_next_ten_of_every_sum_is_the_first_one_met_when_counting_on() -> None:
    for asked in EVERY_SUM:
        counted = next(number for number in range(asked.start + 1, asked.start + 11) if number % 10 == 0)
        assert asked.next_ten == counted


def test_the_kind_of_every_sum_is_what_counting_on_meets() -> None:
    for asked in EVERY_SUM:
        words = [asked.start + step for step in range(1, asked.amount + 1)]
        tens = [word for word in words if word % 10 == 0]
        if not tens:
            assert asked.kind is Kind.WITHIN
        else:
            assert asked.kind is (Kind.LANDING if tens == words[-1:] else Kind.CROSSING)


def test_every_sum_is_talked_through_to_its_total_or_not_at_all() -> None:
    for asked in EVERY_SUM:
        parts = asked.parts
        assert not parts or parts[-1] is Part.TOTAL
        assert all(asked.answer_to(part) >= 1 for part in parts)
        before_the_last = [asked.answer_to(part) for part in parts[:-1]]
        assert asked.total not in before_the_last, "a step on the way must not be the answer itself"
        assert all(asked.answer_to(part) == asked.total for part in CLOSING_PARTS)


def test_a_hundred_is_crossed_by_the_same_steps() -> None:
    asked = Sum(96, 7)
    assert [asked.answer_to(part) for part in asked.parts] == [100, 4, 3, 103]
    assert [Sum(698, 5).answer_to(part) for part in Sum(698, 5).parts] == [700, 2, 3, 703]


@pytest.mark.parametrize(("start", "amount"), [(-1, 5), (1000, 5), (5, 0), (5, 10)])
def test_sums_outside_the_range_say_what_would_be_right(start: int, amount: int) -> None:
    wrong, highest = (start, LARGEST_START) if amount == 5 else (amount, LARGEST_AMOUNT)
    with pytest.raises(CallerError, match=rf"{wrong} is not a whole number from \d to {highest}\."):
        Sum(start, amount)
