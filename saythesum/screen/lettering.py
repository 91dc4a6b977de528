"""The font, by the height of its digits: fonts of one nominal size differ by a third in what is seen.

Andika was drawn for beginning readers: a plain zero, digits of one width, and no two letters that look alike.
"""

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import pygame

FONTS = Path(__file__).parent / "fonts"
REGULAR = FONTS / "Andika-Regular.ttf"
BOLD = FONTS / "Andika-Bold.ttf"
_MEASURED_AT = 400
"""A nominal size large enough for its digits to be measured to a quarter of a per cent."""
_TALLEST = "08"
"""Round digits stand out a little above and below the others."""
_LINE = "ÅÉÇgjpqy(|"
"""From its top to its foot is a line: the font's own height also has room for letters that English has not."""


@dataclass(frozen=True, slots=True)
class Extent:
    """In pixels, in what pygame renders."""

    top: int
    height: int


@dataclass(frozen=True, slots=True)
class Sized:
    font: pygame.font.Font
    digits: Extent
    """Where digits stand."""
    line: Extent
    """Where a line of words does."""


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
        self._width = lru_cache(maxsize=8192)(self._measured)
        self._fitted = lru_cache(maxsize=512)(self._fit)

    def width_px(self, text: str, digit_px: int, *, is_bold: bool = False) -> int:
        return self._width(text, digit_px, is_bold)

    def _measured(self, text: str, digit_px: int, is_bold: bool) -> int:
        return self.sized(digit_px, is_bold=is_bold).font.size(text)[0]

    def line_px(self, digit_px: int) -> int:
        return max(self._fitted(path, digit_px).line.height for path in self._paths)

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
    digits, line = (_extent(font, text) for text in (_TALLEST, _LINE))
    return Sized(font, digits, line)


def _extent(font: pygame.font.Font, text: str) -> Extent:
    """From the font's own measures: to render large letters only to measure them would take too long."""
    measured = [metrics for metrics in font.metrics(text) if metrics]
    if not measured:
        raise pygame.error("a file that opens as a font, and has no digits")
    highest, lowest = max(top for *_, top, _ in measured), min(foot for _, _, foot, *_ in measured)
    return Extent(font.get_ascent() - highest, highest - lowest)


def lettering_without_window() -> Lettering:
    """For pictures."""
    pygame.font.init()
    return Lettering()
