"""Where everything stands in a window of a given size, as values: nothing is cut off, nothing overlaps.

From top to foot: the grid or number line, the verdict with the name of the part that is asked, the sum with its answer,
the caption; at the window's foot whose turn it is, and the buttons. In a wide window the grid stands at the left of the
sum. Where room is short, these give way in this order: lines of buttons (the one that Tab is on comes first, so that
Tab turns their pages), the turn's line, the size of the sum down to that of the first step, the size of the caption
down to large print, the grid or number line, the size of the sum down to large print. Verdict, caption, answer and the
place of Tab are there in every window of 800 by 600 and more; in smaller ones the caption gets smaller and ends in "…",
and the sum stays longest. A number pad stands at the right where all that is said still has its room beside it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import IntEnum

from saythesum.keyboard.keys import Focus
from saythesum.scene.number_pad import PadRows
from saythesum.scene.scene import ButtonShown, Now, Scene
from saythesum.screen.beside_pad import pad_rows, says_as_much
from saythesum.screen.blocks.buttons import ButtonBar, button_bar
from saythesum.screen.blocks.captions import NOTHING, Paragraph, paragraph, pitch_px
from saythesum.screen.blocks.grid_picture import Picture, grid_height, grid_picture
from saythesum.screen.blocks.key_block import KeyBlock, key_block
from saythesum.screen.blocks.line_above import LineAbove
from saythesum.screen.blocks.line_picture import line_height, line_picture
from saythesum.screen.blocks.offer_box import OfferBox, offer_box
from saythesum.screen.blocks.sum_block import Asked, SumBlock, asked_in, largest_digits, sum_block
from saythesum.screen.look import FIRST_STEP, LAST_STEP, Look
from saythesum.screen.page import Layout, Page, page_of_thinking
from saythesum.screen.shapes import Box, Button, Ruler, Shape, Words, sizes_down, words

_CAPTION_LINES = 2
"""Room that the sum leaves for the caption at the first step."""
_HELP_LINES = 3
"""And at the larger ones, where there is nothing else."""
_VERDICT = "38 + 5: 45. Not yet."
"""Where one as long as this has no room beside the name of a part, each has a line of its own."""
_BUTTON_OF_TEXT = 0.85
_BESIDE_PICTURE = 0.55
"""How large the sum is beside a picture, against the sum alone."""
_LEAST_SUM_OF_TEXT = 2
"""How much larger than all that is read the sum should be."""
_WIDE = 1.5
"""Width to height: from there on the grid stands at the left of the sum."""
_LEAST_EXTRACT = 7
"""The height of a grid with one row, and of what says which row it is, in heights of a digit."""
_GRID_OF_TEXT = 2.2
"""The largest digits in a grid."""


def lay_out(scene: Scene, width: int, height: int, look: Look, ruler: Ruler) -> Layout:
    page = Page(scene, width, height, look, ruler)
    if scene.for_adult:
        return page.lines(scene.for_adult)
    asked = asked_in(scene)
    if asked is None and scene.pattern:
        return page_of_thinking(page)
    if asked is None:
        return page.question() if scene.choice else page.only_words(scene.caption.text)
    without = _WithSum(page, asked).layout()
    rows = pad_rows(scene, look)
    if not rows:
        return without
    beside_pad = _WithSum(page, asked, rows).layout()
    return beside_pad if says_as_much(beside_pad, without, page.large_px) else without


class _Extent(IntEnum):
    """How much of the picture is shown."""

    NONE = 0
    SOME = 1
    ALL = 2


@dataclass(frozen=True, slots=True)
class _Plan:
    """What is shown, and how small the rest may get for it."""

    button_lines: int
    picture: _Extent
    has_now: bool
    sum_px: int
    caption_px: tuple[int, int]
    """The wished for and the least size."""
    picture_px: int = 1
    """The least size of its digits."""
    is_caption_whole: bool = True


class _WithSum:
    """A window in which a sum is asked, or was answered last."""

    def __init__(self, page: Page, asked: Asked, pad_rows: PadRows = ()) -> None:
        self._page, self._asked, self._ruler, self._scene = page, asked, page.ruler, page.scene
        self._is_one_cell = page.look.view == "one cell" or page.look.step == LAST_STEP
        is_grid_open = self._scene.shows_grid or self._scene.pattern is not None
        self._view = "grid" if is_grid_open and not self._is_one_cell else page.look.view
        buttons = tuple(button for button in self._scene.buttons if button.is_focused or not self._is_one_cell)
        self._bar = self._button_bar(page.text_px, buttons)
        self._x, self._width = page.margin, page.room[0]
        self._pad = self._key_block(pad_rows) if pad_rows else None
        self._at_left = self._grid_at_left() if self._view == "grid" else None
        if self._pad:
            self._width = max(1, self._width - self._pad.width_px - 2 * page.gap)
        self._first_px = self._sum_px_at(Look(step=FIRST_STEP))

    def layout(self) -> Layout:
        if self._is_one_cell and self._scene.now in (Now.ADULTS_TURN, Now.PAUSED):
            return self._page.pause()
        for plan in self._one_cell_plans() if self._is_one_cell else self._plans():
            if layout := self._tried(plan):
                return layout
        return self._sum_alone()

    # ---- the plans, from everything to the sum alone

    def _plans(self) -> Iterator[_Plan]:
        page = self._page
        sum_px = self._sum_px_at(page.look)
        if self._view == "number line" and self._scene.line is not None:
            beside_px = max(min(page.large_px, sum_px), round(sum_px * _BESIDE_PICTURE))
            yield from self._with_fewer_buttons(_Extent.ALL, beside_px)
        if self._view == "grid" and self._at_left is None:
            yield from self._grid_plans(min(sum_px, page.text_px), sum_px)
        yield from self._with_fewer_buttons(_Extent.NONE, sum_px)
        large, least = page.large_px, page.least_px
        for caption_px in ((large, large), (large, least)):
            for smaller_px in sizes_down(min(sum_px, self._first_px), large):
                yield _Plan(self._fewest_button_lines, _Extent.NONE, False, smaller_px, caption_px)
        for is_whole in (True, False):
            yield _Plan(0, _Extent.NONE, False, min(sum_px, large), (least, least), is_caption_whole=is_whole)

    def _grid_at_left(self) -> Picture | None:
        """In at most half of the window; the sum and all that is said have the rest of the width."""
        page = self._page
        width, height = page.room
        if width < _WIDE * height:
            return None
        size = (width // 2, height - self._now_height(page.text_px) - self._bar.height_px - 2 * page.gap)
        digits_px = (round(page.text_px * _GRID_OF_TEXT), page.large_px)
        picture = grid_picture(self._scene.grid, size, digits_px, self._ruler, label_px=page.large_px)
        if picture:
            taken = picture.width_px + 4 * page.gap
            self._x, self._width = page.margin + taken, width - taken
        return picture

    def _grid_plans(self, smallest_px: int, sum_px: int) -> Iterator[_Plan]:
        """The grid as large as the sum beneath it where it fits so; one that does not fit whole is shown in part."""
        as_wished = (self._page.text_px, self._page.text_px)
        for beside_px in sizes_down(max(smallest_px, round(sum_px * _BESIDE_PICTURE)), smallest_px):
            yield _Plan(len(self._bar.lines), _Extent.ALL, True, beside_px, as_wished, picture_px=beside_px)
        for extent in (_Extent.ALL, _Extent.SOME):
            yield from self._with_fewer_buttons(extent, smallest_px)

    def _with_fewer_buttons(self, picture: _Extent, sum_px: int) -> Iterator[_Plan]:
        page = self._page
        as_wished = (page.text_px, page.text_px)
        all_lines = len(self._bar.lines)
        # Whoever points or touches may have no Tab: all buttons come before the size of the sum.
        for caption_px in (as_wished, (page.text_px, page.large_px)) if page.look.has_pad else ():
            for smaller_px in sizes_down(sum_px, min(sum_px, _LEAST_SUM_OF_TEXT * page.large_px)):
                yield _Plan(all_lines, picture, True, smaller_px, caption_px)
        for lines in range(all_lines, self._fewest_button_lines - 1, -1):
            yield _Plan(lines, picture, True, sum_px, as_wished)
        smallest_px = min(sum_px, self._first_px)
        for smaller_px in sizes_down(sum_px, smallest_px):
            yield _Plan(self._fewest_button_lines, picture, False, smaller_px, as_wished)
        for smaller_px in sizes_down(smallest_px, page.large_px) if picture else (smallest_px,):
            yield _Plan(self._fewest_button_lines, picture, False, smaller_px, (page.text_px, page.large_px))

    def _one_cell_plans(self) -> Iterator[_Plan]:
        """The sum as large as verdict and help leave it room for, and these as large as wished as long as it can be."""
        page = self._page
        largest_px = largest_digits(self._asked, self._width, page.room[1], self._ruler)
        for caption_px in sizes_down(page.text_px, page.large_px):
            for sum_px in sizes_down(largest_px, max(1, min(largest_px, self._first_px))):
                yield _Plan(self._fewest_button_lines, _Extent.NONE, False, sum_px, (caption_px, caption_px))
        for sum_px in sizes_down(min(largest_px, self._first_px), page.large_px):
            yield _Plan(self._fewest_button_lines, _Extent.NONE, False, sum_px, (page.large_px, page.least_px))

    @property
    def _fewest_button_lines(self) -> int:
        """The button that Tab is on is always there."""
        return int(any(button.is_focused for button in self._scene.buttons))

    def _sum_px_at(self, look: Look) -> int:
        """The same whatever is said, so that nothing jumps from one sum to the next."""
        large_px = self._page.large_px
        first_px, last_px = (Look(step=step).text_px(large_px) for step in (FIRST_STEP, LAST_STEP - 1))
        alone_px = self._sum_above(_HELP_LINES * pitch_px(last_px, self._ruler), last_px)
        return look.sum_px(large_px, self._beside_px(first_px), alone_px)

    def _beside_px(self, text_px: int) -> int:
        """The largest sum that leaves room for everything else; where it would be small, for less of that."""
        page = self._page
        lines = round(_CAPTION_LINES * page.room[0] / self._width)
        bar = self._button_bar(text_px, self._scene.buttons)
        for caption_lines, button_lines in ((lines, len(bar.lines)), (1, len(bar.lines)), (1, 1)):
            beneath_px = caption_lines * pitch_px(text_px, self._ruler) + bar.with_lines(button_lines).height_px
            sum_px = self._sum_above(beneath_px + self._now_height(text_px) + 2 * page.gap, text_px)
            if sum_px >= _LEAST_SUM_OF_TEXT * text_px:
                break
        return sum_px

    def _sum_above(self, beneath_px: int, text_px: int) -> int:
        """At least large print, where there is room for that in the window at all."""
        page, width, height = self._page, self._width, self._page.room[1]
        left = height - beneath_px - page.gap
        digit_px = largest_digits(self._asked, width, left - self._line_above(text_px, 1), self._ruler)
        if not self._is_above_one_line(digit_px, text_px):
            digit_px = largest_digits(self._asked, width, left - self._line_above(text_px, 2), self._ruler)
        return max(digit_px, min(page.large_px, largest_digits(self._asked, width, height, self._ruler)))

    def _is_above_one_line(self, sum_px: int, text_px: int) -> bool:
        """Verdict and part's name beside each other, the name above the answer's field."""
        if sum_px < 1:
            return True
        field = sum_block(self._asked, sum_px, self._width, self._ruler).field
        return self._ruler.width_px(_VERDICT, text_px) + text_px // 3 <= field.x

    # ---- parts

    def _button_bar(self, text_px: int, buttons: Sequence[ButtonShown]) -> ButtonBar | OfferBox:
        """Or what is offered to a switch, unless an adult has gone to a button by Tab."""
        page = self._page
        if self._scene.offered and not any(button.is_focused for button in buttons):
            return offer_box(self._scene.offered, page.room[0], (text_px, page.least_px), self._ruler)
        wished = max(page.large_px, round(text_px * _BUTTON_OF_TEXT))
        sizes = (wished, page.least_px)
        return button_bar(buttons, page.room[0], sizes, self._ruler, least_px=page.least_target_px)

    def _key_block(self, rows: PadRows) -> KeyBlock:
        """As large as the buttons, smaller where it would not fit above them."""
        page = self._page
        room_px = page.room[1] - self._now_height(page.text_px) - self._bar.height_px - page.gap
        for digit_px in sizes_down(max(page.large_px, round(page.text_px * _BUTTON_OF_TEXT)), page.large_px):
            block = key_block(rows, digit_px, self._ruler, least_px=page.least_target_px)
            if block.height_px <= room_px:
                break
        return block

    def _line_above(self, text_px: int, lines: int) -> int:
        """The room above the sum for the verdict and the part's name, kept also where there is neither."""
        return lines * (self._ruler.line_px(text_px) + text_px // 3)

    def _now_height(self, text_px: int) -> int:
        return self._ruler.line_px(self._now_px(text_px)) + self._page.gap

    def _now_px(self, text_px: int) -> int:
        return max(self._page.large_px, round(text_px * _BUTTON_OF_TEXT))

    def _least_picture_px(self, plan: _Plan) -> int:
        """The height that a picture must have: the caption gets what is left of it."""
        if not plan.picture:
            return 0
        page = self._page
        if self._view == "number line":
            return line_height(page.large_px) + page.gap
        if plan.picture is _Extent.SOME:
            return _LEAST_EXTRACT * page.large_px + page.gap
        return grid_height(self._scene.grid, page.large_px) + page.gap

    def _picture(self, plan: _Plan, height: int) -> Picture | None:
        """As large as there is room for, up to the size of the sum beside it."""
        page = self._page
        size = (self._width, height)
        digits_px = (max(plan.sum_px, page.large_px), page.large_px)
        if self._view == "number line":
            return line_picture(self._scene.line, size, digits_px, self._ruler) if self._scene.line else None
        return grid_picture(self._scene.grid, size, digits_px, self._ruler, label_px=page.large_px)

    # ---- all of it

    def _tried(self, plan: _Plan) -> Layout | None:
        """None where the plan does not fit."""
        page, ruler = self._page, self._ruler
        width, height = self._width, page.room[1]
        if plan.sum_px < 1:
            return None
        block = sum_block(self._asked, plan.sum_px, width, ruler)
        above = self._above(block, plan)
        bar = self._bar.with_lines(plan.button_lines)
        foot = bar.height_px + (page.gap if bar.lines else 0)
        foot += self._now_height(page.text_px) if plan.has_now else 0
        left = height - above.height_px - block.height_px - foot
        if self._pad and self._pad.height_px > height - foot:
            return None
        if left < 0 or block.width_px > width or not above.is_whole or (plan.button_lines and not bar.lines):
            return None
        caption = self._caption(plan, left - page.gap - self._least_picture_px(plan))
        if caption is None:
            return None
        beneath = caption.height_px + page.gap if caption.lines else 0
        picture = None
        if plan.picture:
            kept = max(beneath, _CAPTION_LINES * pitch_px(plan.caption_px[1], ruler) + page.gap)
            picture = self._picture(plan, left - kept - page.gap)
        if _extent_of(picture) < plan.picture or (picture and picture.digit_px < plan.picture_px):
            return None
        used = beneath + (picture.height_px + page.gap if picture else 0)
        return self._composed(plan, (picture, above, block, caption, bar), spare=left - used)

    def _caption(self, plan: _Plan, height: int) -> Paragraph | None:
        """One cell needs no words for the sum that is there to see."""
        caption = self._scene.caption
        if not caption.text or (self._is_one_cell and not caption.is_help):
            return NOTHING
        best = paragraph(caption.text, (self._width, height), plan.caption_px, self._ruler)
        return best if best.is_whole or not plan.is_caption_whole else None

    def _above(self, block: SumBlock, plan: _Plan) -> LineAbove:
        page = self._page
        least = page.least_px if plan.sum_px <= page.large_px else plan.caption_px[1]
        has_one_line = self._is_above_one_line(plan.sum_px, plan.caption_px[0])
        verdict = self._scene.verdict.text if self._scene.verdict else ""
        texts = (verdict, self._asked.answer.part)
        size = (self._width, page.room[1] // 3)
        field_x = self._block_x(block) - self._x + block.field.x
        return LineAbove(texts, field_x, size, (plan.caption_px[0], least), self._ruler, has_one_line=has_one_line)

    def _block_x(self, block: SumBlock) -> int:
        """One cell stands in the middle of the page."""
        return self._x + (self._width - block.width_px) // 2 if self._is_one_cell else self._x

    def _composed(
        self,
        plan: _Plan,
        parts: tuple[Picture | None, LineAbove, SumBlock, Paragraph, ButtonBar | OfferBox],
        *,
        spare: int,
    ) -> Layout:
        """`spare`: height that nothing needs. One cell stands in the middle of it."""
        picture, above, block, caption, bar = parts
        page, ruler = self._page, self._ruler
        y = page.margin + (spare // 2 if self._is_one_cell else 0)
        shapes: list[Shape] = []
        if self._at_left:
            shapes += self._at_left.at(page.margin, page.margin)
        if picture:
            shapes += picture.at(self._x, y)
            y += picture.height_px + page.gap
        shapes += above.set_at(self._x, y)
        y += above.height_px
        block_x = self._block_x(block)
        shapes += block.at(block_x, y)
        field = Box(block_x + block.field.x, y + block.field.y, block.field.width, block.field.height)
        y += block.height_px + page.gap
        shapes += caption.set_at(self._x, y, ruler)
        bar_y = page.height - page.margin - bar.height_px
        if plan.has_now:
            now_y = bar_y - (page.gap if bar.lines else 0) - ruler.line_px(self._now_px(page.text_px))
            shapes += self._now(page.margin, now_y)
        bar_shapes, targets = bar.at(page.margin, bar_y, ruler)
        if self._pad:
            pad_x = page.width - page.margin - self._pad.width_px
            foot_y = bar_y - (page.gap if bar.lines else 0) - (self._now_height(page.text_px) if plan.has_now else 0)
            pad_shapes, pad_targets = self._pad.at(pad_x, foot_y - self._pad.height_px)
            bar_shapes, targets = (*bar_shapes, *pad_shapes), (*targets, *pad_targets)
        answer = () if self._scene.now in (Now.OVER, Now.CLOSES, Now.STARTING) else (Button(Focus.ANSWER, field),)
        return Layout(
            page.width,
            page.height,
            (*shapes, *bar_shapes),
            (*answer, *targets),
            block.digit_px,
            caption.digit_px,
            caption.is_whole,
        )

    def _now(self, x: int, y: int) -> list[Words]:
        """Smaller where it would not fit, and nothing where it still does not."""
        sizes = (self._now_px(self._page.text_px), self._page.least_px)
        made = (words(self._ruler, self._scene.now_words, digit_px, at=(x, y)) for digit_px in sizes)
        return [now for now in made if now.box.width <= self._page.room[0]][:1]

    def _sum_alone(self) -> Layout:
        """In a window too small for anything else."""
        page = self._page
        digit_px = largest_digits(self._asked, *page.room, self._ruler)
        if not digit_px:
            return Layout(page.width, page.height, (), (), 0, 0, is_caption_whole=False)
        block = sum_block(self._asked, digit_px, page.room[0], self._ruler)
        at = (page.width - block.width_px) // 2, (page.height - block.height_px) // 2
        return Layout(page.width, page.height, block.at(*at), (), digit_px, 0, is_caption_whole=False)


def _extent_of(picture: Picture | None) -> _Extent:
    if picture is None:
        return _Extent.NONE
    return _Extent.ALL if picture.is_whole else _Extent.SOME
