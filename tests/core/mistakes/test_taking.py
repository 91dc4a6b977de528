"""Taking away, done by hand on a sum whose mistakes all give different numbers."""

import re

import pytest

from saythesum.core.exercises.taking import Difference
from saythesum.core.mistakes.adding import CATALOGUE
from saythesum.core.mistakes.pattern import Occasion, Pattern
from saythesum.core.mistakes.taking import TAKE_CATALOGUE
from saythesum.core.sums import Bridge
from saythesum.errors import CallerError

BOATS = Difference(63, 8)  # 55: three back to 60, then five


def fitting_take(asked: Difference, given: int) -> tuple[Pattern[Bridge], ...]:
    return tuple(pattern for pattern in asked.patterns if pattern.fits(Occasion(asked), given))


@pytest.mark.parametrize(
    ("given", "name"),
    [
        (65, "ones-differenced"),  # 8 - 3 written beside the 60: smaller from larger (VanLehn 1982)
        (65, "ten-not-taken"),
        (45, "extra-ten-taken"),
        (60, "stopped-at-the-ten"),
        (52, "whole-amount-after-bridging"),
        (57, "first-jump-twice"),
        (56, "start-counted"),
        (54, "one-too-many"),
        (71, "added"),
        (63, "number-repeated"),
        (28, "start-reversed"),
        (51, "compensated-the-wrong-way"),  # ten back, then two more
        (53, "did-not-compensate"),
        (5, "ones-only"),
        (57, "fact-slip"),
    ],
)
def test_by_hand(given: int, name: str) -> None:
    assert name in [mistake.name for mistake in fitting_take(BOATS, given)]


def test_smaller_from_larger_and_the_ten_not_taken_are_one_number_only_where_ones_differ_by_five() -> None:
    """10t + b - u is s + 10 exactly where 2 (b - u) is 10: our own arithmetic."""
    assert [m.name for m in fitting_take(Difference(52, 9), 57)] == ["ones-differenced"]
    assert [m.name for m in fitting_take(Difference(52, 9), 53)] == ["ten-not-taken"]


def test_the_two_jumps_make_the_amount() -> None:
    for start in range(10, 100):
        for amount in range(1, 10):
            asked = Difference(start, amount)
            assert asked.ones + asked.rest == amount
            assert asked.next_ten - asked.rest == asked.total


def test_what_crosses_nothing_has_no_ten_to_stop_at() -> None:
    for start, amount in ((58, 3), (53, 3), (50, 4)):
        names = {mistake.name for number in range(200) for mistake in fitting_take(Difference(start, amount), number)}
        assert not names & {"stopped-at-the-ten", "first-jump-twice", "whole-amount-after-bridging"}


def test_right_and_impossible_numbers_fit_nothing() -> None:
    assert fitting_take(BOATS, 55) == fitting_take(Difference(4, 3), -6) == ()


def test_the_start_misheard_and_the_landing_crossed() -> None:
    assert "teen-or-ty-start" in [mistake.name for mistake in fitting_take(Difference(17, 8), 62)]
    assert "teen-or-ty-start" in [mistake.name for mistake in fitting_take(Difference(60, 4), 12)]
    assert all(
        "landing-crossed" in [m.name for m in fitting_take(Difference(63, 3), 60 - left)] for left in range(1, 10)
    )
    assert not any("landing-crossed" in [m.name for m in fitting_take(BOATS, number)] for number in range(100))


def test_each_mirrors_one_of_the_catalogue_of_adding() -> None:
    mirrored = [mistake.code for mistake in TAKE_CATALOGUE]
    assert len(set(mirrored)) == len(mirrored)
    assert set(mirrored) <= {pattern.code for pattern in CATALOGUE}
    one_name = {pattern.code: pattern.name for pattern in CATALOGUE}
    for mistake in TAKE_CATALOGUE:
        if mistake.name in one_name.values():
            assert one_name[mistake.code] == mistake.name


def test_what_to_say_next_never_holds_the_right_answer() -> None:
    """Sums whose question holds the answer are left out: 10 take away 5."""
    for start in range(10, 100):
        for amount in range(1, 10):
            asked = Difference(start, amount)
            for mistake in TAKE_CATALOGUE:
                for given in mistake.gives(Occasion(asked)):
                    if mistake.fits(Occasion(asked), given) and asked.total != asked.amount:
                        said = mistake.advice(asked, given)
                        assert asked.total not in map(int, re.findall(r"\d+", said)), said


@pytest.mark.parametrize(
    ("start", "amount", "said"),
    [
        (5, 8, "5 take away 8 is below nought; from 5 take at most 5."),
        (12, 0, "The amount 0 is not a whole number from 1 to 9."),
        (1000, 3, "The start 1000 is not a whole number from 0 to 999."),
    ],
)
def test_bad_input(start: int, amount: int, said: str) -> None:
    with pytest.raises(CallerError, match=re.escape(said)):
        Difference(start, amount)
