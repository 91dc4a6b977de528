"""The page on which a pupil thinks about a pattern: the grid with what stands out in it, and what is said. Nothing is
asked, so there is no field for an answer.
"""

from saythesum.screen.blocks.buttons import LEAST_TARGET_PX, button_bar
from saythesum.screen.blocks.captions import paragraph
from saythesum.screen.blocks.grid_picture import grid_picture
from saythesum.screen.page import LARGE_PRINT_PX, Layout, Page
from saythesum.screen.shapes import Shape

_GRID_OF_ROOM = 0.55
"""The largest share of the height that the grid takes."""


def page_of_thinking(page: Page) -> Layout:
    """What is said goes before the grid, and the grid before the buttons, where there is no room for all."""
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
