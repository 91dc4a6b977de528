"""Which pattern is chosen to talk about, against two readings of the same records by rules of a teacher's judgement.

`python -m tests.tools.pattern_choice` prints how often they agree, and the rest; `--records` only the grids with their
records, without what was chosen; `--all` each one with choice, reason and readings. The readings know the numbers of
the grid and the record, and share no code with what chooses. Both are by one person, and so are no second opinion.
"""

import sys
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from random import Random
from typing import TypeAlias

from saythesum.core.grids.grid import Cell, Grid, Order
from saythesum.core.patterns.finding import patterns_of
from saythesum.core.patterns.grid_pattern import GridPattern, Stage
from saythesum.core.records.rows import Row, Support
from saythesum.learner.worth_finding import Talked, worth_finding
from saythesum.wording.for_adults.said_patterns import pattern_named, why_found_said
from tests.learner.learners import answer

COUNT = 40
DAY = date(2031, 5, 12)
HISTORIES = ("", "columns-apart", "rows-apart", "rows-alike", "equal-answers")

Named: TypeAlias = tuple[str, tuple[int, ...]]


@dataclass(frozen=True)
class Record:
    grid: Grid
    missed: frozenset[Cell]
    """Wrong at first, or helped with."""
    before: tuple[Talked, ...]
    """One talk, some days ago, or none."""


def record(seed: int) -> Record:
    """A pupil with a reason for misses: a hard column, a hard row, crossing, or none in particular."""
    dice = Random(f"choice {seed}")
    starts = tuple(dice.sample(range(21, 98), dice.randint(2, 4)))
    amounts = tuple(dice.sample(range(2, 10), dice.randint(2, 4)))
    grid = Grid("Rows of oars", starts, amounts, Order.ROWS)
    cells = [Cell(row, column) for row in range(len(starts)) for column in range(len(amounts))]
    hard = dice.choice(("column", "row", "crossing", "any", "none"))
    at = dice.choice(cells)
    chances_by_reason: dict[str, Callable[[Cell], float]] = {
        "column": lambda cell: 0.8 if cell.column == at.column else 0.1,
        "row": lambda cell: 0.8 if cell.row == at.row else 0.1,
        "crossing": lambda cell: 0.7 if starts[cell.row] % 10 + amounts[cell.column] > 10 else 0.0,
        "any": lambda _: 0.25,
        "none": lambda _: 0.0,
    }
    chances = chances_by_reason[hard]
    missed = frozenset(cell for cell in cells if dice.random() < chances(cell))
    name = dice.choice(HISTORIES)
    lines = next((one.lines for one in patterns_of(grid) if one.name == name), (0, 1))
    before = (Talked(name, lines, DAY - timedelta(days=3)),) if name else ()
    return Record(grid, missed, before)


def rows_of(one: Record) -> tuple[Row, ...]:
    rows: list[Row] = []
    for at, start in enumerate(one.grid.starts):
        for column in range(len(one.grid.amounts)):
            asked = one.grid.exercise_at(Cell(at, column))
            if Cell(at, column) in one.missed:
                rows.append(answer(asked, asked.total + 10, cell=Cell(at, column)))
            rows.append(answer(asked, asked.total, cell=Cell(at, column), support=Support.INDEPENDENT))
            assert asked.start == start
    return tuple(rows)


def printed(seed: int, one: Record) -> str:
    misses = ", ".join(f"{one.grid.starts[cell.row]}+{one.grid.amounts[cell.column]}" for cell in sorted(one.missed))
    last = one.before[-1].name if one.before else "none"
    grid = f"{' '.join(map(str, one.grid.starts))} by {' '.join(map(str, one.grid.amounts))}"
    return f"{seed}: {grid}; missed or helped: {misses or 'none'}; last talk, three days ago: {last}"


# ---- the two readings: from the numbers and the record alone


def by_what_was_hard(one: Record) -> Named:
    """The lines where the misses are: two columns, or two rows where they lie along one; after a talk about amounts
    what comes next in teaching, with the line of most misses in it."""
    amounts, starts = one.grid.amounts, one.grid.starts
    columns, rows = Counter(cell.column for cell in one.missed), Counter(cell.row for cell in one.missed)
    hardest = sorted(range(len(amounts)), key=lambda column: (-columns[column], column))
    hard_rows = sorted(range(len(starts)), key=lambda row: (-rows[row], row))
    last = one.before[-1].name if one.before else ""
    if last == "":
        alone = columns[hardest[0]] and columns[hardest[0]] == len(one.missed)
        if alone and amounts[hardest[0]] in (8, 9):
            return "near-ten", (hardest[0],)
        if alone and amounts[hardest[0]] == 5:
            return "five-twice", (hardest[0],)
        return "columns-apart", tuple(sorted(hardest[:2]))
    if last == "columns-apart":
        return "rows-apart", tuple(sorted(hard_rows[:2]))
    if last == "rows-apart":
        for column in hardest:
            crossing = [row for row, start in enumerate(starts) if start % 10 + amounts[column] > 10]
            if 0 < len(crossing) < len(starts):
                return "crossing", (column,)
        return "columns-apart", tuple(sorted(hardest[:2]))
    pairs = [
        (first, second)
        for first in _places(one.grid)
        for second in _places(one.grid)
        if first < second and _total(one.grid, first) == _total(one.grid, second) and first.row != second.row
    ]
    if last == "rows-alike" and pairs:
        first, second = max(pairs, key=lambda pair: len(one.missed & set(pair)))
        return "equal-answers", (first.row, first.column, second.row, second.column)
    return "columns-apart", tuple(sorted(hardest[:2]))


_STAGES = (
    ("columns-apart", "near-ten", "five-twice"),
    ("rows-apart", "shared-gap"),
    ("columns-alike", "rows-alike", "crossing", "landing"),
    ("equal-answers",),
)


def by_what_comes_next(one: Record) -> Named:
    """The stage after the last talk's, else the nearest easier one that the grid has; in it what holds most of the
    misses. After the last stage any that holds most."""
    last = one.before[-1].name if one.before else None
    stage = next((at + 1 for at, names in enumerate(_STAGES) if last in names), 0)
    names = _STAGES[stage] if stage < len(_STAGES) else tuple(name for of in _STAGES for name in of)
    here = [found for found in patterns_of(one.grid) if found.name in names]
    while not here and stage:
        stage -= 1
        here = [found for found in patterns_of(one.grid) if found.name in _STAGES[stage]]
    best = max(here, key=lambda found: len(found.cells & one.missed))
    return best.name, best.lines


def _places(grid: Grid) -> list[Cell]:
    return [Cell(row, column) for row in range(len(grid.starts)) for column in range(len(grid.amounts))]


def _total(grid: Grid, cell: Cell) -> int:
    return grid.starts[cell.row] + grid.amounts[cell.column]


# ---- how they compare


def is_as_good(chosen: GridPattern, read: GridPattern, missed: frozenset[Cell]) -> bool:
    """Of the same stage, and about as many of the cells that were missed."""
    return chosen.stage is read.stage and len(chosen.cells & missed) >= len(read.cells & missed)


def main(wish: str) -> None:
    good = {"hard": 0, "next": 0}
    for seed in range(COUNT):
        one = record(seed)
        if wish == "--records":
            print(printed(seed, one))
            continue
        found = worth_finding(one.grid, rows_of(one), one.before, DAY)
        assert found is not None
        by_name = {(pattern.name, pattern.lines): pattern for pattern in patterns_of(one.grid)}
        readings = {"hard": by_what_was_hard(one), "next": by_what_comes_next(one)}
        agrees = {who: is_as_good(found.pattern, by_name[named], one.missed) for who, named in readings.items()}
        for who, is_good in agrees.items():
            good[who] += is_good
        if wish == "--all" or not all(agrees.values()):
            print(printed(seed, one))
            print(f"   chosen: {why_found_said(found)}")
            for who, named in readings.items():
                print(
                    f"   read by what {'was hard' if who == 'hard' else 'comes next'}: {pattern_named(by_name[named])}"
                )
    if wish != "--records":
        assert len(Stage) == len(_STAGES)
        print(
            f"the same or one as good, of {COUNT}: by what was hard {good['hard']}, by what comes next {good['next']}"
        )


if __name__ == "__main__":
    main(sys.argv[1] if sys.argv[1:] else "")
