"""What is really drawn, pixel by pixel, with the font that is shipped. No window is needed."""

import itertools
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pygame
import pytest

from saythesum.keyboard.keys import Focus
from saythesum.scene.scene import Scene
from saythesum.screen.colours import COLOUR_SETS, LEAST_SHAPE_CONTRAST, Colour, contrast
from saythesum.screen.drawing import draw
from saythesum.screen.layout import lay_out
from saythesum.screen.lettering import BOLD, FONTS, REGULAR, Lettering
from saythesum.screen.look import LAST_STEP, VIEWS, Look
from saythesum.screen.page import Layout
from saythesum.screen.shapes import Shape, Words
from saythesum.settings import Colours
from tests.screen.scenes import scenes
from tests.screen.test_layout import SIZES, faults

SCENES = scenes()
COLOURS = COLOUR_SETS["white on black"]


@pytest.fixture(scope="module")
def lettering() -> Iterator[Lettering]:
    pygame.font.init()
    yield Lettering()
    pygame.font.quit()


def drawn(layout: Layout, lettering: Lettering, *shapes: Shape) -> pygame.Surface:
    surface = pygame.Surface((layout.width, layout.height))
    draw(surface, replace(layout, shapes=shapes or layout.shapes), COLOURS, lettering)
    return surface


def inked(surface: pygame.Surface) -> pygame.Rect:
    """The smallest rectangle that holds everything drawn."""
    surface.set_colorkey(COLOURS.ground)
    return surface.get_bounding_rect()


@pytest.mark.parametrize("is_bold", [False, True])
@pytest.mark.parametrize("digit_px", [14, 23, 37, 60, 118, 285, 690])
def test_a_digit_is_as_high_as_was_asked(lettering: Lettering, digit_px: int, is_bold: bool) -> None:
    rendered = lettering.sized(digit_px, is_bold=is_bold).font.render("0123456789", True, (255, 255, 255))
    assert digit_px - 2 <= rendered.get_bounding_rect().height <= digit_px


@pytest.mark.parametrize("look", [Look(view, step) for view in VIEWS for step in (0, 5, LAST_STEP - 1)], ids=str)
@pytest.mark.parametrize("size", SIZES, ids=str)
def test_the_real_font_keeps_to_its_boxes(lettering: Lettering, size: tuple[int, int], look: Look) -> None:
    for shown in SCENES.values():
        assert list(faults(lay_out(shown, *size, look, lettering))) == []


@pytest.mark.parametrize("name", ["guided", "large-numbers", "keys-aloud"])
@pytest.mark.parametrize("size", SIZES[:2], ids=str)
def test_no_pixel_of_a_word_leaves_its_box(lettering: Lettering, size: tuple[int, int], name: str) -> None:
    for view in ("sum", "grid", "number line"):
        layout = lay_out(SCENES[name], *size, Look(view), lettering)
        for words in (shape for shape in layout.shapes if isinstance(shape, Words) and not shape.is_turned):
            box = pygame.Rect(words.box.x, words.box.y, words.box.width, words.box.height)
            assert box.contains(inked(drawn(layout, lettering, words))), words


@pytest.mark.parametrize("name", COLOUR_SETS)
def test_only_the_colours_of_the_set_are_used(lettering: Lettering, name: Colours) -> None:
    """Edges of letters are blends of the two colours beside them, so none is outside the range between them."""
    colours = COLOUR_SETS[name]
    layout = lay_out(SCENES["guided"], 800, 600, Look("grid"), lettering)
    surface = pygame.Surface((800, 600))
    draw(surface, layout, colours, lettering)
    seen = {colour_at(surface, (x, y)) for x in range(0, 800, 3) for y in range(0, 600, 3)}
    assert {colours.ground, colours.ink} <= seen
    allowed = [sorted(channel) for channel in zip(colours.ground, colours.ink, colours.mark, strict=True)]
    assert all(low <= c <= high for colour in seen for c, (low, *_, high) in zip(colour, allowed, strict=True))


def test_lines_of_a_caption_stand_well_apart(lettering: Lettering) -> None:
    """Source: WCAG 2.2, 1.4.12: one and a half times the nominal size from line to line."""
    layout = lay_out(SCENES["keys-aloud"], 1366, 768, Look(), lettering)
    lines = [
        shape for shape in layout.shapes if isinstance(shape, Words) and shape.text in SCENES["keys-aloud"].caption.text
    ]
    nominal = lines[0].digit_px * 200 / 140  # this font's digits are 140 px high at a nominal size of 200
    assert len(lines) > 2
    assert all(lower.box.y - upper.box.y >= 1.49 * nominal for upper, lower in itertools.pairwise(lines))


def test_where_tab_is_changes_enough_pixels(lettering: Lettering) -> None:
    """Source: WCAG 2.2, 2.4.13: at least the area of a 2 px line around it, at 3:1."""
    surfaces = []
    for focus in (Focus.HELP, Focus.SKIP):
        shown = _focused(SCENES["guided"], focus)
        layout = lay_out(shown, 1366, 768, Look(), lettering)
        surfaces.append(drawn(layout, lettering))
    box = next(button.box for button in layout.buttons if button.presses is Focus.HELP)
    pixels = itertools.product(range(box.x, box.right), range(box.y, box.bottom))
    changed = sum(contrast(*(colour_at(surface, at) for surface in surfaces)) >= LEAST_SHAPE_CONTRAST for at in pixels)
    assert changed >= 2 * 2 * (box.width + box.height)


def colour_at(surface: pygame.Surface, at: tuple[int, int]) -> Colour:
    red, green, blue, _ = surface.get_at(at)
    return red, green, blue


def _focused(shown: Scene, focus: Focus) -> Scene:
    buttons = tuple(replace(button, is_focused=button.focus is focus) for button in shown.buttons)
    return replace(shown, buttons=buttons)


def test_a_font_that_is_missing_or_broken_is_replaced_and_told(lettering: Lettering, tmp_path: Path) -> None:
    broken = tmp_path / "Broken.ttf"
    broken.write_bytes(b"no font at all")
    for other in (Lettering(tmp_path / "Missing.ttf", BOLD), Lettering(REGULAR, broken)):
        assert other.notice.endswith("is used: install the program again.")
        layout = lay_out(SCENES["guided"], 800, 600, Look(), other)
        assert list(faults(layout)) == []
        assert inked(drawn(layout, other)).width > 100
    assert lettering.notice == ""


def test_the_font_comes_with_its_licence() -> None:
    licence = (FONTS / "LICENCE-Andika.txt").read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in licence
    assert {path.suffix for path in FONTS.iterdir()} == {".ttf", ".txt"}
