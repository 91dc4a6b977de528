"""The font, by the height of its digits: fonts of one nominal size differ by a third in what is seen."""

from functools import lru_cache
from pathlib import Path

import pygame

FONTS = Path(__file__).parent / "fonts"
REGULAR = FONTS / "AtkinsonHyperlegible-Regular.ttf"
BOLD = FONTS / "AtkinsonHyperlegible-Bold.ttf"
_MEASURED_AT = 400
"""A nominal size large enough for its digits to be measured to a quarter of a per cent."""
_DIGITS = "0123456789"


class Lettering:
    """Measures and draws words. pygame's own font stands in for one that cannot be read.

    Use it after `pygame.font.init()`.
    """

    def __init__(self, regular: Path = REGULAR, bold: Path = BOLD) -> None:
        self.notice = ""
        """A sentence for the adult where a font had to be replaced."""
        self._regular = self._readable(regular)
        self._bold = self._readable(bold)
        self._sized = lru_cache(maxsize=64)(self._open)
        self._nominal = {path: self._nominal_for_a_pixel(path) for path in (self._regular, self._bold)}

    def width_px(self, text: str, digit_px: int, *, is_bold: bool = False) -> int:
        return self.font(digit_px, is_bold=is_bold).size(text)[0]

    def line_px(self, digit_px: int) -> int:
        return max(self.font(digit_px, is_bold=is_bold).get_height() for is_bold in (False, True))

    def font(self, digit_px: int, *, is_bold: bool = False) -> pygame.font.Font:
        path = self._bold if is_bold else self._regular
        return self._sized(path, max(1, round(digit_px * self._nominal[path])))

    def digits_top_px(self, digit_px: int, *, is_bold: bool = False) -> int:
        """From the top of a rendered line to the top of its digits."""
        return self.font(digit_px, is_bold=is_bold).render(_DIGITS, True, (0, 0, 0)).get_bounding_rect().top

    def _readable(self, path: Path) -> Path | None:
        try:
            pygame.font.Font(path, 20)
        except (OSError, pygame.error):
            self.notice = f"The font {path.name} cannot be read, so a plainer one is used: install the program again."
            return None
        return path

    def _nominal_for_a_pixel(self, path: Path | None) -> float:
        rendered = pygame.font.Font(path, _MEASURED_AT).render(_DIGITS, True, (0, 0, 0))
        return _MEASURED_AT / rendered.get_bounding_rect().height

    def _open(self, path: Path | None, nominal: int) -> pygame.font.Font:
        return pygame.font.Font(path, nominal)
