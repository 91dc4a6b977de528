"""Which pattern is worth finding follows from what was missed, from the stage, and from what was talked about."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from random import Random

from saythesum.core.grids.grid import Cell, Grid, walk
from saythesum.core.patterns.finding import patterns_of
from saythesum.core.patterns.grid_pattern import Stage
from saythesum.core.records.rows import Answer, Ask, Row, RowId, Support
from saythesum.core.sums import Part
from saythesum.learner.worth_finding import (
    Talked,
    WhyFound,
    WorthReason,
    missed_cells,
    talks_in,
    worth_finding,
)
from tests.core.patterns.plain_arithmetic import made_grid
from tests.learner.learners import answer

DAY = date(2026, 3, 2)
OARS = Grid("Rows of oars", starts=(36, 58, 46), amounts=(4, 9, 7))


def rows(grid: Grid, missed: frozenset[Cell] = frozenset(), helped: frozenset[Cell] = frozenset()) -> tuple[Row, ...]:
    return tuple(_rows(grid, missed, helped))


def _rows(grid: Grid, missed: frozenset[Cell], helped: frozenset[Cell]) -> Iterator[Answer]:
    for cell in walk(grid, 0):
        asked = grid.exercise_at(cell)
        if cell in missed:
            yield answer(asked, asked.total + 10, cell=cell)
        support = Support.ASKED if cell in helped else Support.INDEPENDENT
        yield answer(asked, asked.total, cell=cell, support=support)


def column(place: int, grid: Grid = OARS) -> frozenset[Cell]:
    return frozenset(Cell(row, place) for row in range(len(grid.starts)))


def chosen(said: tuple[Row, ...], *before: Talked, on: date = DAY, grid: Grid = OARS) -> tuple[str, tuple[int, ...]]:
    found = worth_finding(grid, said, before, on)
    assert found is not None
    return found.pattern.name, found.pattern.lines


def talked(name: str, *lines: int, days_ago: int = 0) -> Talked:
    return Talked(name, lines, DAY - timedelta(days=days_ago))


def test_with_nothing_missed_it_is_the_first_in_the_order_of_teaching() -> None:
    found = worth_finding(OARS, rows(OARS), (), DAY)
    assert found is not None
    assert (found.pattern.name, found.pattern.lines) == ("columns-apart", (0, 1))
    assert found.why == WhyFound(WorthReason.NEXT, bears_on=0, missed=0)


def test_it_bears_on_what_was_missed_or_helped_with() -> None:
    some = frozenset({Cell(0, 0), Cell(2, 2)})
    found = worth_finding(OARS, rows(OARS, missed=frozenset({Cell(0, 0)}), helped=frozenset({Cell(2, 2)})), (), DAY)
    assert found is not None
    assert (found.pattern.name, found.pattern.lines) == ("columns-apart", (0, 2))
    assert found.why == WhyFound(WorthReason.MISSED, bears_on=2, missed=len(some))


def test_of_patterns_that_bear_on_as_much_the_closer_one_is_chosen() -> None:
    """All sums with nine were missed, and no others."""
    assert chosen(rows(OARS, missed=column(1))) == ("near-ten", (1,))


def test_a_new_stage_comes_on_a_new_day() -> None:
    said = rows(OARS)
    starts = frozenset({"rows-apart", "shared-gap"})
    assert chosen(said, talked("near-ten", 1))[0] == "columns-apart"
    assert chosen(said, talked("columns-apart", 0, 1, days_ago=1))[0] in starts
    ones = chosen(said, talked("columns-apart", 0, 1, days_ago=9), talked("rows-apart", 0, 1, days_ago=2))[0]
    assert ones in {"rows-alike", "crossing", "landing"}


def test_after_all_stages_what_was_missed_decides_alone() -> None:
    every = [talked("equal-answers", 0, 0, 1, 1, days_ago=1)]
    missed = frozenset(Cell(1, place) for place in range(3))
    assert chosen(rows(OARS, missed=missed), *every)[0] in {"rows-apart", "shared-gap"}


def test_a_grid_without_the_stage_of_the_day_has_the_nearest_before_it() -> None:
    one_column = Grid("Buns", starts=(24, 31), amounts=(3,))
    assert chosen(rows(one_column), grid=one_column) == ("rows-apart", (0, 1))
    one_row = Grid("Buns", starts=(24,), amounts=(2, 3))
    assert chosen(rows(one_row), talked("rows-apart", 0, 1, days_ago=1), grid=one_row) == ("columns-apart", (0, 1))


def test_lines_that_are_the_same_throughout_come_last() -> None:
    same = Grid("Buns", starts=(24, 31), amounts=(3, 3, 4))
    missed = column(0, same) | column(1, same)
    assert chosen(rows(same, missed=missed), grid=same) == ("columns-apart", (0, 2))


def test_never_the_same_twice_running_in_any_grid() -> None:
    dice = Random(7)
    for _ in range(150):
        grid = made_grid(dice)
        cells = walk(grid, 0)
        missed = frozenset(dice.sample(cells, dice.randint(0, len(cells))))
        said = _answers_of(grid, missed)
        before: tuple[Talked, ...] = ()
        for day in range(4):
            on = DAY + timedelta(days=day // 2)
            found = worth_finding(grid, said, before, on)
            if found is None:
                assert len(patterns_of(grid)) <= 1
                break
            assert found == worth_finding(grid, said, before, on)
            assert found.why.bears_on == len(found.pattern.cells & missed)
            assert (found.why.missed, found.why.reason is WorthReason.MISSED) == (len(missed), found.why.bears_on > 0)
            assert not before or (found.pattern.name, found.pattern.lines) != (before[-1].name, before[-1].lines)
            before = (*before, Talked(found.pattern.name, found.pattern.lines, on))


def _answers_of(grid: Grid, missed: frozenset[Cell]) -> tuple[Row, ...]:
    said = [row for row in rows(grid, missed) if isinstance(row, Answer)]
    return tuple(replace(row, operation=grid.exercise_at(Cell(*row.place)).operation) for row in said)


def test_what_may_have_been_misheard_is_not_missed() -> None:
    sum_ = OARS.exercise_at(Cell(0, 0))
    misheard = replace(answer(sum_, sum_.total + 10, cell=Cell(0, 0)), close_to=(sum_.total,))
    assert missed_cells([misheard], 0) == frozenset()
    assert missed_cells([replace(misheard, close_to=())], 0) == {Cell(0, 0)}
    assert missed_cells([replace(misheard, close_to=(), activity=1)], 0) == frozenset()


def test_talks_are_read_from_their_questions() -> None:
    at = datetime(2026, 3, 2, 9, tzinfo=UTC)
    plain = Ask(RowId("a"), 0, 0, Part.WHOLE, Support.INDEPENDENT, None, about="one-short")
    talk = replace(plain, about="columns-apart", lines=(0, 2))
    again = replace(talk, about="near-ten", lines=(1,))
    kept = [(row, at) for row in (plain, talk, talk, again, plain)]
    assert talks_in(kept) == (Talked("columns-apart", (0, 2), DAY), Talked("near-ten", (1,), DAY))


def test_stages_are_in_the_order_of_teaching() -> None:
    assert list(Stage) == [Stage.AMOUNTS, Stage.STARTS, Stage.ONES, Stage.DIAGONALS]
