"""The facts under bridging a ten: against a second way of working each out, and true help without a tell."""

from collections.abc import Iterator
from itertools import chain

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.facts.complement import Bond, Complement, Split
from saythesum.core.exercises.facts.fact_remarks import Together
from saythesum.core.exercises.missing.remarks import TooManyOrFew
from saythesum.core.exercises.registry import exercise, of_column
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.grids.facts import FACT_ACTIVITIES, FactActivity, facts_named, mixed, place_of
from saythesum.core.grids.file_format import grid_from, text_of
from saythesum.core.mistakes.pattern import Occasion
from saythesum.core.sums import Kind, Part
from saythesum.errors import CallerError

NAMES = [one.name for one in FACT_ACTIVITIES]


def cells(activity: FactActivity) -> Iterator[tuple[int, int, int]]:
    """Row's number, column's number and answer of each."""
    for cell in mixed(activity.grid, 7):
        asked = activity.grid.exercise_at(cell)
        yield asked.start, asked.amount, asked.total


def by_counting(activity: FactActivity, start: int, amount: int) -> int:
    """Each answer by counting words, without the formula."""
    match activity.name:
        case "bonds" | "splits" | "small-splits":
            return len(range(amount, start))
        case "next-tens":
            return next(number for number in range(start + 1, 200) if str(number).endswith("0"))
        case _:
            return list(range(start, 200))[amount]


@pytest.mark.parametrize("activity", FACT_ACTIVITIES, ids=NAMES)
def test_every_answer_is_what_counting_gives(activity: FactActivity) -> None:
    for start, amount, total in cells(activity):
        assert total == by_counting(activity, start, amount)


@pytest.mark.parametrize("activity", FACT_ACTIVITIES, ids=NAMES)
def test_each_is_a_grid_that_can_be_kept(activity: FactActivity) -> None:
    assert grid_from(text_of(activity.grid), most_rows=1000) == activity.grid
    assert facts_named(activity.name) is activity
    first = activity.grid.exercise_at(mixed(activity.grid, 0)[0])
    assert exercise(*first.key) == first


def test_the_nine_bonds_are_the_published_ones() -> None:
    """England, Year 1: number bonds; the pairs that make ten are 1+9, 2+8, 3+7, 4+6, 5+5 and turned round."""
    bonds = facts_named("bonds")
    assert bonds is not None
    assert {(known, missing) for _, known, missing in cells(bonds)} == {(one, 10 - one) for one in range(1, 10)}


def test_each_step_of_every_sum_leads_back_to_facts_of_its_own_skill() -> None:
    """The steps of all crossing sums below a hundred, whose facts are then in the activity."""
    for start in range(100):
        for amount in range(1, 10):
            asked = Sum(start, amount)
            if asked.kind is not Kind.CROSSING:
                continue
            for part in (Part.NEXT_TEN, Part.GAP, Part.REST):
                item = asked.item_of(part)
                assert item is not None
                place = place_of(item)
                assert place is not None
                assert FACT_ACTIVITIES[place].skill is item.skill
                if item != Item(Skill.PARTITION, (2, 1)):  # of two there is one split, too small to be practised
                    assert item in {one.item for one in _exercises(FACT_ACTIVITIES[place])}


def _exercises(activity: FactActivity) -> Iterator[Complement | Sum]:
    for start, amount, _ in cells(activity):
        yield of_column(activity.exercise.value, start, amount)  # type: ignore[misc]


def test_a_wrong_part_is_met_with_what_is_true_of_it_and_never_with_the_answer() -> None:
    made = [activity for activity in FACT_ACTIVITIES if activity.name in ("bonds", "splits", "small-splits")]
    for asked in chain.from_iterable(map(_exercises, made)):
        for given in (one for one in range(1100) if one != asked.total):
            (remark,) = asked.compared(given)
            match remark:
                case Together(part=part, given=said):
                    assert (part, said) == (asked.amount, given)
                    assert part + said not in (asked.start, asked.total)
                case TooManyOrFew(value=value, is_too_many=is_too_many):
                    assert value == given
                    assert is_too_many == (given > asked.total)
                case _:
                    raise AssertionError(remark)


@pytest.mark.parametrize(
    ("asked", "given", "mistake"),
    [
        (Bond(10, 7), 4, "partner-off-by-one"),
        (Bond(10, 7), 7, "part-repeated"),
        (Bond(10, 7), 10, "whole-for-part"),
        (Bond(10, 7), 17, "put-together"),
        (Split(8, 3), 7, "partner-to-ten"),
        (of_column("next-ten", 38, 1), 30, "ten-below"),
        (of_column("next-ten", 38, 1), 50, "ten-skipped"),
        (of_column("next-ten", 38, 1), 48, "ten-added"),
        (of_column("next-ten", 38, 1), 2, "gap-for-ten"),
        (of_column("ten-and-ones", 50, 2), 70, "amount-in-the-tens"),
        (of_column("one-more", 39, 1), 30, "new-ten-lost"),
        (of_column("fact", 7, 5), 10, "stopped-at-the-ten"),
    ],
)
def test_a_wrong_answer_has_its_mistake(asked: Complement, given: int, mistake: str) -> None:
    fitting = [pattern for pattern in asked.patterns if pattern.fits(Occasion(asked), given)]
    assert mistake in [pattern.name for pattern in fitting]
    assert all(str(asked.total) not in pattern.advice(asked, given).split() for pattern in fitting)


@pytest.mark.parametrize(
    ("operation", "start", "amount", "sentence"),
    [
        ("bond", 9, 4, "A bond is a part of ten, not of 9: write start = [10]."),
        ("bond", 10, 10, "10 is no part of 10: a part is from 1 to 9."),
        ("split", 12, 4, "An amount that is split is below ten, not 12."),
        ("next-ten", 38, 2, "The next ten is one ten on, not 2: write next-ten = [1]."),
        ("ten-and-ones", 52, 3, "52 is no ten to put ones to; the starts are tens, such as 50."),
        ("one-more", 39, 2, "One more is 1, not 2: write one-more = [1]."),
        ("fact", 12, 3, "A fact has two numbers from 1 to 9, not 12."),
    ],
)
def test_what_is_no_such_fact_is_refused_with_what_would_be_right(
    operation: str, start: int, amount: int, sentence: str
) -> None:
    with pytest.raises(CallerError) as told:
        of_column(operation, start, amount)
    assert str(told.value) == sentence
