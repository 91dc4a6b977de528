"""What a teacher may want to know about a grid before using it, as values."""

from collections import Counter
from dataclasses import dataclass

from saythesum.core.grids import Grid
from saythesum.core.sums import Kind, Sum


@dataclass(frozen=True, slots=True)
class AboutGrid:
    """Counts are of cells."""

    cells: int
    crossing: int
    landing: int
    within: int
    """Not crossing: short of the next ten."""
    past_hundred: int
    """Sums that begin below a hundred and reach it or pass it; so with two hundred, and so on."""
    equal_answers: tuple[int, ...]
    """Answers of two cells or more, smallest first."""
    repeated: int
    """Cells whose sum stood in an earlier cell: the same answer again tells nothing new."""


def about(grid: Grid) -> AboutGrid:
    sums = [Sum(start, amount) for start in grid.starts for amount in grid.amounts]
    kinds = Counter(one.kind for one in sums)
    answers = Counter(one.total for one in sums)
    return AboutGrid(
        cells=len(sums),
        crossing=kinds[Kind.CROSSING],
        landing=kinds[Kind.LANDING],
        within=kinds[Kind.WITHIN],
        past_hundred=sum(one.start // 100 < one.total // 100 for one in sums),
        equal_answers=tuple(sorted(answer for answer, count in answers.items() if count > 1)),
        repeated=len(sums) - len(set(sums)),
    )
