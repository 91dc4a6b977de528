"""Bars as a drawing (SVG): each part has a shade and its number in it, so that black and white print loses nothing."""

from collections.abc import Iterator
from html import escape

from saythesum.reports.page import Bars

WIDTH, BAR, GAP, LABEL, LETTERING = 640, 20, 8, 110, 13
"""In the drawing's own units, which a page scales."""
_SHADES = ("#ffffff", "#d9d9d9", "#b3b3b3", "#8c8c8c", "#595959", "#262626")
"""Light is least. What is written on the last two is white: at least 7 to 1 (WCAG 2.2, 1.4.6)."""
_LIGHT_FROM = 4
_PARTS_A_LINE = 3


def bars_drawing(bars: Bars, id: str) -> str:
    """Its title and description are what a screen reader says of it; the table beside it has every number."""
    height = (len(bars.rows) + _legend_lines(bars)) * (BAR + GAP) + GAP
    said = f'<title id="{id}-t">{escape(bars.title)}</title><desc id="{id}-d">{escape(bars.about)}</desc>'
    return (
        f'<svg role="img" aria-labelledby="{id}-t {id}-d" viewBox="0 0 {WIDTH} {height}" '
        f'xmlns="http://www.w3.org/2000/svg">{said}{"".join(_legend(bars))}{"".join(_rows(bars))}</svg>'
    )


def _legend(bars: Bars) -> Iterator[str]:
    for place, part in enumerate(bars.parts):
        line, column = divmod(place, _PARTS_A_LINE)
        x, y = column * WIDTH / _PARTS_A_LINE, line * (BAR + GAP)
        yield _box(x, y, BAR, place)
        yield _text(x + BAR + 4, y, part)


def _legend_lines(bars: Bars) -> int:
    return -(-len(bars.parts) // _PARTS_A_LINE)


def _rows(bars: Bars) -> Iterator[str]:
    most = max((sum(counts) for _, counts in bars.rows), default=0) or 1
    a_sum = (WIDTH - LABEL) / most
    for number, (label, counts) in enumerate(bars.rows, _legend_lines(bars)):
        y = number * (BAR + GAP) + GAP
        yield _text(0, y, label)
        x = float(LABEL)
        for place, count in enumerate(counts):
            if count:
                wide = count * a_sum
                yield _box(x, y, wide, place)
                fits = wide > LETTERING * (len(str(count)) + 0.5)
                yield _text(x + 4, y, str(count), light=place >= _LIGHT_FROM) if fits else ""
                x += wide


def _box(x: float, y: float, wide: float, place: int) -> str:
    fill = _SHADES[place % len(_SHADES)]
    return f'<rect x="{x:.1f}" y="{y}" width="{wide:.1f}" height="{BAR}" fill="{fill}" stroke="#000000"/>'


def _text(x: float, y: float, text: str, *, light: bool = False) -> str:
    fill = "#ffffff" if light else "#000000"
    return f'<text x="{x:.1f}" y="{y + BAR - 5}" font-size="{LETTERING}" fill="{fill}">{escape(text)}</text>'
