"""Sheets of a ferry and a bakery, and of every sum there is."""

from saythesum.core.grids.grid import Grid
from saythesum.reports.sheets.sheet import Sheet

FERRY = Grid("Seats on the ferry", (47, 59, 36), (5, 8, 7), operations=("add", "add", "take"))
WIDE = Grid("Rolls in the bakery", tuple(range(21, 41)), (1, 2, 3, 4, 5, 6, 7, 8, 9, 9, 8, 7, 6, 5, 4))
ADDING = Grid("All of adding", tuple(range(10, 100)), tuple(range(1, 10)), operations=("add",) * 9)
TAKING = Grid("All of taking away", tuple(range(10, 100)), tuple(range(1, 10)), operations=("take",) * 9)
CODE = "gymyu"


def sheet(grid: Grid = FERRY, *, with_steps: bool = False, with_line: bool = False) -> Sheet:
    return Sheet(CODE, grid, with_steps=with_steps, with_line=with_line)
