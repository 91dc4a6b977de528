import itertools

import pytest

from saythesum.screen.colours import COLOUR_SETS, LEAST_SHAPE_CONTRAST, LEAST_TEXT_CONTRAST, Colour, contrast
from saythesum.settings import Colours

BLACK, WHITE, YELLOW = (0, 0, 0), (255, 255, 255), (255, 255, 0)


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        # Source: WCAG 2.2's definition gives black on white as 21:1. Published by WebAIM ("Contrast and Color
        # Accessibility"): #767676 on white passes 4.5 and #777777 does not; #595959 passes 7; #949494 passes 3.
        (BLACK, WHITE, 21.0),
        ((0x76, 0x76, 0x76), WHITE, 4.542),
        ((0x77, 0x77, 0x77), WHITE, 4.478),
        ((0x59, 0x59, 0x59), WHITE, 7.005),
        ((0x94, 0x94, 0x94), WHITE, 3.033),
        ((0x95, 0x95, 0x95), WHITE, 2.995),
        # Source: the same definition, worked out by hand for this project's colours.
        (YELLOW, BLACK, 19.556),
        (YELLOW, (0, 0, 128), 14.909),
        (YELLOW, (0, 0, 255), 8.002),
        (WHITE, (0, 0, 255), 8.592),
        (BLACK, (255, 253, 208), 20.213),
        ((0, 255, 255), BLACK, 16.748),
        ((255, 176, 0), BLACK, 11.462),
        ((255, 0, 0), WHITE, 3.998),
        ((255, 0, 0), BLACK, 5.252),
        ((0, 128, 0), WHITE, 5.137),
    ],
)
def test_contrast_is_what_is_published(one: Colour, other: Colour, ratio: float) -> None:
    assert contrast(one, other) == pytest.approx(ratio, abs=0.0006)
    assert contrast(other, one) == contrast(one, other)


@pytest.mark.parametrize("name", COLOUR_SETS)
def test_what_is_read_stands_out_sevenfold_and_shapes_threefold(name: Colours) -> None:
    colours = COLOUR_SETS[name]
    assert contrast(colours.ink, colours.ground) >= LEAST_TEXT_CONTRAST == 7
    assert contrast(colours.mark, colours.ground) >= LEAST_SHAPE_CONTRAST == 3


def test_no_two_sets_are_the_same() -> None:
    assert len(COLOUR_SETS) >= 5
    for one, other in itertools.combinations(COLOUR_SETS.values(), 2):
        assert (one.ink, one.ground) != (other.ink, other.ground)
