"""The font, by the height of its digits: fonts of one nominal size differ by a third in what is seen."""

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import pygame

FONTS = Path(__file__).parent / "fonts"
REGULAR = FONTS / "AtkinsonHyperlegible-Regular.ttf"
BOLD = FONTS / "AtkinsonHyperlegible-Bold.ttf"
_MEASURED_AT = 400
"""A nominal size large enough for its digits to be measured to a quarter of a per cent."""
_TALLEST = "08"
"""Round digits stand out a little above and below the others."""


@dataclass(frozen=True, slots=True)
class Sized:
    font: pygame.font.Font
    digits: pygame.Rect
    """Where digits stand in a rendered line."""


class Lettering:
    """Measures and draws words. pygame's own font stands in for one that cannot be read.

    Use it after `pygame.font.init()`.
    """

    def __init__(self, regular: Path = REGULAR, bold: Path = BOLD) -> None:
        self.notice = ""
        """A sentence for the adult where a font had to be replaced."""
        self._regular = self._readable(regular)
        self._bold = self._readable(bold)
        self._nominal = {path: _MEASURED_AT / _opened(path, _MEASURED_AT).digits.height for path in self._paths}
        self._fitted = lru_cache(maxsize=128)(self._fit)

    def width_px(self, text: str, digit_px: int, *, is_bold: bool = False) -> int:
        return self.sized(digit_px, is_bold=is_bold).font.size(text)[0]

    def line_px(self, digit_px: int) -> int:
        return max(self._fitted(path, digit_px).font.get_height() for path in self._paths)

    def sized(self, digit_px: int, *, is_bold: bool = False) -> Sized:
        return self._fitted(self._bold if is_bold else self._regular, digit_px)

    @property
    def _paths(self) -> tuple[Path | None, Path | None]:
        return self._regular, self._bold

    def _readable(self, path: Path) -> Path | None:
        try:
            _opened(path, _MEASURED_AT)
        except (OSError, pygame.error):
            self.notice = f"The font {path.name} cannot be read, so a plainer one is used: install the program again."
            return None
        return path

    def _fit(self, path: Path | None, digit_px: int) -> Sized:
        """The largest size whose digits are no higher: rounding makes a pixel or two of difference."""
        nominal = round(digit_px * self._nominal[path]) + 1
        sized = _opened(path, nominal)
        while sized.digits.height > digit_px and nominal > 1:
            nominal -= 1
            sized = _opened(path, nominal)
        return sized


def _opened(path: Path | None, nominal: int) -> Sized:
    font = pygame.font.Font(path, nominal)
    return Sized(font, font.render(_TALLEST, True, (0, 0, 0)).get_bounding_rect())
