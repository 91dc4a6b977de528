"""A ruler without any font, a little wider than most are."""

from dataclasses import dataclass


@dataclass(frozen=True)
class PlainRuler:
    letter: float = 0.68
    digit: float = 0.85
    line: float = 1.85

    def width_px(self, text: str, digit_px: int, *, is_bold: bool = False) -> int:
        digits = sum(sign.isdigit() for sign in text)
        signs = digits * self.digit + (len(text) - digits) * self.letter
        return round(digit_px * (signs + 0.05 * is_bold * len(text)))

    def line_px(self, digit_px: int) -> int:
        return round(self.line * digit_px)
