"""The number line of a sheet as a drawing (SVG), in millimetres: its numbers never meet, whatever the print."""

from collections.abc import Iterator
from html import escape

from saythesum.reports.sheets.number_line import SheetNumberLine

_STROKE_EM = 0.09
"""Thick enough for those who see little; our own choice, about the stroke of the bold digits."""


def line_drawing(line: SheetNumberLine, width_mm: float, em_mm: float, name: str) -> str:
    """`name`: what a screen reader says of it. Lettering is `em_mm` large."""
    return _Drawing(line, width_mm, em_mm).svg(name)


class _Drawing:
    def __init__(self, line: SheetNumberLine, width_mm: float, em_mm: float) -> None:
        self._line, self._width, self._em = line, width_mm, em_mm
        self._left = 1.2 * em_mm
        self._one = (width_mm - 2 * self._left) / (line.last - line.first)
        jumps = len(line.jumps)
        self._axis = (1.4 * jumps + (1.0 if jumps else 0.5)) * em_mm
        """The line itself, below the jumps and what is written over them, each in a row of its own."""
        self._height = self._axis + 4.6 * em_mm

    def svg(self, name: str) -> str:
        parts = "".join(self._parts())
        size = f'width="{self._width:.1f}mm" height="{self._height:.1f}mm"'
        box = f'viewBox="0 0 {self._width:.1f} {self._height:.1f}"'
        return (
            f'<svg class="line" role="img" {size} {box} xmlns="http://www.w3.org/2000/svg">'
            f"<title>{escape(name)}</title>{parts}</svg>"
        )

    def _parts(self) -> Iterator[str]:
        line = self._line
        yield self._stroke(f"M{self._x(line.first):.1f} {self._axis:.1f}H{self._x(line.last):.1f}")
        for number in line.numbers:
            half = (0.45 if number % 10 == 0 else 0.22) * self._em
            yield self._stroke(f"M{self._x(number):.1f} {self._axis - half:.1f}v{2 * half:.1f}")
        for place, jump in enumerate(line.jumps):
            yield from self._jump(place, jump.begins, jump.lands, "" if jump.by is None else f"{line.sign}{jump.by}")
        yield from self._number(line.start, 0)
        for ten in line.tens:
            yield from self._number(ten, 1) if ten != line.start else ()
        if line.total is not None and line.total not in line.tens:
            yield from self._number(line.total, 2)

    def _jump(self, place: int, begins: int, lands: int, text: str) -> Iterator[str]:
        """An arc, and over it how far it goes, or a box to write that in."""
        x, end = self._x(begins), self._x(lands)
        base = self._axis - 0.5 * self._em
        top = base - 0.5 * self._em
        middle, label = (x + end) / 2, 1.4 * self._em * (place + 1) - 0.3 * self._em
        yield self._stroke(f"M{x:.1f} {base:.1f}Q{middle:.1f} {2 * top - base:.1f} {end:.1f} {base:.1f}")
        yield self._stroke(f"M{middle:.1f} {top:.1f}V{label + 0.2 * self._em:.1f}", thin=True)
        if text:
            yield self._text(middle, label, text)
        else:
            wide = 1.6 * self._em
            left, foot, tall = middle - wide / 2, label + 0.2 * self._em, 1.1 * self._em
            yield self._stroke(f"M{left:.1f} {foot:.1f}h{wide:.1f}v-{tall:.1f}h-{wide:.1f}z")

    def _number(self, number: int, row: int) -> Iterator[str]:
        """Each row of numbers has a line up to its place."""
        y = self._axis + (1.5 + 1.35 * row) * self._em
        if row:
            from_y, to_y = self._axis + 0.5 * self._em, y - 0.85 * self._em
            yield self._stroke(f"M{self._x(number):.1f} {from_y:.1f}V{to_y:.1f}", thin=True)
        yield self._text(self._x(number), y, str(number))

    def _x(self, number: int) -> float:
        return self._left + (number - self._line.first) * self._one

    def _stroke(self, path: str, *, thin: bool = False) -> str:
        width = _STROKE_EM * self._em / (3 if thin else 1)
        return f'<path d="{path}" fill="none" stroke="currentColor" stroke-width="{width:.2f}"/>'

    def _text(self, x: float, y: float, text: str) -> str:
        lettering = f'font-family="Andika, Arial" font-weight="bold" font-size="{self._em:.2f}"'
        return f'<text x="{x:.1f}" y="{y:.1f}" {lettering} text-anchor="middle" fill="currentColor">{text}</text>'
