"""The counts are checked against ways of doing the sums in test_mistakes; here that the code says the same."""

from statistics import mean

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.mistakes.pattern import Occasion
from tests.core.made_sums import explaining
from tests.core.mistakes.separation import (
    BRIDGING_SUMS,
    CROSSING_SUMS,
    separating,
    told_apart,
    where_alike,
    where_invisible,
)

CODED = {mistake.code: mistake for mistake in MISTAKES}


def test_how_many_sums_there_are() -> None:
    """36 pairs of ones cross and 9 land: 45 of the 90. Eight tens, and nine."""
    assert len(CROSSING_SUMS) == 36 * 8 == 288
    assert len(BRIDGING_SUMS) == (36 + 9) * 9 == 405


def test_four_mistakes_are_invisible_somewhere() -> None:
    unseen = {code: len(where_invisible(mistake)) for code, mistake in CODED.items() if where_invisible(mistake)}
    assert unseen == {"A3": 64, "A12": 32, "A16": 28, "A17": 28}


@pytest.mark.parametrize(
    ("one", "other", "sums"),
    [("A13", "A14", 160), ("A1", "A14", 64), ("A7", "A10", 64), ("A8", "A11", 64), ("A1", "A2", 0)],
)
def test_where_two_are_alike(one: str, other: str, sums: int) -> None:
    assert len(where_alike(CODED[one], CODED[other])) == sums


FIFTEEN = "17+8 27+8 37+9 38+9 47+9 48+9 57+8 58+9 63+9 67+8 73+9 74+9 83+9 84+9 87+8"
"""Worked out from the formulas, apart from this code."""


def test_fifteen_sums_tell_all_apart() -> None:
    assert " ".join(f"{asked.start}+{asked.amount}" for asked in separating()) == FIFTEEN
    assert all(told_apart(asked) == 17 for asked in separating())


def test_large_ones_with_large_amounts_tell_most() -> None:
    def apart(ones: int, amount: int) -> float:
        return mean(told_apart(asked) for asked in CROSSING_SUMS if (asked.ones, asked.amount) == (ones, amount))

    best, worst = ((7, 8), (6, 8), (8, 9), (7, 9)), ((9, 2), (8, 3), (6, 5), (7, 4))
    assert [round(apart(*pair), 1) for pair in best] == [16.5, 15.5, 15.2, 15.0]
    assert [round(apart(*pair), 1) for pair in worst] == [6.8, 7.6, 8.6, 9.6]


def codes_of(asked: Sum, given: int) -> set[str]:
    return {pattern.code for pattern in explaining(Occasion(asked), given)}


def test_where_the_wider_ones_are_alike() -> None:
    """Ten put on for nine is one over; a double of ones one apart is one short or one over, two apart a fact slip."""
    for asked in CROSSING_SUMS:
        over, short = codes_of(asked, asked.total + 1), codes_of(asked, asked.total - 1)
        assert ("A20" in over) == (asked.amount == 9)
        assert ("A18" in over) == ("A18" in short) == (abs(asked.ones - asked.amount) == 1)
        assert ("A18" in codes_of(asked, asked.total + 2)) == (abs(asked.ones - asked.amount) == 2)
        assert ("A12" in over) == (asked.gap == asked.rest + 1)
        assert ("A12" in short) == (asked.rest == asked.gap + 1)
