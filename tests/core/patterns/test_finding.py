"""All that is found is true, and all that is true of these kinds is found."""

from collections import Counter
from random import Random

from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.patterns.finding import patterns_of, steps_of
from saythesum.core.patterns.grid_pattern import (
    ColumnsApart,
    CrossingOnes,
    EqualAnswers,
    FiveTwice,
    GridPattern,
    LandingLine,
    NearTen,
    SharedGap,
    Step,
)
from tests.core.patterns.plain_arithmetic import check, made_grid, to_be_found

KINDS = {kind.name for kind in GridPattern.__subclasses__()}
OARS = Grid("Rows of oars", starts=(36, 58, 46), amounts=(4, 9, 7))


def of_kind(grid: Grid, name: str) -> list[GridPattern]:
    return [pattern for pattern in patterns_of(grid) if pattern.name == name]


def test_what_is_found_is_true_and_whole_for_any_grid() -> None:
    """Seeded; `python -m tests.tools.patterns_true` runs twenty thousand."""
    dice, found = Random(15), Counter[str]()
    for _ in range(1500):
        grid = made_grid(dice)
        patterns = patterns_of(grid)
        for pattern in patterns:
            check(grid, pattern)
        assert {(one.name, one.lines) for one in patterns} == to_be_found(grid), grid
        assert len({(one.name, one.lines) for one in patterns}) == len(patterns)
        found.update(one.name for one in patterns)
    assert set(found) == KINDS
    assert min(found.values()) > 50, found


def test_columns_are_apart_by_their_amounts() -> None:
    assert ColumnsApart(0, 1, (Step("add", 4, 4), Step("add", 9, 9)), rows=3) in patterns_of(OARS)


def test_a_column_that_adds_and_one_that_takes_are_apart_by_both() -> None:
    both = Grid("Ferry", starts=(52, 31), amounts=(6, 3), operations=("add", "take"))
    (apart,) = of_kind(both, "columns-apart")
    assert isinstance(apart, ColumnsApart) and apart.by == -9


def test_what_comes_first_in_teaching_comes_first() -> None:
    stages = [pattern.stage for pattern in patterns_of(OARS)]
    assert stages == sorted(stages)


def test_adding_nine_says_nothing_of_a_start_that_is_a_ten() -> None:
    (near,) = of_kind(Grid("Buns", starts=(40, 47), amounts=(9,)), "near-ten")
    assert isinstance(near, NearTen) and near.starts == ((1, 47),)
    assert (near.ones_by, near.tens_by) == (-1, 1)


def test_taking_eight_turns_it_round() -> None:
    (near,) = of_kind(Grid("Buns", starts=(43, 48), amounts=(8,), operations=("take",)), "near-ten")
    assert isinstance(near, NearTen) and near.starts == ((0, 43),)
    assert (near.ones_by, near.tens_by) == (2, -1)


def test_five_is_not_taken_twice_from_less_than_ten() -> None:
    (five,) = of_kind(Grid("Buns", starts=(7, 23), amounts=(5,), operations=("take",)), "five-twice")
    assert isinstance(five, FiveTwice) and five.starts == ((1, 23),)


def test_the_ones_that_cross() -> None:
    crossing = of_kind(OARS, "crossing")
    assert crossing == [CrossingOnes(0, Step("add", 4, 4), (8,), (6,), (1,))]
    (only,) = crossing
    assert isinstance(only, CrossingOnes) and list(only.crossed_by) == [7, 8, 9]


def test_two_cells_of_a_row_share_the_gap() -> None:
    gap = SharedGap(0, 36, "add", 4, ((1, 5), (2, 3)))
    assert gap in patterns_of(OARS)


def test_the_line_where_sums_land() -> None:
    (line,) = of_kind(Grid("Seats", starts=(27, 46), amounts=(4, 3)), "landing")
    assert isinstance(line, LandingLine)
    assert [(one.start, one.step.amount, one.total) for one in line.landings] == [(46, 4, 50), (27, 3, 30)]


def test_one_more_at_the_start_and_one_less_added_is_the_same() -> None:
    (equal,) = of_kind(Grid("Seats", starts=(27, 28), amounts=(6, 5)), "equal-answers")
    assert isinstance(equal, EqualAnswers)
    assert (equal.first, equal.second, equal.total, equal.by) == (Cell(0, 0), Cell(1, 1), 33, 1)


def test_grids_with_little_in_them() -> None:
    assert patterns_of(Grid("One", starts=(23,), amounts=(4,))) == ()
    same = patterns_of(Grid("Same", starts=(23, 23), amounts=(4, 4)))
    assert [(one.name, getattr(one, "by", None)) for one in same] == [("columns-apart", 0), ("rows-apart", 0)]
    assert [one.name for one in patterns_of(Grid("One row", starts=(23,), amounts=(4, 6)))] == ["columns-apart"]
    assert [one.name for one in patterns_of(Grid("One column", starts=(23, 31), amounts=(4,)))] == ["rows-apart"]


def test_a_step_is_what_all_starts_have_in_common() -> None:
    assert steps_of(Grid("Ferry", (52, 31), (6, 3), operations=("add", "take"))) == {
        0: Step("add", 6, 6),
        1: Step("take", 3, -3),
    }
