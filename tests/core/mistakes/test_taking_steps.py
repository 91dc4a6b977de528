"""Taking away in steps: values done by hand. The patterns are common practice; the numbers are ours."""

import re
from itertools import product

import pytest

from saythesum.core.exercises.taking import Difference
from saythesum.core.mistakes.pattern import Occasion
from saythesum.core.mistakes.taking_steps import TAKE_PART_MISTAKES
from saythesum.core.sums import Kind, Part

BOATS = Difference(64, 9)  # four back to 60, then five: 55
STEPS = (Part.TEN_BEFORE, Part.GAP, Part.REST, Part.TOTAL)
CROSSING = [
    asked
    for start, amount in product(range(11, 100), range(1, 10))
    if (asked := Difference(start, amount)).kind is Kind.CROSSING
]


def test_the_steps_of_one() -> None:
    assert [BOATS.answer_to(part) for part in STEPS] == [60, 4, 5, 55]


@pytest.mark.parametrize(
    ("part", "given", "names"),
    [
        (Part.GAP, 3, ["gap-off-by-one"]),
        (Part.GAP, 5, ["gap-off-by-one"]),
        (Part.GAP, 6, ["gap-to-the-ten-above"]),
        (Part.GAP, 1, ["gap-of-the-amount"]),
        (Part.GAP, 60, ["next-ten-for-gap"]),
        (Part.GAP, 14, ["gap-to-a-later-ten"]),
        (Part.GAP, 9, ["gap-as-amount"]),
        (Part.GAP, 55, ["whole-answer-early"]),
        (Part.REST, 4, ["rest-as-gap", "rest-off-by-one"]),
        (Part.REST, 9, ["rest-as-amount"]),
        (Part.REST, 6, ["rest-off-by-one", "rest-from-ten"]),
        (Part.REST, 1, ["rest-from-ten"]),
        (Part.TOTAL, 60, ["total-unjoined"]),
        (Part.TOTAL, 5, ["total-unjoined"]),
        (Part.TOTAL, 605, ["total-joined-as-digits"]),
        (Part.TOTAL, 65, ["rest-put-on"]),
        (Part.TOTAL, 55, []),
        (Part.GAP, 4, []),
        (Part.TEN_BEFORE, 70, []),
    ],
)
def test_by_hand(part: Part, given: int, names: list[str]) -> None:
    assert [mistake.name for mistake in BOATS.part_mistakes_giving(part, given)] == names


def test_the_rest_put_on_is_the_smaller_taken_from_the_larger() -> None:
    """10t + (b - u) either way: our own arithmetic."""
    for asked in CROSSING:
        put_on = next(mistake for mistake in TAKE_PART_MISTAKES if mistake.name == "rest-put-on")
        (given,) = put_on.gives(asked)
        assert "ones-differenced" in [
            mistake.name for mistake in asked.patterns if mistake.fits(Occasion(asked), given)
        ]


def test_every_guided_mistake_in_adding_has_its_mirror() -> None:
    assert [m.code for m in TAKE_PART_MISTAKES if m.code[0] == "G"] == [f"G{code}" for code in range(1, 14)]
    assert {m.code for m in TAKE_PART_MISTAKES if not m.is_wrong} == {"G4", "G13"}


def test_right_answers_and_numbers_below_nought_fit_nothing() -> None:
    for asked in CROSSING:
        for part in STEPS:
            assert asked.part_mistakes_giving(part, asked.answer_to(part)) == ()
            assert asked.part_mistakes_giving(part, -1) == ()


def test_what_to_say_next_never_holds_what_stays() -> None:
    for asked, mistake in product(CROSSING, TAKE_PART_MISTAKES):
        for given in mistake.gives(asked):
            if asked.total not in (asked.amount, given):  # 12 take away 6: the question holds what stays
                said = mistake.advice(asked, given)
                assert "{" not in said
                assert asked.total not in map(int, re.findall(r"\d+", said)), said


def test_what_stays_in_its_ten_is_split_by_ones_and_has_no_jump() -> None:
    within = Difference(64, 3)
    assert [(part, within.answer_to(part)) for part in within.parts] == [(Part.ONES, 1), (Part.TOTAL, 61)]
    with pytest.raises(ValueError, match="64 and 3 have no step gap"):
        within.answer_to(Part.GAP)
