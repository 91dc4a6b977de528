"""The grid with its headers, and the number line with its jumps: what can stand above the sum."""

from dataclasses import dataclass, replace

from saythesum.scene.scene import GridShown, LineShown, grid_extract
from saythesum.screen.captions import pitch_px
from saythesum.screen.shapes import Arch, Bar, Box, Frame, Ruler, Shape, digits, moved, words

_UNKNOWN = "?"


@dataclass(frozen=True, slots=True)
class Picture:
    shapes: tuple[Shape, ...]
    """From (0, 0)."""
    height_px: int
    is_whole: bool = True

    def at(self, x: int, y: int) -> tuple[Shape, ...]:
        return tuple(moved(shape, x, y) for shape in self.shapes)


# ---- the grid --------------------------------------------------------------------------------------


def grid_picture(
    grid: GridShown, size: tuple[int, int], digit_px: int, ruler: Ruler, *, label_px: int
) -> Picture | None:
    """As many whole rows and columns as there is room for, around the current cell; None where not even one."""
    width, height = size
    table = _Table(grid, digit_px, ruler)
    label_height = pitch_px(label_px, ruler) + label_px // 2
    columns = table.columns_around(width)
    rows = table.rows_around(height)
    if rows and columns and (len(rows) < len(grid.starts) or len(columns) < len(grid.amounts)):
        rows = table.rows_around(height - label_height)
    if not rows or not columns:
        return None
    shapes = table.shapes(rows, columns)
    bottom = (len(rows) + 1) * table.row_px
    if extract := grid_extract(rows, columns, grid):
        label = words(ruler, extract, label_px, at=(0, bottom))
        if label.box.right > width:
            return None
        shapes.append(label)
        bottom += label_height
    return Picture(tuple(shapes), bottom, is_whole=not extract)


class _Table:
    def __init__(self, grid: GridShown, digit_px: int, ruler: Ruler) -> None:
        self._grid = grid
        self._digit_px = digit_px
        self._ruler = ruler
        digit = max(ruler.width_px(sign, digit_px, is_bold=True) for sign in "0123456789")
        plus = ruler.width_px("+8", digit_px, is_bold=True)
        self._side_px = round(digit_px * 0.6)
        self.column_px = max(grid.most_digits * digit, plus) + 2 * self._side_px
        self.header_px = max(map(len, grid.starts)) * digit + 2 * self._side_px
        self.row_px = round(digit_px * 1.8)

    def columns_around(self, width: int) -> range:
        at = self._grid.current.column if self._grid.current else 0
        return _around(at, len(self._grid.amounts), (width - self.header_px) // self.column_px)

    def rows_around(self, height: int) -> range:
        at = self._grid.current.row if self._grid.current else 0
        return _around(at, len(self._grid.starts), height // self.row_px - 1)

    def shapes(self, rows: range, columns: range) -> list[Shape]:
        current = self._grid.current
        shapes: list[Shape] = []
        for place, column in enumerate(columns):
            box = Box(self.header_px + place * self.column_px, 0, self.column_px, self.row_px)
            shapes += self._header(self._grid.amounts[column], box, current is not None and current.column == column)
        for line, row in enumerate(rows):
            y = (line + 1) * self.row_px
            box = Box(0, y, self.header_px, self.row_px)
            shapes += self._header(self._grid.starts[row], box, current is not None and current.row == row)
            for place, column in enumerate(columns):
                box = Box(self.header_px + place * self.column_px, y, self.column_px, self.row_px)
                is_current = current is not None and (current.row, current.column) == (row, column)
                shapes += self._cell(self._grid.cells[row][column], box, is_current)
        return shapes

    def _header(self, text: str, box: Box, is_current: bool) -> list[Shape]:
        """The headers of the current cell are turned: ground on ink."""
        header = self._middle(text, box, is_bold=True, is_turned=is_current)
        return [Bar(box.inside(self._digit_px // 8)), header] if is_current else [header]

    def _cell(self, text: str, box: Box, is_current: bool) -> list[Shape]:
        thin = max(1, self._digit_px // 24)
        thick = max(4, self._digit_px // 6)
        frame = Frame(box.inside(self._digit_px // 8), thick if is_current else thin, is_mark=is_current)
        return [frame, self._middle(text, box)] if text else [frame]

    def _middle(self, text: str, box: Box, *, is_bold: bool = False, is_turned: bool = False) -> Shape:
        width = self._ruler.width_px(text, self._digit_px, is_bold=is_bold)
        at = (box.x + (box.width - width) // 2, box.y + (box.height - self._digit_px) // 2)
        return replace(digits(self._ruler, text, self._digit_px, at=at, is_bold=is_bold), is_turned=is_turned)


def _around(at: int, count: int, room: int) -> range:
    """`room` of `count` places with `at` as near their middle as the ends allow."""
    shown = max(0, min(room, count))
    first = min(max(at - shown // 2, 0), count - shown)
    return range(first, first + shown)


# ---- the number line -------------------------------------------------------------------------------


def line_picture(line: LineShown, size: tuple[int, int], digit_px: int, ruler: Ruler) -> Picture | None:
    """Places are fixed: start, middle, end. What is not known yet is a question mark."""
    width, height = size
    thick = max(3, digit_px // 8)
    jump_px = round(1.7 * digit_px)
    by_y, jump_y = 0, round(digit_px * 1.4)
    line_y = jump_y + jump_px
    number_y = line_y + round(digit_px * 1.1)
    numbers = (line.start, *(jump.to or _UNKNOWN for jump in line.jumps))
    column = width // len(numbers)
    widest = max(ruler.width_px(text, digit_px, is_bold=True) for text in (*numbers, "1008"))
    if number_y + digit_px > height or widest + digit_px > column:
        return None
    stops = [place * column + column // 2 for place in range(len(numbers))]
    shapes: list[Shape] = [Bar(Box(0, line_y, width, thick))]
    for stop, text in zip(stops, numbers, strict=True):
        mark = Box(stop - thick // 2, line_y - digit_px // 2, thick, digit_px + thick)
        shapes += [Bar(mark), _centred(text, stop, number_y, digit_px, ruler)]
    for jump, left, right in zip(line.jumps, stops, stops[1:], strict=False):
        gap = thick + digit_px // 8
        shapes.append(Arch(Box(left + gap, jump_y, right - left - 2 * gap, jump_px - digit_px // 2 - gap), thick))
        by = f"+{jump.by}" if jump.by else _UNKNOWN
        shapes.append(_centred(by, (left + right) // 2, by_y, digit_px, ruler))
    return Picture(tuple(shapes), number_y + digit_px)


def _centred(text: str, middle: int, y: int, digit_px: int, ruler: Ruler) -> Shape:
    width = ruler.width_px(text, digit_px, is_bold=True)
    return digits(ruler, text, digit_px, at=(middle - width // 2, y), is_bold=True)
