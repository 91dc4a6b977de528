"""The grid with its headers: as large as it fits whole, otherwise the rows and columns around the current cell."""

from dataclasses import dataclass, replace

from saythesum.core.grids.grid import Cell
from saythesum.scene.grid import GridShown
from saythesum.screen.blocks.captions import pitch_px
from saythesum.screen.shapes import Bar, Box, Frame, Ruler, Shape, digits, moved, sizes_down, words
from saythesum.wording.speak.said_shown import grid_extract


@dataclass(frozen=True, slots=True)
class Picture:
    """What can stand beside or above the sum: the grid, or the number line."""

    shapes: tuple[Shape, ...]
    """From (0, 0)."""
    height_px: int
    digit_px: int
    is_whole: bool = True

    @property
    def width_px(self) -> int:
        return max(shape.box.right for shape in self.shapes)

    def at(self, x: int, y: int) -> tuple[Shape, ...]:
        return tuple(moved(shape, x, y) for shape in self.shapes)


def grid_picture(
    grid: GridShown, size: tuple[int, int], digits_px: tuple[int, int], ruler: Ruler, *, label_px: int
) -> Picture | None:
    """`digits_px`: the wished for and the least size. None where not even one cell fits."""
    if not grid.rows:
        return None
    wished, least = digits_px
    width, height = size
    for digit_px in sizes_down(wished, least):
        table = _Table(grid, digit_px, ruler)
        if table.width_px <= width and table.height_px <= height:
            return table.picture(range(len(grid.rows)), range(len(grid.columns)))
    return _extract(_Table(grid, least, ruler), size, label_px)


def grid_height(grid: GridShown, digit_px: int) -> int:
    """Of the whole grid."""
    return (len(grid.rows) + 1) * _row_px(digit_px)


def _row_px(digit_px: int) -> int:
    return round(digit_px * 1.8)


def _extract(table: "_Table", size: tuple[int, int], label_px: int) -> Picture | None:
    width, height = size
    columns, rows = table.columns_around(width), table.rows_around(height)
    if not table.is_whole(rows, columns):
        rows = table.rows_around(height - table.label_height(label_px))
    if not rows or not columns:
        return None
    picture = table.picture(rows, columns, label_px)
    return picture if picture.width_px <= width else None


class _Table:
    def __init__(self, grid: GridShown, digit_px: int, ruler: Ruler) -> None:
        self._grid = grid
        self._digit_px = digit_px
        self._ruler = ruler
        digit = max(ruler.width_px(sign, digit_px, is_bold=True) for sign in "0123456789")
        widest_header = max(ruler.width_px(column.text, digit_px, is_bold=True) for column in grid.columns)
        self._side_px = round(digit_px * 0.5)
        self.column_px = max(grid.most_digits * digit, widest_header) + 2 * self._side_px
        self.header_px = max(len(row.text) for row in grid.rows) * digit + 2 * self._side_px
        self.row_px = _row_px(digit_px)

    @property
    def width_px(self) -> int:
        return self.header_px + len(self._grid.columns) * self.column_px

    @property
    def height_px(self) -> int:
        return grid_height(self._grid, self._digit_px)

    @property
    def _middle_cell(self) -> Cell:
        """Around which the grid is shown where not all of it has room."""
        return self._grid.current or min(self._grid.marks.cells, default=Cell(0, 0))

    def columns_around(self, width: int) -> range:
        at = self._middle_cell.column
        return _around(at, len(self._grid.columns), (width - self.header_px) // self.column_px)

    def rows_around(self, height: int) -> range:
        at = self._middle_cell.row
        return _around(at, len(self._grid.rows), height // self.row_px - 1)

    def is_whole(self, rows: range, columns: range) -> bool:
        return len(rows) == len(self._grid.rows) and len(columns) == len(self._grid.columns)

    def label_height(self, label_px: int) -> int:
        return pitch_px(label_px, self._ruler) + label_px // 2

    def picture(self, rows: range, columns: range, label_px: int = 0) -> Picture:
        """`label_px`: of the words that say which part of the grid is shown, where it is not all of it."""
        shapes = self._shapes(rows, columns)
        bottom = (len(rows) + 1) * self.row_px
        if self.is_whole(rows, columns):
            return Picture(tuple(shapes), bottom, self._digit_px)
        extract = grid_extract(rows, columns, len(self._grid.rows), len(self._grid.columns))
        shapes.append(words(self._ruler, extract, label_px, at=(0, bottom)))
        return Picture(tuple(shapes), bottom + self.label_height(label_px), self._digit_px, is_whole=False)

    def _shapes(self, rows: range, columns: range) -> list[Shape]:
        current, marks = self._grid.current, self._grid.marks
        shapes: list[Shape] = []
        for place, column in enumerate(columns):
            box = Box(self.header_px + place * self.column_px, 0, self.column_px, self.row_px)
            is_current = (current is not None and current.column == column) or column in marks.columns
            shapes += self._header(self._grid.columns[column].text, box, is_current)
        for line, row in enumerate(rows):
            y = (line + 1) * self.row_px
            box = Box(0, y, self.header_px, self.row_px)
            is_current = (current is not None and current.row == row) or row in marks.rows
            shapes += self._header(self._grid.rows[row].text, box, is_current)
            for place, column in enumerate(columns):
                box = Box(self.header_px + place * self.column_px, y, self.column_px, self.row_px)
                is_marked = Cell(row, column) in marks.cells
                is_current = is_marked or (current is not None and (current.row, current.column) == (row, column))
                shapes += self._cell(self._grid.cells[row][column].text, box, is_current)
        return shapes

    def _header(self, text: str, box: Box, is_current: bool) -> list[Shape]:
        """The headers of the current cell are turned: ground on ink."""
        longest = max(len(row.text) for row in self._grid.rows)
        room = self._ruler.width_px("0" * longest, self._digit_px, is_bold=True) if text.isdigit() else 0
        header = self._middle(text, box, room, is_bold=True, is_turned=is_current)
        return [Bar(box.inside(self._digit_px // 8)), header] if is_current else [header]

    def _cell(self, text: str, box: Box, is_current: bool) -> list[Shape]:
        thin = max(1, self._digit_px // 24)
        thick = max(4, self._digit_px // 6)
        frame = Frame(box.inside(self._digit_px // 8), thick if is_current else thin, is_mark=is_current)
        room = self._ruler.width_px("0" * self._grid.most_digits, self._digit_px) if text.isdigit() else 0
        return [frame, self._middle(text, box, room)] if text else [frame]

    def _middle(self, text: str, box: Box, room: int = 0, *, is_bold: bool = False, is_turned: bool = False) -> Shape:
        """With `room`, at the right end of so much room in the middle: ones under ones, tens under tens."""
        width = self._ruler.width_px(text, self._digit_px, is_bold=is_bold)
        right = box.x + (box.width + max(room, width)) // 2
        at = (right - width, box.y + (box.height - self._digit_px) // 2)
        return replace(digits(self._ruler, text, self._digit_px, at=at, is_bold=is_bold), is_turned=is_turned)


def _around(at: int, count: int, room: int) -> range:
    """`room` of `count` places with `at` as near their middle as the ends allow."""
    shown = max(0, min(room, count))
    first = min(max(at - shown // 2, 0), count - shown)
    return range(first, first + shown)
