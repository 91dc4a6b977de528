"""What a braille display needs of a scene: the sum with the answer as it is typed, in twenty cells as far as can be.

In front the verdict on the last answer, in one or two words, until a key goes on from it; behind, as long as nothing
is typed, how far the grid is done. The open grid is its current row, where each place stands for a cell.
"""

from collections.abc import Iterator

from saythesum.core.exercises.exercise import HOLE
from saythesum.scene.grid import GridShown
from saythesum.scene.scene import AnswerShown, Scene, SumShown
from saythesum.values import dataclass
from saythesum.wording.speak.said_shown import BRAILLE_VERDICTS, sum_of_sums

EMPTY_CELL = "?"


@dataclass(frozen=True, slots=True)
class BrailleLine:
    text: str
    """In print, one line."""
    cursor: int | None = None
    """Where the next digit goes, as a place in the text."""
    columns: tuple[tuple[int, int, int], ...] = ()
    """Of the open grid: from where to where in the text the column stands, and which it is."""


def braille_line(scene: Scene) -> BrailleLine:
    if scene.answer is None or scene.sum is None:
        return BrailleLine(scene.caption.text or scene.now_words)
    if scene.shows_grid and scene.grid.current:
        return _row(scene.grid, scene.grid.current.row)
    verdict = f"{BRAILLE_VERDICTS[scene.verdict.is_right]} " if scene.verdict else ""
    typed = typed_line(scene.answer, scene.sum)
    place = "" if scene.answer.text or scene.verdict else how_far(scene.grid)
    text = f"{verdict}{typed.text}" + (f"  {place}" if place else "")
    return BrailleLine(text, cursor=len(verdict) + (typed.cursor or 0))


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


def _row(grid: GridShown, row: int) -> BrailleLine:
    text = f"{grid.rows[row].text}:"
    columns = []
    for column, cell in enumerate(_texts(grid, row)):
        columns.append((len(text) + 1, len(text) + 1 + len(cell), column))
        text += f" {cell}"
    return BrailleLine(text, columns=tuple(columns))


def _texts(grid: GridShown, row: int) -> Iterator[str]:
    return (cell.text or EMPTY_CELL for cell in grid.cells[row])
