"""What a braille display shows of every scene, as a pupil with twenty cells reads it."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.core.grids.grid import Cell
from saythesum.keyboard.answer_entry import Typing
from saythesum.keyboard.keys import Key
from saythesum.scene.braille_line import BrailleLine, braille_line
from saythesum.scene.grid import CellShown, GridShown, Header, moves_to
from saythesum.scene.number_pad import CellChosen
from saythesum.wording.braille.own_encoder import encoded
from tests.publishing.louis import cells_by_louis
from tests.screen.scenes import MAKERS, Shown

CELLS = 20


def test_the_sum_stands_with_the_answer_as_it_is_typed_and_how_far_the_grid_is() -> None:
    shown = Shown()
    assert braille_line(shown.scene) == BrailleLine("38+3=", cursor=5, behind="sum 1 of 9")
    shown.typing = Typing(digits=(4, 1))
    assert braille_line(shown.scene) == BrailleLine("38+3=41", cursor=7, behind="sum 1 of 9")


@pytest.mark.parametrize(
    ("answers", "text"),
    [
        (("41",), "Yes 38+5="),
        (("41", "40"), "Not yet left of 5? "),
        (("I don't know",), "38 next ten? "),
        (("I don't know", "40"), "38 to 40? "),
        (("I don't know", "40", "2"), "left of 3? "),
        (("I don't know", "40", "2", "1"), "38+3="),
    ],
)
def test_the_verdict_and_the_part_that_is_asked_are_short(answers: tuple[str, ...], text: str) -> None:
    line = braille_line(Shown().says(*answers).scene)
    assert (line.text, line.cursor) == (text, len(text))


def test_the_open_grid_is_its_row_and_each_place_stands_for_a_cell() -> None:
    shown = Shown().says("41")
    shown.typing = Typing(shows_grid=True)
    line = braille_line(shown.scene)
    assert line.text == "38: 41 ? ?"
    assert [(line.text[first:end], cell) for first, end, cell in line.cells] == [
        ("41", CellChosen(0, 0)),
        ("?", CellChosen(0, 1)),
        ("?", CellChosen(0, 2)),
    ]
    assert line.cursor == line.text.index("?"), "at the current cell"


@pytest.mark.parametrize("name", MAKERS)
def test_what_is_needed_fits_twenty_cells_and_is_as_liblouis_writes_it(name: str) -> None:
    scene = MAKERS[name]()
    line = braille_line(scene)
    if scene.answer and not scene.shows_grid and name != "large-numbers":
        needed = replace(line, text=line.text[: line.cursor].removeprefix("Not yet ").removeprefix("Yes "))
        assert len(encoded(needed.text)) < CELLS, needed
    if line.text.isascii():
        assert encoded(line.text) == cells_by_louis(line.text)


def _grid(done: list[list[bool]], current: Cell) -> GridShown:
    cells = tuple(tuple(CellShown("41" if is_done else "", "", "") for is_done in row) for row in done)
    header = Header("", "")
    return GridShown("", (header,) * len(done), (header,) * len(done[0]), cells, current, 2)


def _arrow(grid: GridShown, at: Cell, key: Key) -> Cell:
    """As the dialogue moves: to the next cell that way which is not done, or not at all."""
    right, down = {Key.RIGHT: (1, 0), Key.LEFT: (-1, 0), Key.DOWN: (0, 1), Key.UP: (0, -1)}[key]
    column, row = at.column + right, at.row + down
    while 0 <= row < len(grid.rows) and 0 <= column < len(grid.columns):
        if not grid.cells[row][column].text:
            return Cell(row, column)
        column, row = column + right, row + down
    return at


@given(
    done=st.lists(st.lists(st.booleans(), min_size=4, max_size=4), min_size=3, max_size=3),
    here=st.tuples(st.integers(0, 2), st.integers(0, 3)),
    there=st.tuples(st.integers(0, 2), st.integers(0, 3)),
)
def test_a_cell_that_is_chosen_is_reached_by_arrows_or_nothing_moves(
    done: list[list[bool]], here: tuple[int, int], there: tuple[int, int]
) -> None:
    grid = _grid(done, Cell(*here))
    at = Cell(*here)
    keys = moves_to(grid, *there)
    for key in keys:
        at = _arrow(grid, at, key)
    assert at == (Cell(*there) if keys else Cell(*here))
    if not done[there[0]][there[1]] and there[0] == here[0] and there != here:
        assert keys, "in its own row every open cell is reached"
