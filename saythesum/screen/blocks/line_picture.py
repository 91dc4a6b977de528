"""The number line to scale: ticks in ones and tens, jumps as arcs above it, numbers beneath.

What the pupil has not got to yet is an empty frame, as the answer is.
"""

from typing import TypeAlias

from saythesum.scene.number_line import Jump, LineShown
from saythesum.screen.blocks.grid_picture import Picture
from saythesum.screen.shapes import Arch, Bar, Box, Frame, Ruler, Shape, Words, digits, moved, sizes_down

_UNKNOWN = ""
_TEN = 10
_Label: TypeAlias = Words | Frame


def line_picture(line: LineShown, size: tuple[int, int], digits_px: tuple[int, int], ruler: Ruler) -> Picture | None:
    """`digits_px`: the wished for and the least size. None where it does not fit."""
    wished, least = digits_px
    width, height = size
    for digit_px in sizes_down(wished, least):
        drawn = _Line(line, width, digit_px, ruler)
        if drawn.height_px <= height and drawn.is_wide_enough:
            return Picture(tuple(drawn.shapes()), drawn.height_px, digit_px)
    return None


def line_height(digit_px: int) -> int:
    return _near_y(digit_px) + 2 * (digit_px + _pad(digit_px))


def _near_y(digit_px: int) -> int:
    """The top of the numbers right beneath the line."""
    return 4 * digit_px + _thick(digit_px)


def _thick(digit_px: int) -> int:
    return max(3, digit_px // 8)


def _pad(digit_px: int) -> int:
    return max(2, digit_px // 4)


class _Line:
    """From top to foot: how far each jump goes, the arcs, the line with its ticks, start and landing, the tens."""

    def __init__(self, line: LineShown, width: int, digit_px: int, ruler: Ruler) -> None:
        self._line, self._width, self._digit_px, self._ruler = line, width, digit_px, ruler
        self._thick = _thick(digit_px)
        self._pad = _pad(digit_px)
        self._widest = max(self._width_of(text) for text in (str(line.last), f"{line.sign}9"))
        self._left = self._widest // 2
        self._line_y = 3 * digit_px
        self._near_y = _near_y(digit_px)
        self._far_y = self._near_y + digit_px + 2 * self._pad

    @property
    def height_px(self) -> int:
        return line_height(self._digit_px)

    @property
    def is_wide_enough(self) -> bool:
        """Labels at neighbouring ticks have to move apart by no more than half of their width."""
        return self._one_px >= self._widest / 2 and self._one_px >= 2 * self._thick

    def shapes(self) -> list[Shape]:
        end = self._x(self._line.last) + self._thick
        shapes: list[Shape] = [Bar(Box(0, self._line_y, end, self._thick))]
        shapes += [self._tick(number) for number in range(self._line.first, self._line.last + 1)]
        begins = self._line.start
        for jump in self._line.jumps:
            if jump.lands_at is not None:
                shapes.append(self._arc(begins, jump.lands_at))
                begins = jump.lands_at
        return [*shapes, *self._distances(), *self._numbers()]

    @property
    def _one_px(self) -> float:
        """From one number to the next."""
        return (self._width - self._widest - self._thick) / (self._line.last - self._line.first)

    def _x(self, number: float) -> int:
        return self._left + round((number - self._line.first) * self._one_px)

    def _tick(self, number: int) -> Bar:
        is_ten = number % _TEN == 0
        length = self._digit_px if is_ten else round(self._digit_px * 0.55)
        thick = self._thick if is_ten else max(2, self._thick // 2)
        return Bar(Box(self._x(number) - thick // 2, self._line_y - length // 3, thick, length))

    def _arc(self, begins: int, ends: int) -> Arch:
        left, right = sorted((self._x(begins), self._x(ends)))
        top = round(1.3 * self._digit_px)
        foot = self._line_y - self._digit_px // 3 - self._pad // 2
        return Arch(Box(left, top, max(right - left, 2 * self._thick), foot - top), self._thick)

    def _distances(self) -> list[_Label]:
        """Each above its own arc; two that would meet stand to either side of the ten between them."""
        begins = self._line.start
        arcs: list[tuple[str, float, int]] = []
        for jump in self._line.jumps:
            if jump.lands_at is None:
                break
            arcs.append((self._by(jump), (begins + jump.lands_at) / 2, jump.lands_at))
            begins = jump.lands_at
        labels = [self._label(text, self._x(middle), 0) for text, middle, _ in arcs]
        return self._apart(labels, self._x(arcs[0][2])) if len(labels) == 2 else labels

    def _numbers(self) -> list[_Label]:
        """The start and where the last jump lands beneath the line, the tens between them one line lower."""
        near = [self._label(str(self._line.start), self._x(self._line.start), self._near_y)]
        last = self._line.jumps[-1]
        if last.lands_at is not None:
            near.append(self._label(_number(last.to), self._x(last.lands_at), self._near_y))
            middle = (self._x(self._line.start) + self._x(last.lands_at)) // 2
            near = self._apart(near, middle)
        tens = {self._line.first: str(self._line.first)} if self._line.first != self._line.start else {}
        tens |= {jump.lands_at: _number(jump.to) for jump in self._line.jumps[:-1] if jump.lands_at is not None}
        return [*near, *(self._label(text, self._x(ten), self._far_y) for ten, text in tens.items())]

    def _by(self, jump: Jump) -> str:
        return _UNKNOWN if jump.by is None else f"{self._line.sign}{jump.by}"

    def _apart(self, labels: list[_Label], middle: int) -> list[_Label]:
        left, right = sorted(labels, key=lambda label: label.box.x)
        if left.box.right + self._pad <= right.box.x:
            return labels
        at_left = max(0, min(left.box.x, middle - self._pad - left.box.width))
        at_right = max(right.box.x, middle + self._pad)
        return [moved(left, at_left - left.box.x, 0), moved(right, at_right - right.box.x, 0)]

    def _label(self, text: str, middle: int, y: int) -> _Label:
        width = self._width_of(text) if text else self._digit_px
        x = min(max(0, middle - width // 2), self._width - width)
        if text:
            return digits(self._ruler, text, self._digit_px, at=(x, y), is_bold=True)
        return Frame(Box(x, y, width, self._digit_px), max(2, self._digit_px // 16))

    def _width_of(self, text: str) -> int:
        return self._ruler.width_px(text, self._digit_px, is_bold=True)


def _number(value: int | None) -> str:
    return _UNKNOWN if value is None else str(value)
