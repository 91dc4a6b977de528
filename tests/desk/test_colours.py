"""The desk's own colours, light and dark, in every pair of text and ground that the style sheet makes."""

import re
from itertools import product

import pytest

from saythesum.screen.colours import Colour, contrast
from tests.app.command import TOP

LEAST = 7.0
"""Source: WCAG 2.2, success criterion 1.4.6 (enhanced)."""
LEAST_OF_SHAPES = 3.0
"""Source: WCAG 2.2, success criterion 1.4.11."""
STYLE = (TOP / "saythesum/desk/static/desk.css").read_text(encoding="utf-8")
SETS = [
    dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{6});", block)) for block in re.findall(r":root \{(.*?)\}", STYLE, re.S)
]


def colour(text: str) -> Colour:
    return int(text[1:3], 16), int(text[3:5], 16), int(text[5:7], 16)


@pytest.mark.parametrize("names", SETS[:2], ids=["light", "dark"])
def test_what_is_read_is_seven_to_one(names: dict[str, str]) -> None:
    grounds = ("ground", "mind-ground")
    shades = ("shade-one", "shade-two", "shade-three")
    pairs = [*product(("text", "link", "wrong", "hint"), grounds), *product(("text",), shades), ("on-press", "press")]
    ratios = {pair: contrast(colour(names[pair[0]]), colour(names[pair[1]])) for pair in pairs}
    print({" on ".join(pair): round(ratio, 1) for pair, ratio in ratios.items()})
    assert {pair: ratio for pair, ratio in ratios.items() if ratio < LEAST} == {}
    assert contrast(colour(names["line"]), colour(names["ground"])) >= LEAST_OF_SHAPES


def test_no_colour_stands_outside_the_sets() -> None:
    outside = re.sub(r":root \{.*?\}", "", STYLE, flags=re.S)
    assert re.findall(r"#[0-9a-fA-F]{3,8}\b|rgb|hsl", outside) == []
