"""Colour sets and their contrast. In none of them does a colour alone mean anything.

Source of the pairs: what teachers of pupils with low vision ask for (dark on light, light on dark for those whom glare
hurts, yellow on dark grounds, black on cream).
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeAlias

from saythesum import settings

Colour: TypeAlias = tuple[int, int, int]
"""Red, green and blue, 0 to 255 each (sRGB)."""

LEAST_TEXT_CONTRAST = 7.0
"""Source: WCAG 2.2, success criterion 1.4.6 (enhanced)."""
LEAST_SHAPE_CONTRAST = 3.0
"""Source: WCAG 2.2, success criteria 1.4.11 and 2.4.13."""


@dataclass(frozen=True, slots=True)
class Colours:
    ground: Colour
    ink: Colour
    """Everything that is read; turned round, ground on ink."""
    mark: Colour
    """Frames of the focus and of the current cell, jumps of the number line: shapes, never words."""


_BLACK: Colour = (0, 0, 0)
_WHITE: Colour = (255, 255, 255)
_YELLOW: Colour = (255, 255, 0)
_NAVY: Colour = (0, 0, 128)
_CREAM: Colour = (255, 253, 208)
_AMBER: Colour = (255, 176, 0)

COLOUR_SETS: Mapping[settings.Colours, Colours] = {
    "black on white": Colours(_WHITE, _BLACK, (0, 0, 255)),
    "white on black": Colours(_BLACK, _WHITE, _YELLOW),
    "yellow on black": Colours(_BLACK, _YELLOW, _WHITE),
    "amber on black": Colours(_BLACK, _AMBER, _WHITE),
    "black on cream": Colours(_CREAM, _BLACK, _NAVY),
    "yellow on navy": Colours(_NAVY, _YELLOW, _WHITE),
    "white on navy": Colours(_NAVY, _WHITE, _YELLOW),
}


def contrast(one: Colour, other: Colour) -> float:
    """1 to 21. Source: WCAG 2.2, definition of "contrast ratio"."""
    lighter, darker = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(colour: Colour) -> float:
    """Source: WCAG 2.2, definition of "relative luminance", with the threshold as corrected in May 2021."""
    red, green, blue = map(_linear, colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: int) -> float:
    part = channel / 255
    return part / 12.92 if part <= 0.04045 else float(((part + 0.055) / 1.055) ** 2.4)
