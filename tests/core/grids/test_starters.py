"""Each starter grid is of the kind it says, and they come in the order of teaching.

The order is NCETM's (topic 1.13, Year 2): one more, facts within ten, landing on a ten, bridging a ten.
"""

from itertools import pairwise

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.grids.file_format import grid_from, text_of
from saythesum.core.grids.grid import AboutGrid, about
from saythesum.core.grids.starters import ADDING, DEFAULT, FARTHER, MISSING, STARTERS, TAKING, Stage, Starter
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.sums import Kind

each_starter = pytest.mark.parametrize("starter", STARTERS, ids=lambda starter: starter.name)


def sums(starter: Starter) -> list[Sum]:
    """Of a grid of adding."""
    return [Sum(start, amount) for start in starter.grid.starts for amount in starter.grid.amounts]


def counts(told: AboutGrid) -> dict[Kind, int]:
    return {Kind.CROSSING: told.crossing, Kind.LANDING: told.landing, Kind.WITHIN: told.within}


@each_starter
def test_it_is_of_the_kind_it_says(starter: Starter) -> None:
    told = about(starter.grid)
    match starter.stage:
        case Stage.PLUS_ONE:
            assert starter.grid.amounts == (1,)
            assert told.landing, "one more onto a ten belongs to it"
        case Stage.MIXED:
            assert told.crossing and told.landing and not told.within
        case _:
            assert counts(told)[Kind(starter.stage.value)] == told.cells


@each_starter
def test_it_can_be_used(starter: Starter) -> None:
    assert grid_from(text_of(starter.grid)) == starter.grid
    assert about(starter.grid).repeated == 0
    assert starter.why.endswith(".") and len(starter.why.split()) <= 25
    assert starter.source


def test_the_order_is_the_order_of_teaching() -> None:
    stages = list(Stage)
    for starters in (ADDING, TAKING, FARTHER, MISSING):
        assert all(stages.index(one.stage) <= stages.index(other.stage) for one, other in pairwise(starters)), (
            "a stage must not come before an earlier one"
        )
    assert {starter.stage for starter in ADDING} == set(Stage)
    assert len({starter.name for starter in STARTERS}) == len(STARTERS)


def test_crossing_goes_from_below_ten_to_past_a_hundred() -> None:
    crossing = [starter.grid for starter in ADDING if starter.stage is Stage.CROSSING]
    assert max(crossing[0].starts) < 10
    assert about(crossing[-1]).past_hundred == about(crossing[-1]).cells
    assert not any(about(grid).past_hundred for grid in crossing[:-1])
    highest = [max(grid.starts) for grid in crossing]
    assert highest[0] == min(highest) and highest[-1] == max(highest)


def told_apart(starter: Starter) -> float:
    """Of the seventeen mistakes, how many give a wrong number of their own, a sum on average."""
    own = 0
    for asked in sums(starter):
        given = [mistake.gives(asked)[0] for mistake in MISTAKES]
        own += sum(given.count(number) == 1 and number != asked.total for number in given)
    return own / len(sums(starter))


def test_the_grid_that_is_said_to_tell_mistakes_apart_does_it_best() -> None:
    rowers = next(starter for starter in STARTERS if starter.name == "rowers")
    assert "told apart" in rowers.why
    crossing = [starter for starter in ADDING if starter.stage is Stage.CROSSING]
    assert max(crossing, key=told_apart) is rowers
    assert told_apart(rowers) > 14


def test_the_default_is_small_and_for_the_main_job() -> None:
    assert DEFAULT in STARTERS
    assert DEFAULT.stage is Stage.MIXED
    assert about(DEFAULT.grid).cells <= 9
    assert about(DEFAULT.grid).equal_answers == ()
