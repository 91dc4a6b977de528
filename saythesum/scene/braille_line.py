"""What a braille display needs of a scene: the sum with the answer as it is typed, in twenty cells as far as can be.

In front the verdict on the last answer, in one or two words, until a key goes on from it; behind it how far the grid
is done. The open grid is its current row, where each place stands for a cell, with the cursor at the current one.
"""

from dataclasses import dataclass

from saythesum.core.exercises.exercise import HOLE
from saythesum.core.grids.grid import Cell
from saythesum.scene.grid import GridShown
from saythesum.scene.number_pad import CellChosen
from saythesum.scene.scene import AnswerShown, Scene, SumShown
from saythesum.wording.speak.said_shown import BRAILLE_VERDICTS, sum_of_sums

EMPTY_CELL = "?"


@dataclass(frozen=True, slots=True)
class BrailleLine:
    text: str
    """In print, one line."""
    cursor: int | None = None
    """Where the next digit goes, or the current cell begins, as a place in the text."""
    cells: tuple[tuple[int, int, CellChosen], ...] = ()
    """Of the open grid: from where to where in the text a cell stands, and which it is."""
    behind: str = ""
    """What is less needed: beside the text where all of it fits on the display, otherwise by panning."""


def braille_line(scene: Scene) -> BrailleLine:
    if scene.answer is None or scene.sum is None:
        return BrailleLine(scene.caption.text or scene.now_words)
    if scene.shows_grid and scene.grid.current:
        return _row(scene.grid, scene.grid.current)
    verdict = f"{BRAILLE_VERDICTS[scene.verdict.is_right]} " if scene.verdict else ""
    typed = typed_line(scene.answer, scene.sum)
    return BrailleLine(verdict + typed.text, cursor=len(verdict) + (typed.cursor or 0), behind=how_far(scene.grid))


def typed_line(answer: AnswerShown, asked: SumShown) -> BrailleLine:
    """The sum, or the part that is asked, with what is typed."""
    if answer.fills_hole:
        before, _, after = asked.text.replace(" ", "").partition(HOLE)
        return BrailleLine(f"{before}{answer.text or HOLE}{after}", cursor=len(before) + len(answer.text))
    text = f"{answer.in_braille}{answer.text}"
    return BrailleLine(text, cursor=len(text))


def how_far(grid: GridShown) -> str:
    """ "sum 4 of 6": the current cell, counted row by row."""
    if grid.current is None or not grid.rows:
        return ""
    columns = len(grid.columns)
    return sum_of_sums(grid.current.row * columns + grid.current.column + 1, len(grid.rows) * columns)


def _row(grid: GridShown, current: Cell) -> BrailleLine:
    text, cursor, cells = f"{grid.rows[current.row].text}:", None, []
    for column, cell in enumerate(grid.cells[current.row]):
        begins = len(text) + 1
        text += f" {cell.text or EMPTY_CELL}"
        cells.append((begins, len(text), CellChosen(current.row, column)))
        cursor = begins if column == current.column else cursor
    return BrailleLine(text, cursor, tuple(cells))
