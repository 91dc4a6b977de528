"""Where everything stands in a window of a given size, as values: nothing is cut off, nothing overlaps.

The sum keeps the size that was chosen, or what the window can hold. Where room is short, the caption gets smaller,
then these go, in this order: the lines of buttons (the focused one last), the grid or number line, the turn's line,
lines of the caption, the caption.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import IntEnum

from saythesum.scene.scene import Now, Scene, VerdictShown
from saythesum.screen.buttons import LEAST_TARGET_PX, ButtonBar, button_bar
from saythesum.screen.captions import Paragraph, paragraph, pitch_px
from saythesum.screen.look import LAST_STEP, Look
from saythesum.screen.pictures import Picture, grid_picture, line_picture
from saythesum.screen.shapes import Box, Button, Frame, Ruler, Shape, Words, words
from saythesum.screen.sum_block import SumBlock, largest_digits, sum_block

LARGE_PRINT_PX = 23
"""The height of a digit in N24 print at 96 dots an inch: 24 points of Arial, whose digits are 0.716 of it high.

At 50 cm that is 0.7 degrees. Source: EN 301 549, 5.1.4; N24 is what England's modified large print tests use.
"""
LARGE_PRINT_OF_HEIGHT = 0.03
"""The same print on windows with more dots: 23 of 768."""
LEAST_PX = 14  # where LARGE_PRINT_PX is 23
"""The smallest a caption or a button gets: N14, clear print."""
_CAPTION_OF_SUM = 0.32
_BELOW_SUM = 0.35
_CAPTION_LINES = 3
_CAPTION_LINES_BY_PICTURE = 2
"""Room kept for the caption, in lines of its wished size: what stands above it stays where it is."""
_PICTURE_OF_SUM = {"grid": 0.36, "number line": 0.42}
"""How large digits are beside a picture, against the sum alone: so that at the first size three rows of three fit."""


@dataclass(frozen=True, slots=True)
class Layout:
    width: int
    height: int
    shapes: tuple[Shape, ...]
    buttons: tuple[Button, ...]
    sum_px: int
    """The height of the sum's digits; 0 where the window is too small for any."""
    caption_px: int
    """Of the caption's digits; 0 where it was left out."""
    is_caption_whole: bool


def verdict_line(verdict: VerdictShown) -> str:
    between = " = " if verdict.is_right else ": "
    return f"{verdict.sum}{between}{verdict.answer}. {verdict.words}"


def lay_out(scene: Scene, width: int, height: int, look: Look, ruler: Ruler) -> Layout:
    window = _Window(scene, width, height, look, ruler)
    if look.view == "one cell" or look.step == LAST_STEP or not scene.sum:
        return window.one_cell()
    for plan in window.plans:
        if layout := window.tried(plan):
            return layout
    return window.one_cell()


class _Much(IntEnum):
    """How much is shown of something."""

    NONE = 0
    SOME = 1
    ALL = 2


@dataclass(frozen=True, slots=True)
class _Plan:
    button_lines: int
    picture: _Much
    has_now: bool = True
    caption: _Much = _Much.ALL


def _plans(lines: int, *, has_picture: bool) -> Iterator[_Plan]:
    """From everything to the sum alone."""
    pictures = (_Much.ALL, _Much.SOME, _Much.NONE) if has_picture else (_Much.NONE,)
    for picture in pictures:
        for button_lines in range(lines, -1, -1):
            yield _Plan(button_lines, picture)
    for caption in (_Much.ALL, _Much.SOME, _Much.NONE):
        yield _Plan(0, _Much.NONE, has_now=False, caption=caption)


class _Window:
    def __init__(self, scene: Scene, width: int, height: int, look: Look, ruler: Ruler) -> None:
        self.scene, self.width, self.height, self.look, self.ruler = scene, width, height, look, ruler
        self.caption = f"{verdict_line(scene.verdict)} {scene.caption}".strip() if scene.verdict else scene.caption
        self.large_px = max(LARGE_PRINT_PX, round(height * LARGE_PRINT_OF_HEIGHT))
        self.least_px = round(LEAST_PX * self.large_px / LARGE_PRINT_PX)
        self.margin = max(4, min(width, height) // 28)
        self.room = (max(1, width - 2 * self.margin), max(1, height - 2 * self.margin))
        self.gap = max(4, self.large_px // 2)
        self.fills_px = largest_digits(scene, *self.room, ruler, least_label_px=self.large_px)
        self.sum_px = look.digit_px(min(self.large_px, self.fills_px), self.fills_px)
        self.view = "grid" if scene.shows_grid else look.view
        self.bar = self._bar()
        self.plans = _plans(len(self.bar.lines), has_picture=self.view in _PICTURE_OF_SUM)

    def one_cell(self) -> Layout:
        """One thing, as large as it can be: the cell, or in words that nothing is asked now."""
        if not self.scene.sum:
            return self._question() if self.scene.choice else self._only_words(self.caption)
        if self.scene.now in (Now.ADULTS_TURN, Now.PAUSED):
            return self._only_words(self.scene.now_words)
        if not self.fills_px:
            return Layout(self.width, self.height, (), (), 0, 0, is_caption_whole=False)
        block = self._block(self.fills_px)
        at = (self.width - block.width_px) // 2, (self.height - block.height_px) // 2
        return Layout(self.width, self.height, block.at(*at), (), self.fills_px, 0, is_caption_whole=False)

    def tried(self, plan: _Plan) -> Layout | None:
        """None where this does not fit."""
        if not self.sum_px:
            return None
        block = self._block(self._digit_px(plan))
        bar = self.bar.with_lines(plan.button_lines)
        top = self.margin + (self._now_height() if plan.has_now else 0)
        foot = self.height - self.margin - (bar.height_px + self.gap if bar.lines else 0)
        free = foot - top - block.height_px
        caption = self._caption(plan, free - self._below_sum(block))
        if free < 0 or block.width_px > self.room[0] or caption is None:
            return None
        kept = max(caption.height_px, self._own_caption_room(plan)) + self.gap + self._below_sum(block)
        picture = self._picture(free - kept, self._digit_px(plan)) if plan.picture else None
        if _shown(picture) < plan.picture:
            return None
        used = (picture.height_px + self.gap if picture else 0) + kept
        return self._composed(plan, bar, block, caption, picture, spare=max(0, free - used))

    # ---- parts

    def _bar(self) -> ButtonBar:
        least = round(LEAST_TARGET_PX * self.large_px / LARGE_PRINT_PX)
        return button_bar(self.scene.buttons, self.room[0], (self.large_px, self.least_px), self.ruler, least_px=least)

    def _block(self, digit_px: int) -> SumBlock:
        least_label = min(self.large_px, digit_px)
        return sum_block(self.scene, digit_px, self.room[0], self.ruler, least_label_px=least_label)

    def _now_height(self) -> int:
        return self.ruler.line_px(self.large_px) + 2 * self.gap

    def _digit_px(self, plan: _Plan) -> int:
        """Of the sum, and of the picture beside it."""
        if not plan.picture:
            return self.sum_px
        return max(min(self.large_px, self.sum_px), round(self.sum_px * _PICTURE_OF_SUM[self.view]))

    def _caption_px(self, plan: _Plan) -> int:
        return max(self.large_px, round(self._digit_px(plan) * _CAPTION_OF_SUM))

    def _own_caption_room(self, plan: _Plan) -> int:
        lines = _CAPTION_LINES_BY_PICTURE if plan.picture else _CAPTION_LINES
        return lines * pitch_px(self._caption_px(plan), self.ruler)

    def _now(self, x: int, y: int) -> list[Words]:
        """Smaller where it would not fit, and nothing where it still does not."""
        sizes = (self.large_px, self.least_px)
        made = (words(self.ruler, self.scene.now_words, digit_px, at=(x, y)) for digit_px in sizes)
        return [now for now in made if now.box.width <= self.room[0]][:1]

    def _caption(self, plan: _Plan, room: int) -> Paragraph | None:
        """In the room that is always kept for it where it fits there, smaller at worst; else in all there is."""
        if not plan.caption or not self.caption:
            return Paragraph((), 0, 0)
        wished = self._caption_px(plan)
        own_room = min(room, self._own_caption_room(plan))
        best = paragraph(self.caption, (self.room[0], own_room), (wished, self.least_px), self.ruler)
        if not best.is_whole and own_room < room:
            best = paragraph(self.caption, (self.room[0], room), (self.least_px, self.least_px), self.ruler)
        if best.is_whole or (plan.caption is _Much.SOME and best.lines):
            return best
        return None

    def _picture(self, height: int, digit_px: int) -> Picture | None:
        size = (self.room[0], height)
        if self.view == "number line":
            return line_picture(self.scene.line, size, digit_px, self.ruler) if self.scene.line else None
        return grid_picture(self.scene.grid, size, digit_px, self.ruler, label_px=self.large_px)

    # ---- all of it

    def _below_sum(self, block: SumBlock) -> int:
        return max(self.gap, round(block.digit_px * _BELOW_SUM))

    def _composed(
        self, plan: _Plan, bar: ButtonBar, block: SumBlock, caption: Paragraph, picture: Picture | None, *, spare: int
    ) -> Layout:
        """`spare`: height that nothing needs; a third of it goes above the sum, the rest below the caption."""
        shapes: list[Shape] = []
        left, y = self.margin, self.margin
        if plan.has_now:
            shapes += self._now(left, y)
            y += self._now_height()
        if picture:
            shapes += picture.at(left, y)
            y += picture.height_px + self.gap
        y += spare // 3
        shapes += block.at(left, y)
        y += block.height_px + self._below_sum(block)
        shapes += caption.set_at(left, y, self.ruler)
        bar_shapes, targets = bar.at(left, self.height - self.margin - bar.height_px, self.ruler)
        return Layout(
            self.width,
            self.height,
            (*shapes, *bar_shapes),
            targets,
            block.digit_px,
            caption.digit_px,
            caption.is_whole,
        )

    def _question(self) -> Layout:
        """What is asked, and framed beneath it the answer so far, where there is room for both."""
        width, height = self.room
        frame_px = max(3, self.large_px // 6)
        edge = self.gap + frame_px
        digits_px = (max(self.least_px, self.height // 9), self.least_px)
        asked = paragraph(self.caption, (width, round(0.6 * height)), digits_px, self.ruler)
        left = height - asked.height_px - self.gap - 2 * edge
        answer = paragraph(self.scene.choice, (width - 2 * edge, left), digits_px, self.ruler)
        if not (asked.is_whole and answer.is_whole):
            return self._only_words(self.caption)
        answer_width = max(self.ruler.width_px(line, answer.digit_px) for line in answer.lines)
        y = self.margin + (left - answer.height_px) // 2
        box_y = y + asked.height_px + self.gap
        frame = Frame(
            Box(self.margin, box_y, answer_width + 2 * edge, answer.height_px + 2 * edge), frame_px, is_mark=True
        )
        words_asked = asked.set_at(self.margin, y, self.ruler)
        words_answered = answer.set_at(self.margin + edge, box_y + edge, self.ruler)
        shapes: tuple[Shape, ...] = (*words_asked, frame, *words_answered)
        return Layout(self.width, self.height, shapes, (), 0, asked.digit_px, is_caption_whole=True)

    def _only_words(self, text: str) -> Layout:
        largest = max(self.least_px, self.height // 8)
        told = paragraph(text, self.room, (largest, self.least_px), self.ruler)
        y = (self.height - told.height_px) // 2
        return Layout(
            self.width, self.height, told.set_at(self.margin, y, self.ruler), (), 0, told.digit_px, told.is_whole
        )


def _shown(picture: Picture | None) -> _Much:
    if picture is None:
        return _Much.NONE
    return _Much.ALL if picture.is_whole else _Much.SOME
