"""The contrast of what is drawn, read off the dots of each frame: no colour set is asked.

`python -m tests.tools.contrast [EVERY]`: every scene, print size, view, window and colour set (of the frames so often
one), and the least that was found for words and for shapes.
Source: WCAG 2.2, 1.4.6 and 1.4.11; its definition of "contrast ratio" leaves the blends at the edges of letters out.
"""

import itertools
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import pygame
from numpy.typing import NDArray

from saythesum.scene.scene import Scene
from saythesum.screen.colours import COLOUR_SETS, LEAST_SHAPE_CONTRAST, LEAST_TEXT_CONTRAST, contrast
from saythesum.screen.drawing import draw
from saythesum.screen.layout import lay_out
from saythesum.screen.lettering import Lettering
from saythesum.screen.look import LAST_STEP, VIEWS, Look
from saythesum.screen.page import Layout
from saythesum.screen.shapes import Arch, Bar, Box, Frame, Words
from tests.screen.scenes import scenes

SIZES = ((200, 150), (800, 600), (1366, 768), (3840, 2160))
Dots = NDArray[np.uint32]
_RING_PX = 3


@dataclass(frozen=True, slots=True)
class Found:
    """One thing in one frame."""

    ratio: float
    is_words: bool
    what: str

    @property
    def is_enough(self) -> bool:
        return self.ratio >= (LEAST_TEXT_CONTRAST if self.is_words else LEAST_SHAPE_CONTRAST)


def found_in(surface: pygame.Surface, layout: Layout) -> Iterator[Found]:
    dots: Dots = pygame.surfarray.array2d(surface).astype(np.uint32)
    for shape in layout.shapes:
        ratio = _of_words(dots, shape) if isinstance(shape, Words) else _of_shape(dots, shape)
        if ratio is not None:
            yield Found(ratio, isinstance(shape, Words), str(shape))


def _of_words(dots: Dots, words: Words) -> float:
    """Of the ground and the letters' own colour: what stands out most from it."""
    colours, counts = np.unique(_part(dots, words.box), return_counts=True)
    ground = int(colours[counts.argmax()])
    return max(_ratio(int(colour), ground) for colour in colours)


def _of_shape(dots: Dots, shape: Frame | Bar | Arch) -> float | None:
    """Of its line or filling and the commonest colour beside it: in a frame, around the others."""
    box = shape.box
    if isinstance(shape, Frame):
        beside = _part(dots, box.inside(shape.thick_px))
        own = int(dots[box.x + shape.thick_px // 2, box.y + shape.thick_px // 2])
    else:
        ring = dots[max(0, box.x - _RING_PX) : box.right + _RING_PX, max(0, box.y - _RING_PX) : box.y]
        beside = ring if ring.size else dots[max(0, box.x - _RING_PX) : box.x, box.y : box.bottom]
        at = (box.x + box.width // 2, box.y + shape.thick_px // 2) if isinstance(shape, Arch) else (box.x, box.y)
        own = int(dots[at])
    if not beside.size:
        return None
    colours, counts = np.unique(beside, return_counts=True)
    return _ratio(own, int(colours[counts.argmax()]))


def _part(dots: Dots, box: Box) -> Dots:
    return dots[box.x : box.right, box.y : box.bottom]


def _ratio(one: int, other: int) -> float:
    parts = [(colour >> 16 & 255, colour >> 8 & 255, colour & 255) for colour in (one, other)]
    return contrast(parts[0], parts[1])


def frames(
    shown: Sequence[Scene], sizes: Sequence[tuple[int, int]], looks: Sequence[Look], every: int = 1
) -> Iterator[tuple[pygame.Surface, Layout, str]]:
    """One layout in all colour sets, then the next; of the layouts each `every`th."""
    pygame.font.init()
    lettering = Lettering()
    for size in sizes:
        surface = pygame.Surface(size)
        for scene, look in itertools.islice(itertools.product(shown, looks), 0, None, every):
            layout = lay_out(scene, *size, look, lettering)
            for name, colours in COLOUR_SETS.items():
                draw(surface, layout, colours, lettering)
                yield surface, layout, f"{name}, {size[0]}x{size[1]}, {look.view}, size {look.step}"


def main(every: int) -> None:
    looks = [
        Look(view, step, has_pad=has_pad)
        for has_pad in (False, True)
        for view in VIEWS
        for step in range(LAST_STEP + 1)
    ]
    least: dict[bool, tuple[float, str]] = {}
    count = too_little = 0
    for surface, layout, where in frames(list(scenes().values()), SIZES, looks, every):
        count += 1
        for found in found_in(surface, layout):
            too_little += not found.is_enough
            if found.is_words not in least or found.ratio < least[found.is_words][0]:
                least[found.is_words] = (found.ratio, f"{where}: {found.what}")
    for is_words, aim in ((True, LEAST_TEXT_CONTRAST), (False, LEAST_SHAPE_CONTRAST)):
        ratio, where = least[is_words]
        print(f"{'words' if is_words else 'shapes'}: least contrast {ratio:.2f}:1, aim {aim:g}:1 ({where})")
    print(f"{count} frames, {too_little} things with less than that")


if __name__ == "__main__":
    main(int(sys.argv[1]) if sys.argv[1:] else 1)
