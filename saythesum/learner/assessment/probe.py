"""A probe: eight sums without help or verdict, each time in another form that is as hard.

How hard is taken from a pupil of whom nothing is known, so that two probes of one pupil can be compared. A start
and an amount trade places from form to form, and each form spreads its sums over the tens from the twenties to the
eighties: no teens, which are easily misheard, and no hundred.
"""

from dataclasses import dataclass

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.grids.grid import Cell, Grid

_LEVELS: tuple[tuple[tuple[int, int], ...], ...] = (
    ((3, 4), (3, 5), (3, 6)),  # does not cross
    ((4, 7), (4, 8), (4, 9)),
    ((6, 7), (6, 8), (6, 9)),
    ((4, 6),),  # lands
    ((3, 8), (3, 9)),
    ((7, 8), (7, 9)),
    ((5, 6), (5, 7), (5, 8), (5, 9)),
    ((8, 9),),
)
"""For each of the eight sums, pairs of ones that are as hard as each other, in either order."""

_TENS = (20, 50, 80, 40, 70, 30, 60)
"""As many forms in a row have no sum in common; then they come again."""


@dataclass(frozen=True, slots=True)
class Form:
    grid: Grid
    cells: tuple[Cell, ...]
    """The eight that are asked, in this order; the grid's others are not."""

    @property
    def sums(self) -> tuple[Exercise, ...]:
        return tuple(self.grid.exercise_at(cell) for cell in self.cells)


def form(number: int) -> Form:
    """The probe of this number, 0 for a pupil's first."""
    sums = [_sum(number, level) for level in range(len(_LEVELS))]
    amounts = tuple(sorted({asked.amount for asked in sums}))
    grid = Grid("Eight sums", tuple(asked.start for asked in sums), amounts)
    return Form(grid, tuple(Cell(row, amounts.index(asked.amount)) for row, asked in enumerate(sums)))


def _sum(number: int, level: int) -> Sum:
    pairs = [*_LEVELS[level], *((larger, smaller) for smaller, larger in _LEVELS[level])]
    ones, amount = pairs[number % len(pairs)]
    return Sum(_TENS[(number + level) % len(_TENS)] + ones, amount)
