"""The solver beside a search through everything."""

from itertools import combinations
from random import Random

import pytest

from saythesum.core.grids.grid import about
from saythesum.core.grids.wishes import CannotBeMade, Demand, GridWish, MadeGrid, fits, made
from saythesum.core.sums import Kind


def by_brute_force(wish: GridWish) -> bool:
    """Every choice of starts and amounts, one after the other."""
    for amounts in combinations(sorted(set(wish.amounts)), wish.columns):
        for starts in combinations(sorted(set(wish.starts)), wish.rows):
            answers = [start + amount for start in starts for amount in amounts]
            if (not wish.unequal or len(set(answers)) == len(answers)) and all(
                fits(wish, start, amount) for start in starts for amount in amounts
            ):
                return True
    return False


def wished(seed: int) -> GridWish:
    dice = Random(seed)
    return GridWish(
        rows=dice.randint(1, 4),
        columns=dice.randint(1, 4),
        starts=tuple(dice.sample(range(80, 106), dice.randint(1, 9))),
        amounts=tuple(dice.sample(range(1, 10), dice.randint(1, 5))),
        kinds=frozenset(dice.sample(list(Kind), dice.randint(1, 3))),
        bonds=frozenset(dice.sample(range(1, 6), dice.choice([0, 0, 1, 2]))),
        across_hundred=dice.choice([None, None, False, True]),
        unequal=dice.random() < 0.7,
    )


@pytest.mark.parametrize("hundred", range(5))
def test_500_seeded_wishes_against_brute_force(hundred: int) -> None:
    possible = 0
    for seed in range(100 * hundred, 100 * hundred + 100):
        wish = wished(seed)
        came = made(wish, seed)
        assert isinstance(came, MadeGrid) == by_brute_force(wish), wish
        if isinstance(came, MadeGrid):
            possible += 1
            check_as_wished(came, wish)
        else:
            check_reasons(came)
    assert 10 < possible < 90


def check_as_wished(came: MadeGrid, wish: GridWish) -> None:
    grid = came.grid
    assert (len(set(grid.starts)), len(set(grid.amounts))) == (wish.rows, wish.columns)
    assert {*grid.starts} <= {*wish.starts} and {*grid.amounts} <= {*wish.amounts}
    assert all(fits(wish, start, amount) for start in grid.starts for amount in grid.amounts)
    assert not wish.unequal or not about(grid).equal_answers


def check_reasons(came: CannotBeMade) -> None:
    """What it says would help does, and what it says is the most is."""
    wish = came.wish
    given_up = {
        Demand.KINDS: {"kinds": frozenset(Kind)},
        Demand.BONDS: {"bonds": frozenset()},
        Demand.HUNDRED: {"across_hundred": None},
        Demand.UNEQUAL: {"unequal": False},
    }
    from dataclasses import replace

    for demand in Demand:
        easier = replace(wish, **given_up[demand])  # type: ignore[arg-type]
        assert by_brute_force(easier) == (demand in came.would_help), (wish, demand)
    assert came.most_rows < wish.rows
    assert not came.most_rows or by_brute_force(replace(wish, rows=came.most_rows))
    assert came.most_rows + 1 == wish.rows or not by_brute_force(replace(wish, rows=came.most_rows + 1))
    assert not came.most_columns or by_brute_force(replace(wish, columns=came.most_columns))


def test_the_same_seed_makes_the_same_grid_and_another_one_another() -> None:
    grids = [made(GridWish(), seed) for seed in (3, 3, 4)]
    assert grids[0] == grids[1] != grids[2]


def test_mistakes_that_are_wished_apart_are() -> None:
    came = made(GridWish(mistakes=("new-ten-lost", "stopped-at-the-ten"), kinds=frozenset({Kind.CROSSING})), 1)
    assert isinstance(came, MadeGrid)
    assert came.alike == ()
