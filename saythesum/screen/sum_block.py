"""The sum and the box for its answer, in large print: on one line where they fit, else the answer beneath."""

from collections.abc import Iterator
from dataclasses import dataclass

from saythesum.scene.scene import PART_WORDS, Scene
from saythesum.screen.shapes import Box, Frame, Ruler, Shape, digits, moved, words

_PADDING = 0.28
"""Between a number and the frame around it, in heights of a digit; so are the others."""
_GAP = 0.45
_FRAME = 0.06
_MEASURED_AT = 64
_LABEL = 0.3
"""The name of a guided part, against the sum."""


@dataclass(frozen=True, slots=True)
class SumBlock:
    """Its place is the same for every sum of a grid and every part: nothing jumps from one to the next."""

    shapes: tuple[Shape, ...]
    """From (0, 0)."""
    width_px: int
    height_px: int
    digit_px: int

    def at(self, x: int, y: int) -> tuple[Shape, ...]:
        return tuple(moved(shape, x, y) for shape in self.shapes)


def sum_block(scene: Scene, digit_px: int, width: int, ruler: Ruler, *, least_label_px: int) -> SumBlock:
    """`width` decides between one line and two; the block may still come out wider."""
    label_px = _label_px(max(least_label_px, round(_LABEL * digit_px)), width, ruler)
    one_line = _Measures(scene, digit_px, ruler, label_px, is_one_line=True)
    if one_line.width_px <= width:
        return one_line.block()
    return _Measures(scene, digit_px, ruler, label_px, is_one_line=False).block()


def largest_digits(scene: Scene, width: int, height: int, ruler: Ruler, *, least_label_px: int) -> int:
    """How large the sum can be where it fills the whole of a space; 0 where it does not fit at all."""

    def fits(digit_px: int) -> bool:
        block = sum_block(scene, digit_px, width, ruler, least_label_px=min(least_label_px, digit_px))
        return block.width_px <= width and block.height_px <= height

    found = min(height, max(_guessed(scene, width, height, ruler)))
    while found and not fits(found):
        found -= 1
    while found < height and fits(found + 1):
        found += 1
    return found


def _guessed(scene: Scene, width: int, height: int, ruler: Ruler) -> Iterator[int]:
    """Sizes grow in proportion, so that one measure of each arrangement gives a guess."""
    label_px = round(_LABEL * _MEASURED_AT)
    for is_one_line in (True, False):
        block = _Measures(scene, _MEASURED_AT, ruler, label_px, is_one_line=is_one_line).block()
        yield int(_MEASURED_AT * min(width / block.width_px, height / block.height_px))


def _label_px(wished_px: int, width: int, ruler: Ruler) -> int:
    """Smaller where the longest name of a part would be wider than the window."""
    longest = max(ruler.width_px(name, wished_px, is_bold=True) for name in PART_WORDS.values())
    return wished_px if longest <= width else max(1, int(wished_px * 0.98 * width / longest))


class _Measures:
    def __init__(self, scene: Scene, digit_px: int, ruler: Ruler, label_px: int, *, is_one_line: bool) -> None:
        self._scene = scene
        self._digit_px = digit_px
        self._ruler = ruler
        self._label_px = label_px
        self._is_one_line = is_one_line
        self._gap = round(_GAP * digit_px)
        self._padding = max(2, round(_PADDING * digit_px))
        widest_digit = max(ruler.width_px(digit, digit_px) for digit in "0123456789")
        self._sum_width = max(
            ruler.width_px(scene.sum, digit_px),
            max(map(len, scene.grid.starts)) * widest_digit + ruler.width_px(" + 8", digit_px),
        )
        self._equals_width = ruler.width_px("=", digit_px)
        self._box_width = (scene.grid.most_digits + 1) * widest_digit + 2 * self._padding
        self._box_height = digit_px + 2 * self._padding

    @property
    def width_px(self) -> int:
        answer_right = self._box_x + self._box_width
        return max(self._sum_width, answer_right)

    @property
    def _box_x(self) -> int:
        before = self._sum_width + self._gap if self._is_one_line else 0
        return before + self._equals_width + self._gap

    def block(self) -> SumBlock:
        """From top to foot: on one line the part's name, then sum and box; else sum, part's name, box."""
        name_height = self._ruler.line_px(self._label_px)
        name_y, sum_y, box_y = self._heights(name_height)
        digits_y = box_y + self._padding
        box = Box(self._box_x, box_y, self._box_width, self._box_height)
        shapes: list[Shape] = [Frame(box, max(2, round(_FRAME * self._digit_px)))]
        if self._scene.sum:
            shapes.append(digits(self._ruler, self._scene.sum, self._digit_px, at=(0, sum_y)))
        if self._scene.is_whole and self._scene.sum:
            equals_x = box.x - self._gap - self._equals_width
            shapes.append(digits(self._ruler, "=", self._digit_px, at=(equals_x, digits_y)))
        shapes += self._answer(box, digits_y)
        if self._scene.part:
            name = words(self._ruler, self._scene.part, self._label_px, at=(0, name_y), is_bold=True)
            right_edge = max(self.width_px, name.box.width)
            shapes.append(moved(name, min(box.x, right_edge - name.box.width), 0))
        width = max(self.width_px, *(shape.box.right for shape in shapes))
        return SumBlock(tuple(shapes), width, box.bottom, self._digit_px)

    def _heights(self, name_height: int) -> tuple[int, int, int]:
        """Top edges of the part's name, of the sum and of the box."""
        between = round(self._gap / 3)
        if self._is_one_line:
            box_y = name_height + between
            return 0, box_y + self._padding, box_y
        name_y = self._digit_px + between
        return name_y, 0, name_y + name_height + between

    def _answer(self, box: Box, digits_y: int) -> list[Shape]:
        """Larger than its box only where more was typed than any answer has: then it is set smaller."""
        text = self._scene.answer
        if not text:
            return []
        room = box.width - 2 * self._padding
        digit_px = self._digit_px
        while digit_px > 1 and self._ruler.width_px(text, digit_px) > room:
            digit_px -= max(1, digit_px // 20)
        if self._ruler.width_px(text, digit_px) > room:
            return []
        foot = digits_y + self._digit_px
        return [digits(self._ruler, text, digit_px, at=(box.x + self._padding, foot - digit_px))]
