"""Why a pattern was chosen, as an adult reads it."""

from random import Random

import pytest

from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.patterns.finding import patterns_of
from saythesum.core.patterns.grid_pattern import GridPattern
from saythesum.learner.worth_finding import WhyFound, WorthFinding, WorthReason
from saythesum.wording.for_adults.said_patterns import pattern_named, why_found_said
from tests.core.patterns.plain_arithmetic import made_grid

BOTH = Grid("Ferry", starts=(52, 30, 42), amounts=(6, 9, 7, 3, 5), operations=("add", "take", "add", "take", "add"))


def of(grid: Grid, name: str) -> GridPattern:
    return next(pattern for pattern in patterns_of(grid) if pattern.name == name)


@pytest.mark.parametrize(
    ("why", "said"),
    [
        (
            WhyFound(WorthReason.MISSED, bears_on=3, missed=4),
            "How far apart the columns add six and take away nine are: it bears on 3 of the 4 sums that went wrong or "
            "needed help.",
        ),
        (
            WhyFound(WorthReason.MISSED, bears_on=1, missed=1),
            "How far apart the columns add six and take away nine are: it bears on the one sum that went wrong or "
            "needed help.",
        ),
        (
            WhyFound(WorthReason.NEXT, bears_on=0, missed=2),
            "How far apart the columns add six and take away nine are: the next in the order of teaching.",
        ),
    ],
)
def test_why(why: WhyFound, said: str) -> None:
    assert why_found_said(WorthFinding(of(BOTH, "columns-apart"), why)) == said


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("columns-alike", "the same ones in the columns add seven and take away three"),
        ("rows-apart", "how far apart the rows fifty-two and thirty are"),
        ("rows-alike", "the same ones in the rows fifty-two and forty-two"),
        ("near-ten", "what take away nine does to tens and ones"),
        ("five-twice", "what add five does to the ones when it is done twice"),
        ("shared-gap", "the gap that the sums from fifty-two share"),
        ("crossing", "which sums cross a ten in the column take away nine"),
    ],
)
def test_names(name: str, said: str) -> None:
    assert pattern_named(of(BOTH, name)) == said


def test_every_kind_of_pattern_has_a_name() -> None:
    dice, named = Random(3), dict[str, str]()
    for _ in range(200):
        for pattern in patterns_of(made_grid(dice)):
            named[pattern.name] = pattern_named(pattern)
    assert set(named) == {kind.name for kind in GridPattern.__subclasses__()}
    assert all(named.values())


def test_the_pair_and_the_landing_line() -> None:
    seats = Grid("Seats", starts=(27, 28), amounts=(3, 2))
    assert pattern_named(of(seats, "landing")) == "the sums that land on a ten by adding"
    same = "the same answer to twenty-seven add three and twenty-eight add two"
    assert pattern_named(of(seats, "equal-answers")) == same
    assert Cell(0, 0) in of(seats, "equal-answers").cells
