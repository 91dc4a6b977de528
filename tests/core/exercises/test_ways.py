"""The other ways to a sum: their steps add up for every start and amount, and their help is true and tells nothing."""

import re
from itertools import product

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import Exercise, Lead
from saythesum.core.exercises.facts.fact_remarks import Together
from saythesum.core.exercises.registry import exercise, in_columns
from saythesum.core.exercises.ways.other_way import (
    OTHER_WAYS,
    ByTensAndOnes,
    Compensated,
    Counted,
    Doubled,
    OtherWay,
    in_way,
    other_way,
    preferred,
)
from saythesum.core.exercises.ways.remarks import TenOnMakes
from saythesum.core.mistakes.pattern import Occasion
from saythesum.core.sums import ExerciseName, Kind, Part
from saythesum.errors import CallerError
from saythesum.settings import Helping
from saythesum.wording.numbers import words
from saythesum.wording.speak.exercises.said_exercises import remark_said, words_of

EVERY: list[OtherWay] = [
    kind(start, amount)
    for kind in OTHER_WAYS.values()
    for start, amount in product(range(1000), range(1, 10))
    if kind.goes(start, amount)
]
BELOW_HUNDRED = [asked for asked in EVERY if asked.start < 100]


def test_the_steps_of_every_way_add_up() -> None:
    assert len(EVERY) == 2000 + 8 * 99 + 2000 + 45 * 99
    for asked in EVERY:
        total, ones, tens = asked.start + asked.amount, asked.start % 10, asked.start // 10 * 10
        answers = [asked.answer_to(part) for part in asked.parts]
        match asked:
            case Compensated():
                ten_on, too_many, last = answers
                assert (ten_on, ten_on - too_many, last) == (asked.start + 10, total, total)
            case Doubled():
                double, both, last = answers
                assert double % 2 == 0
                assert (double + 1, both, tens + both) == (both, ones + asked.amount, last)
            case ByTensAndOnes():
                both, last = answers
                assert (both, tens + both) == (ones + asked.amount, last)
            case Counted():
                first, last = answers
                assert (first, first + asked.amount - 1) == (asked.start + 1, last)
        assert answers[-1] == total


def test_a_nine_by_compensation_as_the_national_guidance_has_it() -> None:
    """1999 guidance on mental calculation (England): add nine by adding ten and adjusting by one (from memory)."""
    asked = Compensated(47, 9)
    assert [asked.answer_to(part) for part in asked.parts] == [57, 1, 56]
    assert words_of(asked).worked(asked, "short") == "Forty-seven add ten is fifty-seven. Take one back: fifty-six."


def test_near_doubles_and_partitioning_as_the_australian_curriculum_names_them() -> None:
    """AC9M2N04 names partitioning and near doubles; the numbers are our own."""
    assert [Doubled(37, 8).answer_to(part) for part in Doubled(37, 8).parts] == [14, 15, 45]
    assert [ByTensAndOnes(38, 5).answer_to(part) for part in ByTensAndOnes(38, 5).parts] == [13, 43]


def test_no_question_of_a_way_says_the_answer_and_every_one_is_short() -> None:
    for asked in EVERY:
        for part, length in product(asked.parts, ("brief", "short", "full")):
            said = remark_said(asked.question_for(part, Lead()), length)  # type: ignore[arg-type]
            assert said.endswith("?")
            if asked.start < 100:
                assert len(said.split()) <= 12
            if asked.total not in (10, asked.amount):
                assert words(asked.total) not in re.findall(r"[a-z-]+(?: hundred(?: and [a-z-]+)?)?", said.lower())


def test_what_is_said_of_a_wrong_step_is_true_and_holds_no_answer() -> None:
    for asked in BELOW_HUNDRED:
        for part, given in product(asked.parts[:-1], range(130)):
            if given in (asked.answer_to(part), asked.total):
                continue
            for remark in asked.about_part(part, given):
                match remark:
                    case TenOnMakes():
                        step = given - asked.start
                        assert step > 0
                        assert asked.total not in (step, given)
                    case Together(part=one, given=other):
                        assert one + other == given
                        assert asked.total not in (other, given)
                    case _:
                        assert part in (Part.ONES, Part.ONE_MORE), "as on the way through the ten"


def test_help_with_a_mistake_begins_with_the_ways_first_step_or_looks_again() -> None:
    for asked in BELOW_HUNDRED:
        for pattern in asked.patterns:
            for given in pattern.gives(Occasion(asked)):
                if pattern.fits(Occasion(asked), given):
                    assert asked.help_from(pattern.help, given).part in (Part.WHOLE, asked.parts[0])


@pytest.mark.parametrize("kind", OTHER_WAYS.values(), ids=lambda kind: kind.name)
def test_each_is_kept_under_its_name_and_is_no_column(kind: type[OtherWay]) -> None:
    asked = next(one for one in EVERY if type(one) is kind)
    assert exercise(*asked.key) == asked
    assert in_columns()["add"] is Sum
    assert asked.item == Sum(asked.start, asked.amount).item


@pytest.mark.parametrize(
    ("asked", "expected"),
    [
        (Sum(47, 9), Compensated(47, 9)),
        (Sum(47, 8), Compensated(47, 8)),
        (Sum(36, 7), Doubled(36, 7)),
        (Sum(49, 3), Counted(49, 3)),
        (Sum(38, 5), ByTensAndOnes(38, 5)),
        (Sum(42, 5), None),
        (Sum(45, 5), None),
        (Compensated(47, 9), None),
    ],
)
def test_which_way_is_tried_where_the_ten_has_not_helped(asked: Exercise, expected: Exercise | None) -> None:
    assert other_way(asked) == expected


def test_what_the_settings_prefer_only_where_the_sum_goes_that_way() -> None:
    assert preferred(Sum(47, 9), "ten and back") == Compensated(47, 9)
    assert preferred(Sum(47, 5), "ten and back") == Sum(47, 5)
    assert preferred(Sum(41, 8), "ten and back") == Sum(41, 8), "nothing is crossed"
    assert preferred(Sum(47, 9), Helping().adding) == Sum(47, 9)
    assert in_way(Sum(47, 9), ExerciseName.COMPENSATED) == Compensated(47, 9)
    assert in_way(Sum(47, 9), ExerciseName.SUM) == Sum(47, 9)


def test_a_sum_that_does_not_go_that_way_is_refused() -> None:
    with pytest.raises(CallerError, match=r"^47 add 5 does not go by the way compensated\.$"):
        Compensated(47, 5)
    assert all(asked.kind is not Kind.WITHIN for asked in EVERY if isinstance(asked, ByTensAndOnes))
