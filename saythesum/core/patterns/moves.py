"""The moves of a talk about one pattern of a grid, in order: small activities, each of which may be the last."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.patterns.finding import patterns_of, steps_of
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
from saythesum.core.patterns.questions import (
    Apart,
    EdgeOnes,
    Fill,
    HowManyCross,
    InColumn,
    InNewRow,
    InRow,
    LeftOver,
    Made,
    OwnStart,
    Question,
)
from saythesum.core.sums import LARGEST_AMOUNT, LARGEST_START, Part

MOST_HEARD = 5
"""So many numbers of a line are heard: a longer one is hard to hold in mind."""


@dataclass(frozen=True, slots=True)
class Line:
    """A row or a column to be listened to."""

    of: Step | int
    """The column's step, or the row's start."""
    numbers: tuple[int, ...]
    is_whole: bool
    """Otherwise it goes on in the grid."""


Heard: TypeAlias = tuple[Line, ...] | tuple[Made, ...]
"""Two lines, or single sums."""


@dataclass(frozen=True, slots=True)
class Move:
    part: Part
    question: Question | None = None
    """None where nothing is asked, or where the pupil answers in own words."""
    fill: Callable[[int], Question] | None = None
    """What is asked about the start that the pupil has named."""


@dataclass(frozen=True, slots=True)
class Talk:
    """All that is said and asked about one pattern."""

    pattern: GridPattern
    heard: Heard
    moves: tuple[Move, ...]

    def after(self, part: Part) -> Move | None:
        """None after the last one."""
        at = next(at for at, move in enumerate(self.moves) if move.part is part)
        return self.moves[at + 1] if at + 1 < len(self.moves) else None

    def before(self, part: Part) -> Move | None:
        at = next(at for at, move in enumerate(self.moves) if move.part is part)
        return self.moves[at - 1] if at else None

    def at(self, part: Part) -> Move | None:
        return next((move for move in self.moves if move.part is part), None)


def pattern_named(grid: Grid, name: str, lines: tuple[int, ...]) -> GridPattern | None:
    """None where this version finds no such pattern in the grid."""
    return next((one for one in patterns_of(grid) if (one.name, one.lines) == (name, lines)), None)


@lru_cache(maxsize=64)
def talk_about(grid: Grid, pattern: GridPattern) -> Talk:
    """The same for the same grid and pattern, so that kept rows need not tell what is asked."""
    heard, moves = _OF_KIND[type(pattern)](grid, pattern)
    return Talk(pattern, heard, tuple(moves))


# ---- the kinds of pattern


def _columns(grid: Grid, pattern: ColumnsApart | ColumnsAlike) -> tuple[Heard, Iterator[Move]]:
    one, other = pattern.steps
    lines = tuple(_column(grid, step) for step in pattern.steps)
    return lines, _by_steps(grid, one, other)


def _near_ten(grid: Grid, pattern: NearTen) -> tuple[Heard, Iterator[Move]]:
    starts = tuple(start for _, start in pattern.starts)
    ten = _ten(pattern.step)
    heard = tuple(Made(start, pattern.step) for start in starts)[:MOST_HEARD]
    return heard, _by_steps(grid, ten, pattern.step, starts, is_told=True)


def _by_steps(
    grid: Grid, one: Step, other: Step, starts: tuple[int, ...] | None = None, *, is_told: bool = False
) -> Iterator[Move]:
    """Two steps from the same start. `is_told`: the first one is no column of the grid."""
    starts = starts or grid.starts
    yield Move(Part.LISTEN)
    if one.by != other.by:

        def apart(start: int) -> Question:
            pair = Made(start, one), Made(start, other)
            return Apart(pair[0].total, pair[1].total, InRow(start), pair[:1] if is_told else ())

        yield Move(Part.HOW_MUCH_MORE, apart(starts[0]))
        if another := next((start for start in reversed(starts) if start != starts[0]), None):
            yield Move(Part.EVERY_ROW, apart(another))
        new, newer = _new_starts(grid, -min(one.by, other.by, 0))[:2]
        yield Move(Part.PREDICT, Fill(Made(new, one), Made(new, other)))
        yield Move(Part.WHY)
        yield Move(Part.TURN_ROUND, Fill(Made(newer, other), Made(newer, one)))
        yield _make_one(range(20, 100), lambda start: Fill(Made(start, one), Made(start, other)))
    else:
        yield Move(Part.WHY)


def _five_twice(grid: Grid, pattern: FiveTwice) -> tuple[Heard, Iterator[Move]]:
    five = pattern.step
    back = Step("take", five.amount, -five.by) if five.by > 0 else Step("add", five.amount, -five.by)
    starts = tuple(start for _, start in pattern.starts)

    def twice(start: int) -> Question:
        once = Made(start, five)
        told = (once, Made(once.total, five))
        return Apart(start, told[1].total, None, told)

    def second(start: int) -> Question:
        return Fill(Made(start, five), Made(start + five.by, five))

    def moves() -> Iterator[Move]:
        yield Move(Part.LISTEN)
        yield Move(Part.HOW_MUCH_MORE, twice(starts[0]))
        if another := next((start for start in reversed(starts) if start != starts[0]), None):
            yield Move(Part.EVERY_ROW, twice(another))
        new, newer = _new_starts(grid, 10)[:2]
        yield Move(Part.PREDICT, second(new))
        yield Move(Part.WHY)
        end = newer + 2 * five.by
        yield Move(Part.TURN_ROUND, Fill(Made(end, back), Made(end + back.by, back)))
        yield _make_one(range(20, 100), second)

    return tuple(Made(start, five) for start in starts)[:MOST_HEARD], moves()


def _rows(grid: Grid, pattern: RowsApart | RowsAlike) -> tuple[Heard, Iterator[Move]]:
    upper, lower = pattern.starts
    steps = list(steps_of(grid).values())
    lines = tuple(_row(start, steps) for start in pattern.starts)
    return lines, _by_starts(upper, lower, steps)


def _by_starts(one: int, other: int, steps: list[Step]) -> Iterator[Move]:
    yield Move(Part.LISTEN)
    if one == other:
        yield Move(Part.WHY)
        return

    def apart(step: Step) -> Question:
        return Apart(one + step.by, other + step.by, InColumn(step))

    yield Move(Part.HOW_MUCH_MORE, apart(steps[0]))
    if another := next((step for step in reversed(steps) if step.by != steps[0].by), None):
        yield Move(Part.EVERY_ROW, apart(another))
    new, newer = _new_steps(steps, min(one, other))
    yield Move(Part.PREDICT, Fill(Made(one, new), Made(other, new), is_new_column=True))
    yield Move(Part.WHY)
    yield Move(Part.TURN_ROUND, Fill(Made(other, newer), Made(one, newer), is_new_column=True))
    own, by = steps[0], other - one
    starts = range(max(20, 20 - by), min(LARGEST_START, LARGEST_START - by) + 1)[:80]
    if starts:
        yield _make_one(starts, lambda start: Fill(Made(start, own), Made(start + by, own)))


def _shared_gap(grid: Grid, pattern: SharedGap) -> tuple[Heard, Iterator[Move]]:
    steps = steps_of(grid)
    of_row = [steps[column] for column, _ in pattern.rests]
    way = 1 if of_row[0].by > 0 else -1
    start, ten = pattern.start, pattern.start + way * pattern.gap

    def moves() -> Iterator[Move]:
        yield Move(Part.LISTEN)
        yield Move(Part.HOW_MUCH_MORE, Apart(start, ten))
        yield Move(Part.EVERY_ROW, LeftOver(of_row[-1], pattern.gap, ten))
        here = {step.amount for step in of_row}
        crossing = range(pattern.gap + 1, LARGEST_AMOUNT + 1)
        new = next((amount for amount in crossing if amount not in here), of_row[0].amount)
        yield Move(Part.PREDICT, LeftOver(Step(pattern.operation, new, way * new), pattern.gap, ten))
        yield Move(Part.WHY)
        yield _make_one(range(20, 100), lambda own: Apart(own, _next_ten(own, way)), _NO_TEN)

    return tuple(Made(start, step) for step in of_row)[:MOST_HEARD], moves()


def _crossing(grid: Grid, pattern: CrossingOnes) -> tuple[Heard, Iterator[Move]]:
    step = pattern.step
    way = 1 if step.by > 0 else -1
    start = grid.starts[pattern.rows[0]]

    def moves() -> Iterator[Move]:
        yield Move(Part.LISTEN)
        yield Move(Part.HOW_MUCH_MORE, Apart(start, _next_ten(start, way)))
        yield Move(Part.EVERY_ROW, HowManyCross(step, len(pattern.rows), len(grid.starts)))
        new = next((one for one in _new_starts(grid, 10) if one % 10 == start % 10), start)
        yield Move(Part.PREDICT, Fill(Made(start, step), Made(new, step)))
        yield Move(Part.WHY)
        yield Move(Part.TURN_ROUND, EdgeOnes(step))
        crossing = frozenset(pattern.crossed_by)
        yield _make_one(range(20, 100), lambda own: Apart(own, _next_ten(own, way)), crossing, step)

    return tuple(Made(one, step) for one in grid.starts)[:MOST_HEARD], moves()


def _landing(grid: Grid, pattern: LandingLine) -> tuple[Heard, Iterator[Move]]:
    first, last = pattern.landings[0], pattern.landings[-1]
    way = 1 if first.step.by > 0 else -1

    def moves() -> Iterator[Move]:
        yield Move(Part.LISTEN)
        yield Move(Part.HOW_MUCH_MORE, _landed(first))
        yield Move(Part.EVERY_ROW, _landed(last))
        new, *_ = _new_starts(grid, 10)
        yield Move(Part.PREDICT, Apart(new, _next_ten(new, way), InNewRow()))
        yield Move(Part.WHY)
        yield _make_one(range(20, 100), lambda own: Apart(own, _next_ten(own, way)), _NO_TEN)

    return tuple(Made(one.start, one.step) for one in pattern.landings)[:MOST_HEARD], moves()


def _landed(landing: Landing) -> Question:
    return Apart(landing.start, landing.total)


def _equal_answers(grid: Grid, pattern: EqualAnswers) -> tuple[Heard, Iterator[Move]]:
    one, other = (Made(start, step) for start, step in zip(pattern.starts, pattern.steps, strict=True))
    way = 1 if one.step.by > 0 else -1
    near = [pattern.total - way * amount for amount in range(1, LARGEST_AMOUNT + 1)]
    near = [start for start in near if 0 <= start <= LARGEST_START]
    new = [start for start in near if start not in grid.starts]

    def moves() -> Iterator[Move]:
        yield Move(Part.LISTEN)
        yield Move(Part.HOW_MUCH_MORE, Apart(one.start, other.start))
        if one.step.operation == other.step.operation:
            yield Move(Part.EVERY_ROW, Apart(one.step.amount, other.step.amount))
        if new:
            start = new[len(new) // 2]
            yield Move(Part.PREDICT, Apart(start, pattern.total, InNewRow()))
        yield Move(Part.WHY)
        yield _make_one(range(min(near), max(near) + 1), lambda own: Apart(own, pattern.total))

    return (one, other), moves()


_OF_KIND: dict[type[GridPattern], Callable[..., tuple[Heard, Iterator[Move]]]] = {
    ColumnsApart: _columns,
    ColumnsAlike: _columns,
    RowsApart: _rows,
    RowsAlike: _rows,
    CrossingOnes: _crossing,
    LandingLine: _landing,
    EqualAnswers: _equal_answers,
    NearTen: _near_ten,
    SharedGap: _shared_gap,
    FiveTwice: _five_twice,
}

# ---- what the moves are made of

_ANY = frozenset(range(10))
_NO_TEN = _ANY - {0}


def _make_one(
    starts: range, fill: Callable[[int], Question], ones: frozenset[int] = _ANY, crosses: Step | None = None
) -> Move:
    return Move(Part.MAKE_ONE, OwnStart(starts, ones, crosses), fill)


def _column(grid: Grid, step: Step) -> Line:
    starts = grid.starts[:MOST_HEARD]
    return Line(step, tuple(start + step.by for start in starts), len(starts) == len(grid.starts))


def _row(start: int, steps: list[Step]) -> Line:
    return Line(start, tuple(start + step.by for step in steps[:MOST_HEARD]), len(steps) <= MOST_HEARD)


def _ten(like: Step) -> Step:
    return Step(like.operation, 10, 10 if like.by > 0 else -10)


def _next_ten(start: int, way: int) -> int:
    ones = start % 10
    return start - ones + (10 if way > 0 else 0)


def _new_starts(grid: Grid, least: int) -> list[int]:
    """Two-digit starts that the grid does not have, other ones for another grid; the teens are left out, as they
    sound like tens."""
    candidates = [tens + ones for ones in (1, 4, 7, 2, 8, 5, 3, 6, 9) for tens in (80, 60, 40, 70, 50, 30, 90, 20)]
    first = sum(grid.starts) % len(candidates)
    turned = candidates[first:] + candidates[:first]
    return [start for start in turned if start not in grid.starts and start >= least]


def _new_steps(steps: list[Step], least_start: int) -> tuple[Step, Step]:
    """Two amounts that the grid does not have, where there are any, with the operation of its first column."""
    operation, way = steps[0].operation, 1 if steps[0].by > 0 else -1
    here = {step.amount for step in steps}
    possible = [n for n in (6, 4, 7, 3, 8, 2, 9, 5, 1) if way > 0 or n <= least_start]
    new = [n for n in possible if n not in here] or possible or [steps[0].amount]
    return tuple(Step(operation, n, way * n) for n in (new[0], new[1 % len(new)]))  # type: ignore[return-value]


def cells_heard(grid: Grid, pattern: GridPattern) -> frozenset[Cell]:
    """The cells whose numbers a talk about the pattern may read out."""
    if isinstance(pattern, CrossingOnes | NearTen | FiveTwice):
        return frozenset(Cell(row, pattern.column) for row in range(len(grid.starts)))
    return pattern.cells
