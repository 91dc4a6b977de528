"""No flash over the frames of a whole practice, worked out as the standard defines it.

Source: WCAG 2.2, definition of "general flash and red flash thresholds": a pair of opposing changes of relative
luminance of 10 % or more of the maximum, where the darker is below 0.80; more than three in a second count where they
cover a quarter of any 341 by 256 pixels of a screen of 1024 by 768.
"""

import itertools
from collections.abc import Iterator
from typing import get_args

import numpy as np
import pygame
import pytest
from numpy.typing import NDArray

from saythesum.keyboard.answer_entry import Typing
from saythesum.screen.colours import COLOUR_SETS
from saythesum.screen.drawing import draw
from saythesum.screen.layout import lay_out
from saythesum.screen.lettering import Lettering
from saythesum.screen.look import FIRST_STEP, LAST_STEP, Look
from saythesum.settings import Colours
from tests.screen.scenes import Shown

SIZE = (1024, 768)
QUARTER_PX = 341 * 256 // 4
MOST_FLASHES = 3
KEYS_A_SECOND = 10
"""Faster than anybody types; a key that is held acts once."""
ANSWERS = ("41", "45", "I don't know", "43", "46")
EVERY = 4
"""Of the dots in each direction every fourth is looked at: letters are thicker."""


def frames(look: Look) -> Iterator[NDArray[np.float64]]:
    """Relative luminance of each dot: a frame for each press, as the window draws it."""
    shown, lettering, surface = Shown(), Lettering(), pygame.Surface(SIZE)
    for answer in ANSWERS:
        for digits in ((), (4,), (), (4,), (4, 4), (4,), ()):
            shown.typing = Typing(digits=digits)
            draw(surface, lay_out(shown.scene, *SIZE, look, lettering), COLOUR_SETS[look.colours], lettering)
            yield luminance(pygame.surfarray.pixels3d(surface)[::EVERY, ::EVERY])
        shown.says(answer)


def luminance(dots: NDArray[np.uint8]) -> NDArray[np.float64]:
    """Source: WCAG 2.2, definition of "relative luminance"."""
    part = np.arange(256) / 255
    linear = np.where(part <= 0.04045, part / 12.92, ((part + 0.055) / 1.055) ** 2.4)[dots]
    seen: NDArray[np.float64] = linear @ np.array([0.2126, 0.7152, 0.0722])
    return seen


def flashing_px(second: list[NDArray[np.float64]]) -> int:
    """How many dots of the whole window have more than three pairs of opposing changes in it."""
    opposing, last = np.zeros(second[0].shape, int), np.zeros(second[0].shape, int)
    for before, after in itertools.pairwise(second):
        counts = (np.abs(after - before) >= 0.1) & (np.minimum(after, before) < 0.8)
        way = np.sign(after - before).astype(int) * counts
        opposing += counts & (way == -last)
        last = np.where(counts, way, last)
    return int(((opposing + 1) // 2 > MOST_FLASHES).sum())


@pytest.mark.parametrize("colours", get_args(Colours))
def test_no_second_of_the_fastest_practice_flashes(colours: Colours) -> None:
    pygame.font.init()
    for look in (
        Look(colours=colours, has_pad=True),
        Look("grid", FIRST_STEP, colours),
        Look("sum", LAST_STEP, colours),
    ):
        drawn = list(frames(look))
        worst = max(flashing_px(drawn[at : at + KEYS_A_SECOND + 1]) for at in range(0, len(drawn), KEYS_A_SECOND // 2))
        assert worst * EVERY**2 < QUARTER_PX, (look, worst)


def test_what_does_flash_is_found() -> None:
    black, white = np.zeros((400, 300)), np.ones((400, 300))
    assert flashing_px([black, white] * 5) == 400 * 300
    assert flashing_px([black, white, black, white, black]) == 0, "two flashes in a second"
