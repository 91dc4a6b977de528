"""Wrong answers to one step. The patterns are common practice unless a source is named; the values are ours."""

import re
from itertools import product

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.mistakes.adding_steps import PART_MISTAKES
from saythesum.core.sums import Kind, Part
from tests.core.made_sums import fitting

FLOUR = Sum(36, 9)  # gap 4, rest 5, total 45: every pattern gives a number of its own kind
BUNS = Sum(62, 5)  # not crossing: 60 and 7


@pytest.mark.parametrize(
    ("part", "given", "names"),
    [
        (Part.GAP, 3, ["gap-off-by-one"]),
        (Part.GAP, 5, ["gap-off-by-one"]),
        (Part.GAP, 6, ["gap-as-ones-digit"]),
        (Part.GAP, 1, ["gap-of-the-amount"]),
        (Part.GAP, 40, ["next-ten-for-gap"]),
        (Part.GAP, 14, ["gap-to-a-later-ten"]),
        (Part.GAP, 9, ["gap-as-amount"]),
        (Part.GAP, 45, ["whole-answer-early"]),
        (Part.REST, 4, ["rest-as-gap", "rest-off-by-one"]),
        (Part.REST, 9, ["rest-as-amount"]),
        (Part.REST, 6, ["rest-off-by-one", "rest-from-ten"]),
        (Part.REST, 1, ["rest-from-ten"]),
        (Part.REST, 45, ["whole-answer-early"]),
        (Part.NEXT_TEN, 45, ["whole-answer-early"]),
        (Part.NEXT_TEN, 50, []),
        (Part.TOTAL, 5, ["total-unjoined"]),
        (Part.TOTAL, 405, ["total-joined-as-digits"]),
        (Part.TOTAL, 45, []),
        (Part.GAP, 4, []),
    ],
)
def test_crossing(part: Part, given: int, names: list[str]) -> None:
    assert [mistake.name for mistake in FLOUR.part_mistakes_giving(part, given)] == names


@pytest.mark.parametrize(
    ("part", "given", "names"),
    [
        (Part.ONES, 67, ["whole-answer-early"]),
        (Part.ONES, 8, []),
        (Part.TOTAL, 7, ["total-unjoined"]),
        (Part.TOTAL, 60, ["total-unjoined"]),
        (Part.TOTAL, 607, ["total-joined-as-digits"]),
    ],
)
def test_not_crossing(part: Part, given: int, names: list[str]) -> None:
    assert [mistake.name for mistake in BUNS.part_mistakes_giving(part, given)] == names


def test_a_sum_that_lands_has_nothing_to_join() -> None:
    landing = Sum(57, 3)
    assert not any(landing.part_mistakes_giving(Part.TOTAL, number) for number in range(1100))


def test_being_ahead_is_not_wrong() -> None:
    assert {mistake.code for mistake in PART_MISTAKES if not mistake.is_wrong} == {"G4", "G13"}
    assert [mistake.code for mistake in PART_MISTAKES] == [f"G{number}" for number in range(1, 14)]


def test_the_right_answer_to_a_part_never_fits() -> None:
    for start, amount in product(range(1000), range(1, 10)):
        asked = Sum(start, amount)
        for part in asked.parts:
            assert asked.part_mistakes_giving(part, asked.answer_to(part)) == ()


def test_steps_lead_to_the_mistakes_they_foretell() -> None:
    """The gap said again at the rest, or the amount: the same habit gives these wrong whole answers."""
    ten = FLOUR.next_ten
    assert "gap-used-twice" in {mistake.name for mistake in fitting(FLOUR, ten + 4)}
    assert "whole-amount-after-bridging" in {mistake.name for mistake in fitting(FLOUR, ten + 9)}


def test_what_to_say_next_never_holds_the_answer_of_the_sum() -> None:
    for start, amount, mistake in product(range(1, 1000, 7), range(1, 10), PART_MISTAKES):
        asked = Sum(start, amount)
        for part in mistake.parts & set(asked.parts):
            for given in mistake.gives(asked):
                if mistake.fits(asked, part, given):
                    said = mistake.advice(asked, given)
                    assert asked.total not in map(int, re.findall(r"\d+", said)), said


def test_numbers_that_nobody_can_say_fit_nothing() -> None:
    touching = Sum(58, 3)
    assert touching.kind is Kind.CROSSING and touching.rest == 1
    assert [mistake.code for mistake in touching.part_mistakes_giving(Part.REST, 0)] == ["G9"]
    assert touching.part_mistakes_giving(Part.REST, -1) == ()
