"""The grid as a table: row and column headers, and a cell for each sum."""

from collections.abc import Sequence
from dataclasses import dataclass

from saythesum.core.exercises.exercise import HOLE, Exercise
from saythesum.core.grids.grid import Cell
from saythesum.core.records.rows import Answer
from saythesum.core.sums import CLOSING_PARTS
from saythesum.dialogue.step import State
from saythesum.dialogue.tutor.progress import Progress, cell_of
from saythesum.keyboard.keys import Key
from saythesum.scene.pattern import NOTHING_MARKED, Marks
from saythesum.wording.numbers import words
from saythesum.wording.speak.said_shown import (
    ANSWER_NAME,
    amount_in_words,
    cell_in_words,
    grid_name,
    list_name,
    sum_in_words,
)

LEFT_OPEN = "–"
"""In a cell that was worked through and waits for another day."""


@dataclass(frozen=True, slots=True)
class Header:
    text: str
    """As it is drawn: "38", "+5"."""
    name: str
    """In words, for a screen reader; so are the other names in a scene."""


@dataclass(frozen=True, slots=True)
class CellShown:
    text: str
    """Its answer, or "" where nothing was answered yet."""
    name: str
    """The sum that stands there."""
    value: str
    """Its answer in words, or how far it is done."""


@dataclass(frozen=True, slots=True)
class GridShown:
    name: str
    rows: tuple[Header, ...]
    """The starts, down the side."""
    columns: tuple[Header, ...]
    """The amounts, along the top."""
    cells: tuple[tuple[CellShown, ...], ...]
    """Row by row."""
    current: Cell | None
    most_digits: int
    """Of the longest answer: room that is kept in every cell."""
    is_list: bool = False
    """A sum in each row, in place of starts and amounts."""
    marks: Marks = NOTHING_MARKED
    """What stands out in it, where a pattern is talked about."""


def grid_shown(state: State, current: Cell | None, marks: Marks = NOTHING_MARKED) -> GridShown:
    activity = state.plan.activity_of(current) if current else state.plan.activity_on(state.progress.ask)
    grid, at = activity.grid, activity.cells[0].activity
    if activity.aim.has_grid and not activity.has_grid:
        return _list_shown(state, activity.cells, current)
    rows, columns = range(grid.rows), range(grid.columns)
    furthest = grid.starts.index(max(grid.starts))
    most_digits = max(len(str(grid.exercise_at(Cell(furthest, column)).total)) for column in columns)
    if not activity.aim.has_grid:
        return _grid_of_one(state.plan.exercise_at(current) if current else None, most_digits)
    answered = answered_cells(state.progress)
    return GridShown(
        name=grid_name(len(rows), len(columns)),
        rows=tuple(map(_row_header, grid.starts)),
        columns=tuple(_column_header(grid.exercise_at(Cell(0, column))) for column in columns),
        cells=tuple(tuple(_cell(Cell(row, column, at), state, answered) for column in columns) for row in rows),
        current=current,
        most_digits=most_digits,
        marks=marks,
    )


def answered_cells(progress: Progress) -> frozenset[Cell]:
    """The cells whose right answer the pupil gave."""
    given = (row for row in progress.live if isinstance(row, Answer) and row.right and row.part in CLOSING_PARTS)
    return frozenset(map(cell_of, given))


def _row_header(start: int) -> Header:
    return Header(str(start), words(start))


def _column_header(asked: Exercise) -> Header:
    return Header(asked.shown_amount, amount_in_words(asked))


def _cell(cell: Cell, state: State, answered: frozenset[Cell]) -> CellShown:
    asked = state.plan.exercise_at(cell)
    answer = asked.total if cell in answered else None
    is_left_open = answer is None and cell in state.progress.closed
    text = str(answer) if answer is not None else LEFT_OPEN if is_left_open else ""
    return CellShown(text, sum_in_words(asked), cell_in_words(answer, is_left_open=is_left_open))


def _list_shown(state: State, cells: Sequence[Cell], current: Cell | None) -> GridShown:
    """Each sum at the head of a row, its answer beside it, in the order in which they are asked."""
    asked = [state.plan.exercise_at(cell) for cell in cells]
    answered = answered_cells(state.progress)
    return GridShown(
        name=list_name(len(asked)),
        rows=tuple(Header(one.shown, sum_in_words(one)) for one in asked),
        columns=(Header(HOLE, ANSWER_NAME),),
        cells=tuple((_cell(cell, state, answered),) for cell in cells),
        current=Cell(cells.index(current), 0) if current in cells else None,
        most_digits=max(len(str(one.total_asked.total)) for one in asked),
        is_list=True,
    )


def _grid_of_one(asked: Exercise | None, most_digits: int) -> GridShown:
    """Where sums come one by one, only the one that is asked; its answers are not kept in view."""
    if asked is None:
        return GridShown("", (), (), (), None, most_digits)
    cell = CellShown("", sum_in_words(asked), cell_in_words(None, is_left_open=False))
    row, column = _row_header(asked.start), _column_header(asked)
    return GridShown(grid_name(1, 1), (row,), (column,), ((cell,),), Cell(0, 0), most_digits)


def moves_to(grid: GridShown, row: int, column: int) -> tuple[Key, ...]:
    """The arrows that lead from the current cell to another, over cells that are done; none where they lead elsewhere.

    An arrow goes to the next cell that way which is not done.
    """
    here = grid.current
    if here is None or grid.cells[row][column].text:
        return ()
    across, down = (_count(here.column, column, Key.RIGHT, Key.LEFT), _count(here.row, row, Key.DOWN, Key.UP))
    across_keys = tuple(across[0] for at in across[1] if not grid.cells[here.row][at].text)
    down_keys = tuple(down[0] for at in down[1] if not grid.cells[at][column].text)
    if row == here.row or not grid.cells[here.row][column].text:
        return (*across_keys, *down_keys)
    if grid.cells[row][here.column].text:
        return ()
    first_down = tuple(down[0] for at in down[1] if not grid.cells[at][here.column].text)
    return (*first_down, *(across[0] for at in across[1] if not grid.cells[row][at].text))


def _count(here: int, there: int, forward: Key, back: Key) -> tuple[Key, Sequence[int]]:
    """The arrow, and the places that it passes, the last one included."""
    return (forward, range(here + 1, there + 1)) if there > here else (back, range(here - 1, there - 1, -1))
