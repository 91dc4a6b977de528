"""Amounts of tens, and of tens and ones: every step by plain arithmetic, and the forms of published examples."""

from itertools import product

import pytest

from saythesum.core.exercises.farther.farther import Farther, FartherDifference, FartherSum
from saythesum.core.exercises.registry import exercise
from saythesum.core.sums import Part
from saythesum.errors import CallerError


@pytest.mark.parametrize(
    ("asked", "steps"),
    [
        # ours: the tens, then across the ten
        (
            FartherSum(47, 25),
            {Part.AFTER_TENS: 67, Part.NEXT_TEN: 70, Part.GAP: 3, Part.REST: 2, Part.TOTAL: 72},
        ),
        (FartherSum(47, 30), {Part.TENS_TOGETHER: 70, Part.TOTAL: 77}),
        (FartherSum(42, 25), {Part.AFTER_TENS: 62, Part.ONES: 7, Part.TOTAL: 67}),
        (FartherSum(40, 25), {Part.AFTER_TENS: 60, Part.TOTAL: 65}),
        (
            FartherDifference(72, 25),
            {Part.AFTER_TENS: 52, Part.TEN_BEFORE: 50, Part.GAP: 2, Part.REST: 3, Part.TOTAL: 47},
        ),
        (FartherDifference(77, 30), {Part.TENS_TOGETHER: 40, Part.TOTAL: 47}),
        (FartherSum(40, 30), {}),
        (FartherDifference(37, 30), {}),
    ],
    ids=lambda value: value.shown if isinstance(value, Farther) else "",
)
def test_the_steps(asked: Farther, steps: dict[Part, int]) -> None:
    assert {part: asked.answer_to(part) for part in asked.parts} == steps
    assert exercise(*asked.key) == asked


@pytest.mark.parametrize("amount", range(10, 100))
def test_every_step_adds_up(amount: int) -> None:
    for start, way in product(range(1000), (1, -1)):
        if start + way * amount < 0:
            continue
        asked = exercise("add" if way == 1 else "take", start, amount)
        assert asked.total == start + way * amount
        at, tens = start, amount // 10 * 10
        answers = {part: asked.answer_to(part) for part in asked.parts}
        if Part.TENS_TOGETHER in answers:
            assert amount % 10 == 0
            assert answers[Part.TENS_TOGETHER] == start // 10 * 10 + way * tens
            assert answers[Part.TENS_TOGETHER] + start % 10 == answers[Part.TOTAL]
        if Part.AFTER_TENS in answers:
            at = answers[Part.AFTER_TENS]
            assert at == start + way * tens and amount % 10
        if Part.REST in answers:
            ten = answers.get(Part.NEXT_TEN, answers.get(Part.TEN_BEFORE))
            assert ten is not None and ten % 10 == 0
            assert at + way * answers[Part.GAP] == ten
            assert ten + way * answers[Part.REST] == answers[Part.TOTAL]
            assert answers[Part.GAP] + answers[Part.REST] == amount % 10
        assert answers.get(Part.TOTAL, asked.total) == asked.total


@pytest.mark.parametrize(("start", "amount"), [(20, 25), (0, 10)])
def test_below_nought_is_refused(start: int, amount: int) -> None:
    with pytest.raises(CallerError, match="is below nought"):
        FartherDifference(start, amount)


def test_a_hundred_is_too_much() -> None:
    with pytest.raises(CallerError, match=r"^The amount 100 is not a whole number from 1 to 99\.$"):
        exercise("add", 47, 100)
