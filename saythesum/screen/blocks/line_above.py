"""What stands right above the sum: the verdict on the last answer, and above the field the name of the part asked."""

from saythesum.screen.blocks.captions import NOTHING, paragraph
from saythesum.screen.shapes import Ruler, Words


class LineAbove:
    """One line where both have room, otherwise one for each; its height is kept where there is neither."""

    def __init__(
        self,
        texts: tuple[str, str],
        field_x: int,
        size: tuple[int, int],
        digits_px: tuple[int, int],
        ruler: Ruler,
        *,
        has_one_line: bool,
    ) -> None:
        self._ruler, self._has_one_line = ruler, has_one_line
        self._verdict, self._part = (paragraph(text, size, digits_px, ruler) if text else NOTHING for text in texts)
        self._part_x = max(0, min(field_x, size[0] - self._part.width_px(ruler)))
        self._line_px = ruler.line_px(digits_px[0])
        self._gap = digits_px[0] // 3
        if self._part.lines and self._verdict.width_px(ruler) + self._gap > self._part_x:
            self._has_one_line = False

    @property
    def is_whole(self) -> bool:
        return self._verdict.is_whole and self._part.is_whole

    @property
    def height_px(self) -> int:
        verdict, part = (max(self._line_px, one.height_px) for one in (self._verdict, self._part))
        return (max(verdict, part) if self._has_one_line else verdict + self._gap + part) + self._gap

    def set_at(self, x: int, y: int) -> tuple[Words, ...]:
        foot = y + self.height_px - self._gap
        part = self._part.set_at(x + self._part_x, foot - self._part.height_px, self._ruler)
        if self._has_one_line:
            return (*self._verdict.set_at(x, foot - self._verdict.height_px, self._ruler), *part)
        return (*self._verdict.set_at(x, y, self._ruler), *part)
