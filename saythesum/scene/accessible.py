"""A scene as a tree of roles, names and values in words, as assistive software reads it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from saythesum.core.grids.grid import Cell
from saythesum.keyboard.keys import Focus
from saythesum.scene.braille_line import BrailleLine, typed_line
from saythesum.scene.grid import GridShown
from saythesum.scene.number_pad import NUMBER_PAD, CellChosen, PadKeyShown, Pressable
from saythesum.scene.scene import AnswerShown, ButtonShown, Scene
from saythesum.wording.for_adults.said_marks import FOR_ADULT
from saythesum.wording.speak.said_keys import BUTTON_NAMES

ROOT, SPOKEN, ANSWER = "window", "spoken", "answer"


class Role(StrEnum):
    WINDOW = "window"
    TEXT = "text"
    LIVE_TEXT = "live text"
    """Whoever listens is told when it changes."""
    FIELD = "field"
    TABLE = "table"
    ROW = "row"
    ROW_HEADER = "row header"
    COLUMN_HEADER = "column header"
    CELL = "cell"
    BUTTON = "button"
    GROUP = "group"


@dataclass(frozen=True, slots=True)
class Accessible:
    """One node with all that is in it."""

    id: str
    """The same for the same thing in every scene."""
    role: Role
    name: str = ""
    value: str = ""
    description: str = ""
    presses: Pressable | None = None
    row: int | None = None
    """Of the table, headers counted; so is the column."""
    column: int | None = None
    caret: int | None = None
    """Of a field: before which character of its value it stands."""
    children: tuple["Accessible", ...] = ()

    def all(self) -> Iterator["Accessible"]:
        yield self
        for child in self.children:
            yield from child.all()


@dataclass(frozen=True, slots=True)
class AccessibleTree:
    root: Accessible
    focus: str
    """The id of the node that has the focus."""


def accessible_tree(scene: Scene, title: str) -> AccessibleTree:
    is_over = not scene.buttons
    # The field comes first: with the text first, Orca 43 was seen to say the first two turns twice.
    children = [_field(scene, scene.answer)] if scene.answer else []
    children.append(Accessible(SPOKEN, Role.LIVE_TEXT, scene.spoken.text))
    children.append(Accessible("now", Role.TEXT, scene.now_words))
    if scene.for_adult:
        children.append(_lines("for adult", FOR_ADULT, scene.for_adult))
    if scene.pattern:
        children.append(_lines("pattern", scene.pattern.name, scene.pattern.braille))
    if scene.grid.rows:
        children.append(_table(scene.grid))
    if scene.line:
        children.append(Accessible("line", Role.TEXT, scene.line.name))
    children += map(_button, scene.buttons)
    children += map(_pad_key, scene.keys)
    if scene.answer and not is_over:
        children.append(Accessible("pad", Role.GROUP, "Number pad", children=tuple(map(_pad_key, NUMBER_PAD))))
    return AccessibleTree(Accessible(ROOT, Role.WINDOW, title, children=tuple(children)), _focus(scene))


def _focus(scene: Scene) -> str:
    """The current cell while the grid is open in place of the sum; the window itself as long as nothing is asked."""
    on_button = next((button.focus.value for button in scene.buttons if button.is_focused), None)
    if on_button:
        return on_button
    if scene.shows_grid and scene.grid.current:
        return _cell_id(scene.grid.current.row, scene.grid.current.column)
    return ANSWER if scene.answer else ROOT


def _field(scene: Scene, answer: AnswerShown) -> Accessible:
    """Its value is the whole sum as it is typed, which is what a braille line shows of the field. Its name never
    changes: screen readers would say the new one, beside the question.
    """
    line = typed_line(answer, scene.sum) if scene.sum else BrailleLine(answer.text)
    return Accessible(ANSWER, Role.FIELD, BUTTON_NAMES[Focus.ANSWER], value=line.text, caret=line.cursor)


def _lines(id: str, name: str, lines: Sequence[str]) -> Accessible:
    """To be read line by line. Nobody is told when they change."""
    texts = tuple(Accessible(f"{id} {at}", Role.TEXT, line) for at, line in enumerate(lines))
    return Accessible(id, Role.GROUP, name, children=texts)


def _table(grid: GridShown) -> Accessible:
    top = tuple(
        Accessible(f"column {at}", Role.COLUMN_HEADER, header.name, row=0, column=at + 1)
        for at, header in enumerate(grid.columns)
    )
    rows = [Accessible("columns", Role.ROW, children=top)]
    for at, header in enumerate(grid.rows):
        first = Accessible(f"row {at}", Role.ROW_HEADER, header.name, row=at + 1, column=0)
        rows.append(Accessible(f"cells {at}", Role.ROW, children=(first, *_cells(grid, at))))
    return Accessible("table", Role.TABLE, grid.name, children=tuple(rows))


def _cells(grid: GridShown, row: int) -> Sequence[Accessible]:
    return [
        Accessible(
            _cell_id(row, at),
            Role.CELL,
            _cell_name(grid, row, at),
            description=_header_changed(grid, row, at),
            presses=CellChosen(row, at),
            row=row + 1,
            column=at + 1,
        )
        for at in range(len(grid.cells[row]))
    ]


def _cell_name(grid: GridShown, row: int, column: int) -> str:
    """What stands out to the eye is said, too."""
    cell = grid.cells[row][column]
    stands_out = ", in the pattern" if Cell(row, column) in grid.marks.cells else ""
    return f"{cell.name}, {cell.value}{stands_out}"


def _header_changed(grid: GridShown, row: int, column: int) -> str:
    """ "add eight": what a move there would change, as the platform passes on no headers. The current cell has none:
    the move to it was said as a turn.
    """
    if grid.current is None:
        return ""
    is_changed = ((grid.rows[row], row != grid.current.row), (grid.columns[column], column != grid.current.column))
    return ", ".join(header.name for header, changes in is_changed if changes)


def _cell_id(row: int, column: int) -> str:
    return f"cell {row} {column}"


def _button(button: ButtonShown) -> Accessible:
    return Accessible(button.focus.value, Role.BUTTON, button.name, description=button.keys, presses=button.focus)


def _pad_key(key: PadKeyShown) -> Accessible:
    return Accessible(f"pad {key.name}", Role.BUTTON, key.name, presses=key)
