"""Taking away back by way of the ten: the steps of published worked examples, and of every start and amount."""

from itertools import product

import pytest

from saythesum.core.exercises.taking import Difference, DifferenceFromTen
from saythesum.core.sums import Kind, Part
from saythesum.errors import CallerError
from saythesum.settings import Helping


def test_from_the_ten() -> None:
    """NCETM topic 1.11, teaching point 6, subtracting from ten: 13 take away 5 is 10 take away 5, and 3."""
    asked = DifferenceFromTen(13, 5)
    assert asked.parts == (Part.TEN_BEFORE, Part.FROM_TEN, Part.TOTAL)
    assert [asked.answer_to(part) for part in asked.parts] == [10, 5, 8]


def test_the_way_is_the_pupils_and_only_where_a_ten_is_crossed() -> None:
    from_ten = Helping(taking_away="from the ten")
    assert Difference(63, 8).by_way_of(from_ten) == DifferenceFromTen(63, 8) != Difference(63, 8)
    assert Difference(63, 8).by_way_of(Helping()) == Difference(63, 8)
    for start, amount in ((68, 3), (63, 3), (60, 4)):
        assert Difference(start, amount).by_way_of(from_ten) == Difference(start, amount)
        with pytest.raises(CallerError, match="crosses no ten"):
            DifferenceFromTen(start, amount)


def test_a_ten_is_opened_where_nothing_stands_before_it() -> None:
    asked = Difference(60, 4)
    assert [(part, asked.answer_to(part)) for part in asked.parts] == [(Part.ONES, 6), (Part.TOTAL, 56)]
    assert asked.to_join == (50, 6)


@pytest.mark.parametrize(("start", "amount"), [(10, 4), (9, 2), (5, 5)])
def test_below_ten_there_are_no_steps(start: int, amount: int) -> None:
    assert Difference(start, amount).parts == ()


@pytest.mark.parametrize(
    ("start", "amount", "worked"),
    [
        # US Common Core, 1.OA.C.6: 13-4 = 13-3-1 = 10-1 = 9
        (13, 4, {Part.GAP: 3, Part.REST: 1, Part.TEN_BEFORE: 10, Part.TOTAL: 9}),
        # our own numbers, in the same form
        (63, 8, {Part.GAP: 3, Part.REST: 5, Part.TEN_BEFORE: 60, Part.TOTAL: 55}),
    ],
)
def test_worked_forms(start: int, amount: int, worked: dict[Part, int]) -> None:
    asked = Difference(start, amount)
    assert {part: asked.answer_to(part) for part in worked} == worked
    assert asked.parts == (Part.TEN_BEFORE, Part.GAP, Part.REST, Part.TOTAL)


def test_every_way_back_adds_up() -> None:
    for start, amount in product(range(1000), range(1, 10)):
        if amount > start:
            continue
        asked = Difference(start, amount)
        assert asked.start - asked.gap == asked.next_ten
        assert asked.next_ten - asked.rest == asked.total == start - amount
        if asked.to_join:
            assert sum(asked.to_join) == asked.total
        if asked.kind is Kind.CROSSING:
            other = DifferenceFromTen(start, amount)
            assert asked.next_ten - amount == other.answer_to(Part.FROM_TEN)
            assert sum(other.to_join) == other.total == asked.total
        steps = [start - step for step in range(1, amount + 1)]
        tens = [step for step in steps if step % 10 == 0]
        if start % 10 == 0 or not tens:
            assert asked.kind is Kind.WITHIN
        else:
            assert asked.kind is (Kind.LANDING if tens == steps[-1:] else Kind.CROSSING)
