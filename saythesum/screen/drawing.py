"""A layout on a surface, in the pupil's colours."""

import io
from typing import assert_never

import pygame

from saythesum.screen.colours import Colours
from saythesum.screen.lettering import Lettering
from saythesum.screen.page import Layout
from saythesum.screen.shapes import Arch, Bar, Box, Frame, Shape, Words


def draw(surface: pygame.Surface, layout: Layout, colours: Colours, lettering: Lettering) -> None:
    surface.fill(colours.ground)
    for shape in layout.shapes:
        _draw(surface, shape, colours, lettering)


def as_png(layout: Layout, colours: Colours, lettering: Lettering) -> bytes:
    """The bytes of a picture file, for whoever looks at it elsewhere than in the window."""
    surface = pygame.Surface((layout.width, layout.height))
    draw(surface, layout, colours, lettering)
    picture = io.BytesIO()
    pygame.image.save(surface, picture, "window.png")
    return picture.getvalue()


def _draw(surface: pygame.Surface, shape: Shape, colours: Colours, lettering: Lettering) -> None:
    match shape:
        case Words():
            _words(surface, shape, colours, lettering)
        case Frame(box=box, thick_px=thick, is_mark=is_mark):
            pygame.draw.rect(surface, colours.mark if is_mark else colours.ink, _rect(box), thick)
        case Bar(box=box, is_mark=is_mark):
            surface.fill(colours.mark if is_mark else colours.ink, _rect(box))
        case Arch():
            _arch(surface, shape, colours)
        case _:
            assert_never(shape)


def _words(surface: pygame.Surface, words: Words, colours: Colours, lettering: Lettering) -> None:
    ink = colours.ground if words.is_turned else colours.ink
    sized = lettering.sized(words.digit_px, is_bold=words.is_bold)
    top = sized.digits.top if words.is_tight else sized.line.top
    surface.blit(sized.font.render(words.text, True, ink), (words.box.x, words.box.y - top))


def _arch(surface: pygame.Surface, arch: Arch, colours: Colours) -> None:
    """As a band between two half ellipses: pygame's own arc leaves holes when it is thick."""
    width, height = arch.box.width, arch.box.height
    whole = pygame.Surface((width, 2 * height), pygame.SRCALPHA)
    pygame.draw.ellipse(whole, colours.mark, whole.get_rect())
    inner = whole.get_rect().inflate(-2 * arch.thick_px, -2 * arch.thick_px)
    pygame.draw.ellipse(whole, (0, 0, 0, 0), inner)
    surface.blit(whole, (arch.box.x, arch.box.y), pygame.Rect(0, 0, width, height))


def _rect(box: Box) -> pygame.Rect:
    return pygame.Rect(box.x, box.y, box.width, box.height)
