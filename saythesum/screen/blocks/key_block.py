"""Keys as buttons in rows of one width: the number pad, and the keys of a page on which no sum is asked."""

from dataclasses import dataclass, replace

from saythesum.scene.number_pad import PadKeyShown, PadRows
from saythesum.screen.shapes import Box, Button, Frame, Ruler, Shape, moved, words

_GAP = 0.4
"""Between two keys, in heights of a digit; so is the next."""
_SIDES = 0.6


@dataclass(frozen=True, slots=True)
class KeyBlock:
    width_px: int
    height_px: int
    shapes: tuple[Shape, ...]
    """From (0, 0)."""
    buttons: tuple[Button, ...]

    def at(self, x: int, y: int) -> tuple[tuple[Shape, ...], tuple[Button, ...]]:
        buttons = (Button(button.presses, _moved(button.box, x, y)) for button in self.buttons)
        return tuple(moved(shape, x, y) for shape in self.shapes), tuple(buttons)


def key_block(rows: PadRows, digit_px: int, ruler: Ruler, *, least_px: int) -> KeyBlock:
    """`least_px`: of a target, either way."""
    gap = max(4, round(_GAP * digit_px))
    height = max(least_px, ruler.line_px(digit_px) + round(_GAP * digit_px))
    needed = [[_key_px(key, digit_px, ruler, least_px) for key in row] for row in rows]
    width = max(sum(widths) + max(0, len(widths) - 1) * gap for widths in needed)
    shapes: list[Shape] = []
    buttons: list[Button] = []
    for place, row in enumerate(rows):
        spare = width - sum(needed[place]) - (len(row) - 1) * gap
        left = 0
        for key, key_px in zip(row, needed[place], strict=True):
            box = Box(left, place * (height + gap), key_px + spare // len(row), height)
            shapes += _shapes(key, box, digit_px, ruler)
            buttons.append(Button(key, box))
            left = box.right + gap
    return KeyBlock(width, len(rows) * (height + gap) - gap, tuple(shapes), tuple(buttons))


def _key_px(key: PadKeyShown, digit_px: int, ruler: Ruler, least_px: int) -> int:
    return max(least_px, ruler.width_px(key.text, digit_px) + 2 * round(_SIDES * digit_px))


def _shapes(key: PadKeyShown, box: Box, digit_px: int, ruler: Ruler) -> tuple[Shape, ...]:
    width = ruler.width_px(key.text, digit_px)
    at = (box.x + (box.width - width) // 2, box.y + (box.height - ruler.line_px(digit_px)) // 2)
    return Frame(box, max(2, digit_px // 12)), words(ruler, key.text, digit_px, at=at)


def _moved(box: Box, x: int, y: int) -> Box:
    return replace(box, x=box.x + x, y=box.y + y)
