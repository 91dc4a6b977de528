"""What is offered to a switch, in a frame at the window's foot: always in the same place, however long its name is."""

from dataclasses import dataclass

from saythesum.scene.scan import ScanShown
from saythesum.screen.shapes import Box, Button, Frame, Ruler, Shape, Words

_LONGEST = "Take back the last one"
"""Of all that is offered: its size is that of each."""
_OFFER_OF_TEXT = 1.8
_FRAME = 0.2
_PADDING = 0.35


@dataclass(frozen=True, slots=True)
class OfferBox:
    """Laid out like a bar of buttons, of which it takes the place; it never gives way."""

    offered: ScanShown
    digit_px: int
    width_px: int
    line_px: int

    @property
    def lines(self) -> tuple[str, ...]:
        return (self.offered.text,)

    @property
    def height_px(self) -> int:
        return self.line_px + 2 * (self._frame_px + self._padding_px)

    def with_lines(self, _count: int) -> "OfferBox":
        return self

    def at(self, x: int, y: int, ruler: Ruler) -> tuple[tuple[Shape, ...], tuple[Button, ...]]:
        """While something is offered its name is bold and the frame thick, in whatever colours."""
        is_on = bool(self.offered.text)
        thick = self._frame_px if is_on else max(2, self._frame_px // 3)
        frame = Frame(Box(x, y, self.width_px, self.height_px), thick, is_mark=is_on)
        if not is_on:
            return (frame,), ()
        inside = x + self._frame_px + 2 * self._padding_px
        width = ruler.width_px(self.offered.text, self.digit_px, is_bold=True)
        if inside + width > x + self.width_px - self._frame_px:  # a sliver of a window
            return (frame,), ()
        box = Box(inside, y + self._frame_px + self._padding_px, width, self.line_px)
        return (frame, Words(box, self.offered.text, self.digit_px, is_bold=True)), ()

    @property
    def _frame_px(self) -> int:
        return max(4, round(_FRAME * self.digit_px))

    @property
    def _padding_px(self) -> int:
        return round(_PADDING * self.digit_px)


def offer_box(offered: ScanShown, width: int, digits_px: tuple[int, int], ruler: Ruler) -> OfferBox:
    """`digits_px`: of all that is read beside the sum, and the least size; the longest name has room in it."""
    wished, least = round(digits_px[0] * _OFFER_OF_TEXT), digits_px[1]
    for digit_px in range(wished, least, -1):
        box = OfferBox(offered, digit_px, width, ruler.line_px(digit_px))
        sides = 2 * (box._frame_px + 2 * box._padding_px)
        if ruler.width_px(_LONGEST, digit_px, is_bold=True) + sides <= width:
            return box
    return OfferBox(offered, least, width, ruler.line_px(least))
