"""The named buttons in lines. The one that Tab is on has a thick frame, and its name is bold and underlined."""

from collections.abc import Sequence
from dataclasses import dataclass

from saythesum.scene.scene import ButtonShown
from saythesum.screen.shapes import Bar, Box, Button, Frame, Ruler, Shape, Words

LEAST_TARGET_PX = 44
"""Source: WCAG 2.2, success criterion 2.5.5 (enhanced), at 96 dots an inch."""


@dataclass(frozen=True, slots=True)
class ButtonBar:
    lines: tuple[tuple[ButtonShown, ...], ...]
    digit_px: int
    widths: tuple[tuple[int, ...], ...]
    button_height_px: int
    gap_px: int

    @property
    def height_px(self) -> int:
        count = len(self.lines)
        return count * self.button_height_px + (count - 1) * self.gap_px if count else 0

    def with_lines(self, count: int) -> "ButtonBar":
        """Fewer lines, the first ones, and the line of the button that Tab is on before all others."""
        focused = [place for place, line in enumerate(self.lines) if any(button.is_focused for button in line)]
        others = [place for place in range(len(self.lines)) if place not in focused]
        kept = sorted((focused + others)[:count])
        return ButtonBar(
            tuple(self.lines[place] for place in kept),
            self.digit_px,
            tuple(self.widths[place] for place in kept),
            self.button_height_px,
            self.gap_px,
        )

    def at(self, x: int, y: int, ruler: Ruler) -> tuple[tuple[Shape, ...], tuple[Button, ...]]:
        shapes: list[Shape] = []
        targets: list[Button] = []
        for line, widths in zip(self.lines, self.widths, strict=True):
            left = x
            for button, width in zip(line, widths, strict=True):
                box = Box(left, y, width, self.button_height_px)
                shapes += _shapes(button, box, self.digit_px, ruler)
                targets.append(Button(button.focus, box))
                left += width + self.gap_px
            y += self.button_height_px + self.gap_px
        return tuple(shapes), tuple(targets)


def button_bar(
    buttons: Sequence[ButtonShown], width: int, digits_px: tuple[int, int], ruler: Ruler, *, least_px: int
) -> ButtonBar:
    """`digits_px`: the wished for and the least size; `least_px`: of a target. No line where one does not fit."""
    wished, least = digits_px
    if not buttons:
        return ButtonBar((), least, (), least_px, 0)
    for digit_px in range(wished, least - 1, -1):
        widths = [max(least_px, _width(button, digit_px, ruler)) for button in buttons]
        if max(widths) <= width:
            height = max(least_px, ruler.line_px(digit_px) + 2 * _thick_px(digit_px))
            return _in_lines(buttons, widths, width, (digit_px, height))
    return ButtonBar((), least, (), least_px, 0)


def _in_lines(
    buttons: Sequence[ButtonShown], widths: Sequence[int], width: int, digit_and_height_px: tuple[int, int]
) -> ButtonBar:
    digit_px, height = digit_and_height_px
    gap = max(4, digit_px // 2)
    lines: list[list[ButtonShown]] = []
    line_widths: list[list[int]] = []
    left = width + 1
    for button, needed in zip(buttons, widths, strict=True):
        if left + needed > width:
            lines.append([])
            line_widths.append([])
            left = 0
        lines[-1].append(button)
        line_widths[-1].append(needed)
        left += needed + gap
    return ButtonBar(tuple(map(tuple, lines)), digit_px, tuple(map(tuple, line_widths)), height, gap)


def _thick_px(digit_px: int) -> int:
    """Of the frame that shows where Tab is."""
    return max(4, round(digit_px * 0.2))


def _width(button: ButtonShown, digit_px: int, ruler: Ruler) -> int:
    """The same whether Tab is on it or not: nothing moves with Tab."""
    sides = 2 * (_thick_px(digit_px) + round(digit_px * 0.6))
    return sides + ruler.width_px(button.name, digit_px, is_bold=True)


def _shapes(button: ButtonShown, box: Box, digit_px: int, ruler: Ruler) -> list[Shape]:
    thick = _thick_px(digit_px)
    width = ruler.width_px(button.name, digit_px, is_bold=button.is_focused)
    height = ruler.line_px(digit_px)
    at = Box(box.x + (box.width - width) // 2, box.y + (box.height - height) // 2, width, height)
    name = Words(at, button.name, digit_px, is_bold=button.is_focused)
    frame = Frame(box, thick if button.is_focused else max(2, digit_px // 12), is_mark=button.is_focused)
    if not button.is_focused:
        return [frame, name]
    underline = Box(at.x, at.bottom - thick // 2, width, max(2, thick // 2))
    return [frame, name, Bar(underline, is_mark=True)]
