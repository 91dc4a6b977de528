from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from saythesum.core.exercises.adding import Sum
from saythesum.core.grids.grid import Cell, Grid, Order, walk

BUNS = Grid("Buns", starts=(36, 58), amounts=(5, 7, 9))


def grids() -> st.SearchStrategy[Grid]:
    starts = st.lists(st.integers(0, 999), min_size=1, max_size=20).map(tuple)
    amounts = st.lists(st.integers(1, 9), min_size=1, max_size=20).map(tuple)
    return st.builds(Grid, st.just("Buns"), starts, amounts, st.sampled_from(Order))


def test_a_cell_is_its_row_start_and_its_column_amount() -> None:
    assert BUNS.exercise_at(Cell(1, 0)) == Sum(58, 5)


def test_rows_and_columns() -> None:
    assert walk(BUNS, 1)[:4] == (Cell(0, 0), Cell(0, 1), Cell(0, 2), Cell(1, 0))
    assert walk(replace(BUNS, order=Order.COLUMNS), 1)[:3] == (Cell(0, 0), Cell(1, 0), Cell(0, 1))


@given(grids(), st.integers(0, 2**32))
def test_every_order_asks_every_cell_once_and_the_same_way_again(grid: Grid, seed: int) -> None:
    cells = walk(grid, seed)
    assert len(set(cells)) == len(cells) == len(grid.starts) * len(grid.amounts)
    assert all(cell in grid for cell in cells)
    assert walk(grid, seed) == cells


def test_a_shuffle_depends_on_the_seed() -> None:
    shuffled = replace(BUNS, order=Order.SHUFFLED)
    assert len({walk(shuffled, seed) for seed in range(20)}) > 10


def test_cells_outside_are_not_in_the_grid() -> None:
    assert Cell(2, 0) not in BUNS
    assert Cell(0, 3) not in BUNS
    assert Cell(-1, 0) not in BUNS
