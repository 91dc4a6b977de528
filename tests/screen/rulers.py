"""A ruler without any font: every letter equally wide, wider than most are."""

from dataclasses import dataclass


@dataclass(frozen=True)
class PlainRuler:
    letter: float = 0.85
    line: float = 1.85

    def width_px(self, text: str, digit_px: int, *, is_bold: bool = False) -> int:
        return round(len(text) * digit_px * (self.letter + 0.05 * is_bold))

    def line_px(self, digit_px: int) -> int:
        return round(self.line * digit_px)
