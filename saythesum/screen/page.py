"""A window's room and its sizes of print, and the pages on which no sum is asked: words alone."""

from dataclasses import dataclass

from saythesum.scene.scene import Scene
from saythesum.screen.blocks.buttons import LEAST_TARGET_PX, button_bar
from saythesum.screen.blocks.captions import paragraph
from saythesum.screen.blocks.grid_picture import grid_picture
from saythesum.screen.blocks.key_block import key_block
from saythesum.screen.look import Look
from saythesum.screen.shapes import Box, Button, Frame, Ruler, Shape

LARGE_PRINT_PX = 23
"""The height of a digit in N24 print at 96 dots an inch: 24 points of Arial, whose digits are 0.716 of it high.

At 50 cm that is 0.7 degrees. Source: EN 301 549, 5.1.4; N24 is what England's modified large print tests use.
"""
LARGE_PRINT_OF_HEIGHT = 0.03
"""The same print on windows with more dots: 23 of 768."""
LEAST_PX = 14  # where LARGE_PRINT_PX is 23
"""The smallest a caption or a button gets: N14, clear print."""


_GRID_OF_ROOM = 0.55
"""While the pupil thinks about a pattern: the largest share of the height that the grid takes."""


@dataclass(frozen=True, slots=True)
class Layout:
    width: int
    height: int
    shapes: tuple[Shape, ...]
    buttons: tuple[Button, ...]
    """The answer's field is one, too: touched, it is as good as Enter."""
    sum_px: int
    """The height of the sum's digits; 0 where the window is too small for any."""
    caption_px: int
    """Of the caption's digits; 0 where it was left out."""
    is_caption_whole: bool


class Page:
    """A window of one size, for one scene at one size of print."""

    def __init__(self, scene: Scene, width: int, height: int, look: Look, ruler: Ruler) -> None:
        self.scene, self.width, self.height, self.look, self.ruler = scene, width, height, look, ruler
        self.large_px = max(LARGE_PRINT_PX, round(height * LARGE_PRINT_OF_HEIGHT))
        self.least_px = round(LEAST_PX * self.large_px / LARGE_PRINT_PX)
        self.margin = max(4, min(width, height) // 28)
        self.room = (max(1, width - 2 * self.margin), max(1, height - 2 * self.margin))
        self.gap = max(4, self.large_px // 2)
        self.text_px = look.text_px(self.large_px)
        self.least_target_px = round(LEAST_TARGET_PX * self.large_px / LARGE_PRINT_PX)

    def question(self) -> Layout:
        """What is asked, and framed beneath it the answer so far."""
        return self.framed(self.scene.caption.text, self.scene.choice)

    def framed(self, text: str, choice: str) -> Layout:
        """A text, and framed beneath it what can be chosen, where there is room for both; at the foot its keys."""
        width, whole_height = self.room
        keys = key_block([self.scene.keys], self.large_px, self.ruler, least_px=self.least_target_px)
        height = whole_height - keys.height_px - self.gap
        has_keys = bool(self.scene.keys) and keys.width_px <= width and height > whole_height // 2
        height = height if has_keys else whole_height
        frame_px = max(3, self.large_px // 6)
        edge = self.gap + frame_px
        digits_px = (max(self.least_px, self.height // 9), self.least_px)
        asked = paragraph(text, (width, round(0.6 * height)), digits_px, self.ruler)
        left = height - asked.height_px - self.gap - 2 * edge
        answer = paragraph(choice, (width - 2 * edge, left), digits_px, self.ruler)
        if not (asked.is_whole and answer.is_whole):
            return self.only_words(text)
        y = self.margin + (left - answer.height_px) // 2
        frame_y = y + asked.height_px + self.gap
        framed = Box(self.margin, frame_y, answer.width_px(self.ruler) + 2 * edge, answer.height_px + 2 * edge)
        words_asked = asked.set_at(self.margin, y, self.ruler)
        words_answered = answer.set_at(self.margin + edge, frame_y + edge, self.ruler)
        at = (self.margin, self.height - self.margin - keys.height_px)
        key_shapes, buttons = keys.at(*at) if has_keys else ((), ())
        shapes = (*words_asked, Frame(framed, frame_px, is_mark=True), *words_answered, *key_shapes)
        return Layout(self.width, self.height, shapes, buttons, 0, asked.digit_px, is_caption_whole=True)

    def lines(self, texts: tuple[str, ...]) -> Layout:
        """Each on a line of its own, or more where it is long; in the largest print in which all of them have room."""
        width, height = self.room
        for digit_px in range(max(self.least_px, self.height // 16), self.least_px - 1, -1):
            set_in = [paragraph(text, (width, height), (digit_px, digit_px), self.ruler) for text in texts]
            if sum(one.height_px + self.gap // 2 for one in set_in) <= height and all(one.is_whole for one in set_in):
                break
        y = self.margin
        shapes: list[Shape] = []
        for one in set_in:
            if y + one.height_px <= self.margin + height:
                shapes += one.set_at(self.margin, y, self.ruler)
            y += one.height_px + self.gap // 2
        return Layout(self.width, self.height, tuple(shapes), (), 0, digit_px, is_caption_whole=y <= self.height)

    def pause(self) -> Layout:
        """Whose turn it is, and what can be chosen meanwhile by switch."""
        offered = self.scene.offered.text if self.scene.offered else ""
        return self.framed(self.scene.now_words, offered) if offered else self.only_words(self.scene.now_words)

    def only_words(self, text: str) -> Layout:
        largest = max(self.least_px, self.height // 8)
        lines = paragraph(text, self.room, (largest, self.least_px), self.ruler)
        y = (self.height - lines.height_px) // 2
        shapes = lines.set_at(self.margin, y, self.ruler)
        return Layout(self.width, self.height, shapes, (), 0, lines.digit_px, lines.is_whole)


def page_of_thinking(page: Page) -> Layout:
    """The grid with what stands out in it, and what is said: nothing is asked, so there is no field for an answer. What
    is said goes before the grid, and the grid before the buttons, where there is no room for all."""
    width, height = page.room
    least_target = round(LEAST_TARGET_PX * page.large_px / LARGE_PRINT_PX)
    bar = button_bar(page.scene.buttons, width, (page.large_px, page.least_px), page.ruler, least_px=least_target)
    bar = bar.with_lines(max(1, min(len(bar.lines), 2)) if bar.lines else 0)
    left = height - bar.height_px - page.gap
    sizes = (page.text_px * 2, page.large_px)
    picture = grid_picture(
        page.scene.grid, (width, round(left * _GRID_OF_ROOM)), sizes, page.ruler, label_px=page.large_px
    )
    taken = picture.height_px + page.gap if picture else 0
    words = paragraph(page.scene.caption.text, (width, left - taken), (page.text_px, page.least_px), page.ruler)
    if picture is None or not words.is_whole:
        return page.only_words(page.scene.caption.text)
    shapes: list[Shape] = list(picture.at(page.margin, page.margin))
    shapes += words.set_at(page.margin, page.margin + taken, page.ruler)
    bar_shapes, targets = bar.at(page.margin, page.height - page.margin - bar.height_px, page.ruler)
    return Layout(page.width, page.height, (*shapes, *bar_shapes), targets, 0, words.digit_px, words.is_whole)
