"""Everything that is true of a grid, from the answers of its exercises alone.

A column counts where its step is the same for every start, as in adding and in taking away; of an exercise whose
answer depends on the start in another way nothing is said.
"""

from collections.abc import Iterable, Iterator
from itertools import combinations

from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.patterns.grid_pattern import (
    ColumnsAlike,
    ColumnsApart,
    CrossingOnes,
    EqualAnswers,
    FiveTwice,
    GridPattern,
    Landing,
    LandingLine,
    NearTen,
    RowsAlike,
    RowsApart,
    SharedGap,
    Step,
)
from saythesum.core.sums import LARGEST_AMOUNT, Bridge, Kind

NEAR_TEN = (8, 9)
FIVE = 5


def patterns_of(grid: Grid) -> tuple[GridPattern, ...]:
    """In the order of teaching, and of those of one stage from left to right and from top to bottom. A grid of one cell
    may have none, and so has a list of sums."""
    if grid.is_one_by_one:
        return ()
    found = (
        *_columns(grid),
        *_near_ten(grid),
        *_five_twice(grid),
        *_rows(grid),
        *_shared_gaps(grid),
        *_crossing(grid),
        *_landing(grid),
        *_equal_answers(grid),
    )
    return tuple(sorted(found, key=lambda pattern: pattern.stage))


def steps_of(grid: Grid) -> dict[int, Step]:
    """By column; a column without one step for every start is left out, and so are amounts of ten and more: what is
    true of a ten that is crossed is not looked for in them."""
    steps: dict[int, Step] = {}
    for column in range(len(grid.amounts)):
        asked = [grid.exercise_at(Cell(row, column)) for row in range(len(grid.starts))]
        if len({one.total - one.start for one in asked}) == 1 and asked[0].amount <= LARGEST_AMOUNT:
            steps[column] = Step(asked[0].operation, asked[0].amount, asked[0].total - asked[0].start)
    return steps


def _columns(grid: Grid) -> Iterator[ColumnsApart | ColumnsAlike]:
    rows = len(grid.starts)
    for (first, one), (second, other) in combinations(steps_of(grid).items(), 2):
        yield ColumnsApart(first, second, (one, other), rows)
        if abs(one.by - other.by) == 10:
            yield ColumnsAlike(first, second, (one, other), rows)


def _rows(grid: Grid) -> Iterator[RowsApart | RowsAlike]:
    columns = len(grid.amounts)
    if len(steps_of(grid)) < columns:
        return
    for (first, one), (second, other) in combinations(enumerate(grid.starts), 2):
        yield RowsApart(first, second, (one, other), columns)
        if one != other and one % 10 == other % 10:
            crossing = tuple(cell.column for cell in _row(grid, first) if _kind(grid, cell) is Kind.CROSSING)
            yield RowsAlike(first, second, (one, other), columns, crossing)


def _crossing(grid: Grid) -> Iterator[CrossingOnes]:
    """Where there is something to compare: of one column some cross and some do not."""
    for column, step in steps_of(grid).items():
        rows = tuple(cell.row for cell in _column(grid, column) if _kind(grid, cell) is Kind.CROSSING)
        crossing = {grid.starts[row] % 10 for row in rows}
        staying = {start % 10 for start in grid.starts} - crossing
        if crossing and staying:
            yield CrossingOnes(column, step, tuple(sorted(crossing)), tuple(sorted(staying)), rows)


def _landing(grid: Grid) -> Iterator[LandingLine]:
    """A line from two cells on, in more than one column: two in one column have the same ones, and nothing changes."""
    by_operation: dict[str, list[Landing]] = {}
    for column, step in steps_of(grid).items():
        for cell in _column(grid, column):
            if _kind(grid, cell) is Kind.LANDING:
                asked = grid.exercise_at(cell)
                landing = Landing(cell, asked.start, step, asked.total)
                by_operation.setdefault(step.operation, []).append(landing)
    for operation, landings in by_operation.items():
        if len({one.step.amount for one in landings}) > 1:
            yield LandingLine(operation, tuple(sorted(landings, key=lambda one: (one.ones, one.cell))))


def _equal_answers(grid: Grid) -> Iterator[EqualAnswers]:
    steps = steps_of(grid)
    cells = [Cell(row, column) for row in range(len(grid.starts)) for column in steps]
    for one, other in combinations(cells, 2):
        starts = grid.starts[one.row], grid.starts[other.row]
        pair = steps[one.column], steps[other.column]
        if starts[0] != starts[1] and starts[0] + pair[0].by == starts[1] + pair[1].by:
            yield EqualAnswers(one, other, starts, pair, starts[0] + pair[0].by)


def _near_ten(grid: Grid) -> Iterator[NearTen]:
    for column, step in _steps_with(grid, NEAR_TEN):
        short = 10 - step.amount
        allowed = range(short, 10) if step.by > 0 else range(10 - short)
        starts = tuple((row, start) for row, start in enumerate(grid.starts) if start % 10 in allowed)
        if starts:
            yield NearTen(column, step, starts)


def _five_twice(grid: Grid) -> Iterator[FiveTwice]:
    for column, step in _steps_with(grid, (FIVE,)):
        starts = tuple((row, start) for row, start in enumerate(grid.starts) if start + 2 * step.by >= 0)
        if starts:
            yield FiveTwice(column, step, starts)


def _steps_with(grid: Grid, amounts: Iterable[int]) -> Iterator[tuple[int, Step]]:
    """Steps that change the start by just their amount, up or down."""
    for column, step in steps_of(grid).items():
        if step.amount in amounts and abs(step.by) == step.amount:
            yield column, step


def _shared_gaps(grid: Grid) -> Iterator[SharedGap]:
    steps = steps_of(grid)
    for row, start in enumerate(grid.starts):
        by_operation: dict[str, list[tuple[int, Bridge]]] = {}
        for column, step in steps.items():
            asked = grid.exercise_at(Cell(row, column))
            if isinstance(asked, Bridge) and asked.kind is Kind.CROSSING:
                by_operation.setdefault(step.operation, []).append((column, asked))
        for operation, crossing in by_operation.items():
            rests = tuple((column, asked.rest) for column, asked in crossing)
            if len({rest for _, rest in rests}) > 1:
                yield SharedGap(row, start, operation, crossing[0][1].gap, rests)


def _kind(grid: Grid, cell: Cell) -> Kind | None:
    asked = grid.exercise_at(cell)
    return asked.kind if isinstance(asked, Bridge) else None


def _row(grid: Grid, row: int) -> list[Cell]:
    return [Cell(row, column) for column in range(len(grid.amounts))]


def _column(grid: Grid, column: int) -> list[Cell]:
    return [Cell(row, column) for row in range(len(grid.starts))]
