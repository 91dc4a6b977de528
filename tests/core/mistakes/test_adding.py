"""The wider patterns against what they do, done by hand on one sum; the sentences checked for every sum."""

import re
from itertools import product

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.mistakes.adding import CATALOGUE, WIDER
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.mistakes.pattern import Occasion
from tests.core.made_sums import explaining, fitting

FLOUR = Sum(46, 8)  # 54
BUNS = Grid("Buns", (46, 57), (5, 8, 9))
WIDER_NAMES = frozenset(pattern.name for pattern in WIDER)


def names(asked: Occasion[Exercise], given: int) -> list[str]:
    return [pattern.name for pattern in explaining(asked, given) if pattern.name in WIDER_NAMES]


@pytest.mark.parametrize(
    ("given", "name"),
    [
        (52, "double-not-adjusted"),  # 40 and 6 and 6
        (56, "double-not-adjusted"),  # 40 and 8 and 8; also two more than right
        (58, "compensated-the-wrong-way"),  # ten on, then two more
        (56, "did-not-compensate"),  # ten on
        (368, "multiplied"),
        (88, "multiplied"),  # 40 and 6 times 8
        (4, "ones-only"),
        (52, "fact-slip"),
        (56, "fact-slip"),
    ],
)
def test_by_hand(given: int, name: str) -> None:
    assert name in names(Occasion(FLOUR), given)


@pytest.mark.parametrize(
    ("start", "amount", "given"),
    [(17, 8, 78), (13, 9, 39), (60, 4, 20), (30, 5, 18)],  # 70 + 8, 30 + 9, 16 + 4, 13 + 5
)
def test_a_start_heard_as_its_teen_or_ty(start: int, amount: int, given: int) -> None:
    assert "teen-or-ty-start" in names(Occasion(Sum(start, amount)), given)


def test_landing_crossed() -> None:
    assert all("landing-crossed" in names(Occasion(Sum(27, 3)), 30 + left) for left in range(1, 10))
    assert not any("landing-crossed" in names(Occasion(FLOUR), number) for number in range(1100))


def test_place_lost_in_the_grid() -> None:
    """57 + 8 = 65; beside it 57 + 5, 57 + 9 and 46 + 8."""
    asked = BUNS.occasion_at(Cell(1, 1), is_typed=False, before=41)
    beside = [number for number in range(1100) if "neighbour-cell" in names(asked, number)]
    assert beside == [54, 62, 66]
    assert "previous-answer" in names(asked, 41)
    assert names(Occasion(BUNS.exercise_at(Cell(1, 1))), 41) == []


def test_keys_slip_only_where_keys_are_pressed() -> None:
    keyed = [number for number in range(1100) if "key-slip" in names(Occasion(FLOUR, True), number)]
    # 5 or 4 left out or doubled; 4, 6 for 5 and 3, 5 for 4 in the row of keys; 9 for 5, and 6, 8, 0 for 4 in braille.
    assert keyed == [4, 5, 44, 50, 53, 55, 56, 58, 64, 94, 544, 554]
    assert not any("key-slip" in names(Occasion(FLOUR), number) for number in range(1100))


def test_the_seventeen_are_in_the_catalogue_as_they_are() -> None:
    """They decide the words of help; the wider ones do not."""
    assert [pattern.code for pattern in CATALOGUE] == [f"A{number}" for number in range(1, 29)]
    for start, amount in product((7, 38, 57, 60, 96, 198), range(1, 10)):
        asked = Sum(start, amount)
        for given in range(300):
            core = [pattern.name for pattern in explaining(Occasion(asked), given) if pattern not in WIDER]
            assert core == [mistake.name for mistake in fitting(asked, given)]
    assert len(MISTAKES) == 17


def test_what_is_right_or_impossible_is_explained_by_nothing() -> None:
    assert explaining(Occasion(FLOUR, True), 54) == explaining(Occasion(Sum(3, 8)), -5) == ()


def test_what_to_say_next_never_holds_the_right_answer() -> None:
    for start, amount, pattern in product(range(10, 100), range(1, 10), WIDER):
        asked = Occasion(Sum(start, amount), True, (Sum(start, amount % 9 + 1),), before=41)
        for given in set(pattern.gives(asked)):
            if pattern.fits(asked, given):
                said = pattern.advice(asked.asked, given)
                assert asked.asked.total not in map(int, re.findall(r"\d+", said)), said
                assert "{" not in said and len(said.split()) <= 25, said
