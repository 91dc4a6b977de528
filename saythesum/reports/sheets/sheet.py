"""A grid as a sheet: what stands on it, before it is print, braille or sound."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from saythesum.core.exercises.equation import Equation
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.grids.grid import Cell, Grid, Order, walk
from saythesum.reports.sheets.number_line import SheetNumberLine, number_line
from saythesum.settings import Helping

_SAME_EVERY_TIME = 0
"""The seed of a shuffled order."""
_IN_A_GROUP = 5


@dataclass(frozen=True, slots=True)
class Sheet:
    code: str
    grid: Grid
    helping: Helping = Helping()  # noqa: RUF009 - a frozen value
    """By which steps the pupil goes."""
    is_filled: bool = False
    """With the answers; otherwise with blanks for them."""
    with_steps: bool = False
    with_line: bool = False
    """A number line under each sum that goes by jumps."""

    @property
    def title(self) -> str:
        return f"{self.grid.title}: answers" if self.is_filled else self.grid.title

    @property
    def filled(self) -> "Sheet":
        return replace(self, is_filled=True)

    @property
    def cells(self) -> tuple[Cell, ...]:
        """Row by row, in whatever order the grid is practised; without headers in the grid's own, as rows of missing
        numbers would give them away."""
        in_rows = replace(self.grid, order=Order.ROWS)
        return walk(self.grid if self.grid.is_one_by_one else in_rows, _SAME_EVERY_TIME)

    def asked(self, cell: Cell) -> Exercise:
        return self.grid.exercise_at(cell).by_way_of(self.helping)

    def row(self, row: int) -> tuple[Exercise, ...]:
        return tuple(self.asked(Cell(row, column)) for column in range(self.grid.columns))

    @property
    def groups(self) -> tuple[tuple[Exercise, ...], ...]:
        """Sums that are read aloud together: a row, or a few where there are no rows."""
        if not self.grid.is_one_by_one:
            return tuple(self.row(row) for row in range(self.grid.rows))
        asked = [self.asked(cell) for cell in self.cells]
        return tuple(tuple(asked[place : place + _IN_A_GROUP]) for place in range(0, len(asked), _IN_A_GROUP))

    @property
    def lines(self) -> Iterator["SheetLine"]:
        """Each sum by itself."""
        for cell in self.cells:
            asked = self.asked(cell)
            yield SheetLine(asked, self._written(asked), self._steps(asked) if self.with_steps else ())

    def number_line(self, asked: Exercise) -> SheetNumberLine | None:
        if not self.with_line:
            return None
        return number_line(asked, with_jumps=self.with_steps or self.is_filled, is_filled=self.is_filled)

    def _written(self, asked: Exercise) -> Equation:
        return asked.written if self.is_filled else asked.written.hiding(asked.hidden)

    def _steps(self, asked: Exercise) -> tuple[Equation, ...]:
        """To be filled in: the first begins where the sum does, each other one where the pupil got to."""
        steps = asked.written_steps
        if self.is_filled:
            return steps
        return tuple(
            replace(step.with_blanks, start=step.start if place == 0 else None) for place, step in enumerate(steps)
        )


@dataclass(frozen=True, slots=True)
class SheetLine:
    asked: Exercise
    written: Equation
    steps: tuple[Equation, ...]
