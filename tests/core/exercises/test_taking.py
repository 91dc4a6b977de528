"""Taking away back by way of the ten: the steps of published worked examples, and of every start and amount."""

from itertools import product

import pytest

from saythesum.core.exercises.taking import Difference
from saythesum.core.sums import Kind, Part


@pytest.mark.parametrize(
    ("start", "amount", "worked"),
    [
        # US Common Core, 1.OA.C.6: 13-4 = 13-3-1 = 10-1 = 9
        (13, 4, {Part.GAP: 3, Part.REST: 1, Part.NEXT_TEN: 10, Part.TOTAL: 9}),
        # our own numbers, in the same form
        (63, 8, {Part.GAP: 3, Part.REST: 5, Part.NEXT_TEN: 60, Part.TOTAL: 55}),
    ],
)
def test_worked_forms(start: int, amount: int, worked: dict[Part, int]) -> None:
    asked = Difference(start, amount)
    assert {part: asked.answer_to(part) for part in worked} == worked
    assert asked.parts == (Part.NEXT_TEN, Part.GAP, Part.REST, Part.TOTAL)


def test_every_way_back_adds_up() -> None:
    for start, amount in product(range(1000), range(1, 10)):
        if amount > start:
            continue
        asked = Difference(start, amount)
        assert asked.start - asked.gap == asked.next_ten
        assert asked.next_ten - asked.rest == asked.total == start - amount
        steps = [start - step for step in range(1, amount + 1)]
        tens = [step for step in steps if step % 10 == 0]
        if start % 10 == 0 or not tens:
            assert asked.kind is Kind.WITHIN
        else:
            assert asked.kind is (Kind.LANDING if tens == steps[-1:] else Kind.CROSSING)
