"""What patterns say of a grid, checked by one who knows only plus, minus and the digits of a number."""

from dataclasses import dataclass
from itertools import combinations, pairwise
from random import Random

from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.patterns.grid_pattern import (
    ColumnsAlike,
    ColumnsApart,
    CrossingOnes,
    EqualAnswers,
    FiveTwice,
    GridPattern,
    LandingLine,
    NearTen,
    RowsAlike,
    RowsApart,
    SharedGap,
    Step,
)

Lines = tuple[int, ...]


@dataclass(frozen=True)
class Table:
    """The numbers of a grid, worked out here."""

    starts: tuple[int, ...]
    moves: tuple[int, ...]
    """What each column adds: negative where it takes away."""

    def at(self, cell: Cell) -> int:
        return self.starts[cell.row] + self.moves[cell.column]

    def start(self, cell: Cell) -> int:
        return self.starts[cell.row]

    @property
    def places(self) -> list[Cell]:
        return [Cell(row, column) for row in range(len(self.starts)) for column in range(len(self.moves))]

    def crosses(self, cell: Cell) -> bool:
        """Whether counting from the start passes a ten on its way, and neither begins nor ends on one."""
        return any(number % 10 == 0 for number in self.between(cell)) and not self.lands(cell)

    def lands(self, cell: Cell) -> bool:
        return self.at(cell) % 10 == 0 and self.start(cell) % 10 != 0

    def between(self, cell: Cell) -> range:
        low, high = sorted((self.start(cell), self.at(cell)))
        return range(low + 1, high)


def table_of(grid: Grid) -> Table:
    signs = [-1 if operation == "take" else 1 for operation in grid.operations or ("add",) * len(grid.amounts)]
    return Table(grid.starts, tuple(sign * amount for sign, amount in zip(signs, grid.amounts, strict=True)))


def made_grid(dice: Random) -> Grid:
    """One to five by one to five, from starts 0 to 999, adding, taking and both. Every other one has small starts, or
    starts near to each other, so that equal numbers and landings come often."""
    columns = dice.randint(1, 5)
    amounts = tuple(dice.randint(1, 9) for _ in range(columns))
    operations = tuple(dice.choice(dice.choice((("add",), ("take",), ("add", "take")))) for _ in range(columns))
    lowest = max((amount for amount, one in zip(amounts, operations, strict=True) if one == "take"), default=0)
    first = dice.choice((lowest, dice.randint(lowest, 999)))
    last = dice.choice((999, min(999, first + 12)))
    starts = tuple(dice.randint(first, last) for _ in range(dice.randint(1, 5)))
    return Grid("Oars", starts, amounts, operations=operations)


def check(grid: Grid, pattern: GridPattern) -> None:  # noqa: PLR0912, PLR0915 - one paragraph for each pattern
    """Raises AssertionError for anything that is not true."""
    table = table_of(grid)
    assert pattern.cells <= set(table.places)
    match pattern:
        case ColumnsApart(first, second, steps):
            _check_steps(table, (first, second), steps)
            for row in range(len(table.starts)):
                assert table.at(Cell(row, second)) - table.at(Cell(row, first)) == pattern.by
            assert pattern.by == steps[1].by - steps[0].by, "the steps alone make the difference"
        case ColumnsAlike(first, second, steps):
            _check_steps(table, (first, second), steps)
            for row in range(len(table.starts)):
                one, other = table.at(Cell(row, first)), table.at(Cell(row, second))
                assert one != other and str(one)[-1] == str(other)[-1]
            assert abs(steps[0].by - steps[1].by) == 10
        case RowsApart(first, second, starts):
            assert starts == (table.starts[first], table.starts[second])
            for column in range(len(table.moves)):
                assert table.at(Cell(second, column)) - table.at(Cell(first, column)) == pattern.by
            assert pattern.by == starts[1] - starts[0], "the starts alone make the difference"
        case RowsAlike(first, second, starts):
            assert starts == (table.starts[first], table.starts[second]) and starts[0] != starts[1]
            assert {str(start)[-1] for start in starts} == {str(pattern.ones)}
            for column in range(len(table.moves)):
                upper, lower = Cell(first, column), Cell(second, column)
                assert str(table.at(upper))[-1] == str(table.at(lower))[-1]
                assert table.crosses(upper) == table.crosses(lower) == (column in pattern.crossing)
        case CrossingOnes(column, step, crossing, staying, rows):
            _check_steps(table, (column,), (step,))
            for row, start in enumerate(table.starts):
                crosses = table.crosses(Cell(row, column))
                assert crosses == (row in rows) == (start % 10 in crossing) == (start % 10 not in staying)
                assert crosses == (start % 10 in pattern.crossed_by), "the ones decide"
            for ones in range(10):
                for tens in (10, 50, 990):
                    alone = Table((tens + ones,), table.moves)
                    assert alone.crosses(Cell(0, column)) == (ones in pattern.crossed_by), "and nothing else does"
        case LandingLine(operation, landings):
            assert len(landings) > 1
            for landing in landings:
                _check_steps(table, (landing.cell.column,), (landing.step,))
                assert table.at(landing.cell) == landing.total and table.lands(landing.cell)
                assert (landing.step.operation, landing.start) == (operation, table.start(landing.cell))
                makes = (
                    landing.ones + landing.step.amount if landing.step.by > 0 else landing.ones - landing.step.amount
                )
                assert makes == (10 if landing.step.by > 0 else 0), "the ones and the amount make the ten"
            for landing, after in pairwise(landings):
                more = after.ones - landing.ones
                assert more >= 0 and landing.step.by - after.step.by == more
        case EqualAnswers(first_cell, second_cell, starts, steps, total):
            _check_steps(table, (first_cell.column, second_cell.column), steps)
            assert first_cell.row != second_cell.row and first_cell.column != second_cell.column
            assert table.at(first_cell) == table.at(second_cell) == total
            assert starts == (table.start(first_cell), table.start(second_cell)) and pattern.by != 0
            assert starts[1] - starts[0] == pattern.by == steps[0].by - steps[1].by
        case NearTen(column, step, starts_in_rows):
            _check_steps(table, (column,), (step,))
            assert step.amount + pattern.short == 10
            for row, start in starts_in_rows:
                total = table.at(Cell(row, column))
                assert start == table.starts[row]
                assert total % 10 - start % 10 == pattern.ones_by
                assert total // 10 - start // 10 == pattern.tens_by
        case SharedGap(row, start, operation, gap, rests):
            assert len(rests) > 1 and start == table.starts[row]
            ten = start + gap if operation == "add" else start - gap
            assert ten % 10 == 0 and 0 < gap < 10
            for column, rest in rests:
                cell = Cell(row, column)
                assert table.crosses(cell) and gap + rest == abs(table.moves[column])
                assert ten in table.between(cell)
        case FiveTwice(column, step, starts_in_rows):
            _check_steps(table, (column,), (step,))
            for row, start in starts_in_rows:
                once = table.at(Cell(row, column))
                twice = once + step.by
                assert start == table.starts[row] and twice >= 0
                assert abs(once % 10 - start % 10) == 5 and twice % 10 == start % 10
                assert abs(twice - start) == 10
        case _:
            raise AssertionError(f"{pattern} is not checked")


def _check_steps(table: Table, columns: tuple[int, ...], steps: tuple[Step, ...]) -> None:
    assert [step.by for step in steps] == [table.moves[column] for column in columns]
    assert all(abs(step.by) == step.amount for step in steps)
    assert all((step.by > 0) == (step.operation == "add") for step in steps)


def to_be_found(grid: Grid) -> set[tuple[str, Lines]]:  # noqa: PLR0912 - a kind after the other
    """Name and lines of all that a reader of the numbers would find, found by comparing every cell with every other."""
    table = table_of(grid)
    rows, columns = range(len(table.starts)), range(len(table.moves))
    found: set[tuple[str, Lines]] = set()
    for one, other in combinations(columns, 2):
        found.add(("columns-apart", (one, other)))
        if abs(table.moves[one] - table.moves[other]) == 10:
            found.add(("columns-alike", (one, other)))
    for one, other in combinations(rows, 2):
        found.add(("rows-apart", (one, other)))
        if table.starts[one] != table.starts[other] and (table.starts[one] - table.starts[other]) % 10 == 0:
            found.add(("rows-alike", (one, other)))
    for column in columns:
        if len({table.crosses(Cell(row, column)) for row in rows}) == 2:
            found.add(("crossing", (column,)))
        move = table.moves[column]
        carried = [row for row in rows if (table.starts[row] + move) // 10 != table.starts[row] // 10]
        if abs(move) in (8, 9) and carried:
            found.add(("near-ten", (column,)))
        if abs(move) == 5 and any(start + 2 * move >= 0 for start in table.starts):
            found.add(("five-twice", (column,)))
    for row in rows:
        for sign in (1, -1):
            crossing = [c for c in columns if table.moves[c] * sign > 0 and table.crosses(Cell(row, c))]
            if len({table.moves[column] for column in crossing}) > 1:
                found.add(("shared-gap", (row, *crossing)))
    for sign in (1, -1):
        landing = [cell for cell in table.places if table.moves[cell.column] * sign > 0 and table.lands(cell)]
        if len({table.moves[cell.column] for cell in landing}) > 1:
            found.add(("landing", tuple(sorted({cell.column for cell in landing}))))
    for first, second in combinations(table.places, 2):
        if table.at(first) == table.at(second) and table.start(first) != table.start(second):
            found.add(("equal-answers", (first.row, first.column, second.row, second.column)))
    return found
