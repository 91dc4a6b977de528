"""What is drawn stands out, dot by dot. Every size and window: `python -m tests.tools.contrast`."""

import pygame
import pytest

from saythesum.screen.colours import Colours
from saythesum.screen.drawing import draw
from saythesum.screen.layout import lay_out
from saythesum.screen.lettering import Lettering
from saythesum.screen.look import LAST_STEP, VIEWS, Look
from tests.screen.scenes import MAKERS
from tests.tools.contrast import found_in, frames

SIZE = (800, 600)


@pytest.mark.parametrize("name", MAKERS)
def test_words_stand_out_sevenfold_and_shapes_threefold_in_all_colour_sets(name: str) -> None:
    """Another size of print and another view for each scene."""
    at = list(MAKERS).index(name)
    look = Look(VIEWS[at % len(VIEWS)], at % (LAST_STEP + 1), has_pad=at % 2 == 0)
    for surface, layout, where in frames([MAKERS[name]()], [SIZE], [look]):
        found = list(found_in(surface, layout))
        assert any(one.is_words for one in found)
        assert [one for one in found if not one.is_enough] == [], where


@pytest.mark.parametrize(("ink", "mark", "is_words"), [((0x76,) * 3, (0, 0, 0), True), ((0, 0, 0), (0xC0,) * 3, False)])
def test_what_stands_out_too_little_is_found(
    ink: tuple[int, int, int], mark: tuple[int, int, int], is_words: bool
) -> None:
    pygame.font.init()
    lettering, surface = Lettering(), pygame.Surface(SIZE)
    layout = lay_out(MAKERS["guided"](), *SIZE, Look(), lettering)
    draw(surface, layout, Colours((255, 255, 255), ink, mark), lettering)
    assert {one.is_words for one in found_in(surface, layout) if not one.is_enough} == {is_words}
