"""No flash over the frames of a whole practice, worked out as the standard defines it.

Source: WCAG 2.2, definition of "general flash and red flash thresholds": a pair of opposing changes of relative
luminance of 10 % or more of the maximum, where the darker is below 0.80; more than three in a second count where they
cover a quarter of any 341 by 256 pixels of a screen of 1024 by 768. A red flash needs a saturated red: red has 80 % or
more of red, green and blue together.
"""

import itertools
from collections.abc import Iterator
from typing import get_args

import numpy as np
import pygame
import pytest
from numpy.typing import NDArray

from saythesum.keyboard.answer_entry import Typing
from saythesum.scene.scene import Now
from saythesum.screen.colours import COLOUR_SETS
from saythesum.screen.drawing import draw
from saythesum.screen.layout import lay_out
from saythesum.screen.lettering import Lettering
from saythesum.screen.look import FIRST_STEP, LAST_STEP, Look
from saythesum.settings import Colours
from tests.screen.scenes import Shown
from tests.talk import Talk, plan_of

SIZE = (1024, 768)
QUARTER_PX = 341 * 256 // 4
MOST_FLASHES = 3
KEYS_A_SECOND = 10
"""Faster than anybody types; a key that is held acts once."""
ANSWERS = ("43", "45", "39", "41", "46", "I don't know", "40", "2", "2", "42", "62", "65", "61", "no")
"""A whole grid: wrong answers, help from its beginning to its end, all six done, no talk afterwards."""
OPENED = Typing(shows_grid=True)
TYPED = (Typing(), Typing(digits=(4,)), Typing(digits=(4, 4)))
PRESSES = (*(TYPED[at] for at in (0, 1, 0, 1, 2, 1, 0)), OPENED, TYPED[0], OPENED, TYPED[0])
"""Typed, rubbed out and typed anew, and the grid opened and closed, before each answer."""
EVERY = 6
"""Of the dots in each direction every sixth is looked at: enough, as only areas count."""


def frames(look: Look) -> Iterator[NDArray[np.float64]]:
    """Relative luminance of each dot: a frame for each press, as the window draws it."""
    shown, lettering, surface = Shown(Talk(plan_of((38, 57), (5, 8, 4)))), Lettering(), pygame.Surface(SIZE)
    for answer in (*ANSWERS, None):
        seen = {}
        for typing in (*TYPED, OPENED):
            shown.typing = typing
            draw(surface, lay_out(shown.scene, *SIZE, look, lettering), COLOUR_SETS[look.colours], lettering)
            dots = pygame.surfarray.array3d(surface)[::EVERY, ::EVERY]
            assert not is_saturated_red(dots).any()
            seen[typing] = luminance(dots)
        yield from (seen[typing] for typing in PRESSES)
        if answer:
            shown.says(answer)
    assert shown.scene.now in (Now.OVER, Now.CLOSES)


def is_saturated_red(dots: NDArray[np.uint8]) -> NDArray[np.bool_]:
    """Source: WCAG 2.2, definition of "general flash and red flash thresholds", note on saturated red."""
    whole = dots.astype(float).sum(axis=-1)
    found: NDArray[np.bool_] = (whole > 0) & (dots[..., 0] >= 0.8 * whole)
    return found


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


LOOKS = (
    *(Look(colours=colours, has_pad=True) for colours in get_args(Colours)),
    Look("grid", FIRST_STEP, "black on white"),
    Look("sum", LAST_STEP, "white on black"),
)
"""Each colour set, and the other pictures in the two whose changes are greatest."""


@pytest.mark.parametrize("look", LOOKS, ids=str)
def test_no_second_of_the_fastest_practice_flashes(look: Look) -> None:
    pygame.font.init()
    drawn = list(frames(look))
    worst = max(flashing_px(drawn[at : at + KEYS_A_SECOND + 1]) for at in range(0, len(drawn), KEYS_A_SECOND // 2))
    assert worst * EVERY**2 < QUARTER_PX, worst


def test_what_does_flash_is_found() -> None:
    black, white = np.zeros((400, 300)), np.ones((400, 300))
    assert flashing_px([black, white] * 5) == 400 * 300
    assert flashing_px([black, white, black, white, black]) == 0, "two flashes in a second"


def test_a_saturated_red_is_found() -> None:
    dots = np.array([[[255, 0, 0], [255, 63, 0], [255, 64, 0], [255, 176, 0], [0, 0, 0]]], dtype=np.uint8)
    assert is_saturated_red(dots).tolist() == [[True, True, False, False, False]]
