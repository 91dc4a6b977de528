"""The sum and the field for its answer, in large print: on one line where they fit, otherwise the answer beneath."""

from collections.abc import Iterator
from dataclasses import dataclass

from saythesum.scene.scene import AnswerShown, Scene, SumShown
from saythesum.screen.shapes import Box, Frame, Ruler, Shape, digits, moved

_PADDING = 0.28
"""Between a number and the frame around it, in heights of a digit; so are the others."""
_GAP = 0.45
_FRAME = 0.05
_FOCUSED_FRAME = 0.11
_MEASURED_AT = 64


@dataclass(frozen=True, slots=True)
class SumBlock:
    """Its place is the same for every sum of a grid and every part: nothing jumps from one to the next."""

    shapes: tuple[Shape, ...]
    """From (0, 0)."""
    width_px: int
    height_px: int
    digit_px: int
    field: Box
    """Where the answer stands."""

    def at(self, x: int, y: int) -> tuple[Shape, ...]:
        return tuple(moved(shape, x, y) for shape in self.shapes)


@dataclass(frozen=True, slots=True)
class Asked:
    """What the block needs of a scene."""

    sum: SumShown
    answer: AnswerShown
    most_start_digits: int
    """Of any sum in the grid."""
    most_answer_digits: int


def asked_in(scene: Scene) -> Asked | None:
    """None where no sum is asked."""
    if scene.sum is None or scene.answer is None:
        return None
    longest_start = 0 if scene.grid.is_list else max((len(row.text) for row in scene.grid.rows), default=2)
    return Asked(scene.sum, scene.answer, longest_start, scene.grid.most_digits)


def sum_block(asked: Asked, digit_px: int, width: int, ruler: Ruler) -> SumBlock:
    """`width` decides between one line and two; the block may still come out wider."""
    one_line = _Measures(asked, digit_px, ruler, is_one_line=True)
    if one_line.width_px <= width:
        return one_line.block()
    return _Measures(asked, digit_px, ruler, is_one_line=False).block()


def largest_digits(asked: Asked, width: int, height: int, ruler: Ruler) -> int:
    """How large the sum can be where it has the whole of a space; 0 where it does not fit at all."""

    def fits(digit_px: int) -> bool:
        block = sum_block(asked, digit_px, width, ruler)
        return block.width_px <= width and block.height_px <= height

    found = max(0, min(height, max(_guessed(asked, width, height, ruler))))
    while found and not fits(found):
        found -= 1
    while found < height and fits(found + 1):
        found += 1
    return found


def _guessed(asked: Asked, width: int, height: int, ruler: Ruler) -> Iterator[int]:
    """Sizes grow in proportion, so that one measure of each arrangement gives a guess."""
    for is_one_line in (True, False):
        block = _Measures(asked, _MEASURED_AT, ruler, is_one_line=is_one_line).block()
        yield int(_MEASURED_AT * min(width / block.width_px, height / block.height_px))


class _Measures:
    def __init__(self, asked: Asked, digit_px: int, ruler: Ruler, *, is_one_line: bool) -> None:
        self._asked = asked
        self._digit_px = digit_px
        self._ruler = ruler
        self._is_one_line = is_one_line
        self._gap = round(_GAP * digit_px)
        self._padding = max(3, round(_PADDING * digit_px))
        widest_digit = max(ruler.width_px(digit, digit_px) for digit in "0123456789")
        self._sum_width = max(
            ruler.width_px(asked.sum.text, digit_px),
            asked.most_start_digits * widest_digit + ruler.width_px(" + 8", digit_px),
        )
        self._equals_width = ruler.width_px("=", digit_px)
        self._field_width = (asked.most_answer_digits + 1) * widest_digit + 2 * self._padding
        self._field_height = digit_px + 2 * self._padding

    @property
    def width_px(self) -> int:
        return max(self._sum_width, self._field_x + self._field_width)

    @property
    def _field_x(self) -> int:
        before = self._sum_width + self._gap if self._is_one_line else 0
        return before + self._equals_width + self._gap

    def block(self) -> SumBlock:
        sum_y, field_y = (self._padding, 0) if self._is_one_line else (0, self._digit_px + self._gap)
        digits_y = field_y + self._padding
        field = Box(self._field_x, field_y, self._field_width, self._field_height)
        shapes: list[Shape] = [
            self._frame(field),
            digits(self._ruler, self._asked.sum.text, self._digit_px, at=(0, sum_y)),
        ]
        if self._asked.answer.is_of_sum:
            equals_x = field.x - self._gap - self._equals_width
            shapes.append(digits(self._ruler, "=", self._digit_px, at=(equals_x, digits_y)))
        shapes += self._answer(field, digits_y)
        return SumBlock(tuple(shapes), self.width_px, field.bottom, self._digit_px, field)

    def _frame(self, field: Box) -> Frame:
        """Where Tab is shows by its thickness, and by its colour only besides."""
        is_focused = self._asked.answer.is_focused
        thick = round((_FOCUSED_FRAME if is_focused else _FRAME) * self._digit_px)
        return Frame(field, min(self._padding, max(2, thick)), is_mark=is_focused)

    def _answer(self, field: Box, digits_y: int) -> list[Shape]:
        """Larger than its field only where more was typed than any answer has: then it is set smaller."""
        text = self._asked.answer.text
        if not text:
            return []
        room = field.width - 2 * self._padding
        digit_px = self._digit_px
        while digit_px > 1 and self._ruler.width_px(text, digit_px) > room:
            digit_px -= max(1, digit_px // 20)
        if self._ruler.width_px(text, digit_px) > room:
            return []
        foot = digits_y + self._digit_px
        return [digits(self._ruler, text, digit_px, at=(field.x + self._padding, foot - digit_px))]
