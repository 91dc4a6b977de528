"""Exercises by the words that kept answers have for them."""

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.registry import EXERCISES, exercise, in_columns, offered
from saythesum.core.exercises.taking import Difference, DifferenceFromTen
from saythesum.errors import CallerError


@pytest.mark.parametrize("asked", [Sum(38, 5), Difference(63, 8), DifferenceFromTen(63, 8)])
def test_an_exercise_comes_back_from_its_plain_key(asked: Sum | Difference) -> None:
    assert exercise(*asked.key) == asked


def test_the_same_numbers_are_different_exercises_by_what_is_done_with_them() -> None:
    assert len({exercise("add", 63, 8), exercise("take", 63, 8)}) == 2


def test_an_unknown_operation_is_refused_with_what_would_be_right() -> None:
    known = ", ".join(dict.fromkeys(kind.operation for kind in EXERCISES.values()))
    with pytest.raises(CallerError, match=rf"^`operation` is 'times'; it must be one of {known}\.$"):
        exercise("times", 38, 5)


def test_below_nought_is_refused() -> None:
    with pytest.raises(CallerError, match=r"^5 take away 8 is below nought; from 5 take at most 5\.$"):
        exercise("take", 5, 8)


def test_a_grid_may_ask_both_and_never_names_the_way() -> None:
    facts = ["bond", "next-ten", "ten-and-ones", "split", "one-more", "fact"]
    assert list(in_columns()) == ["add", "take", *facts]
    assert list(offered()) == ["add", "take"]
    assert offered()["take"] is Difference
