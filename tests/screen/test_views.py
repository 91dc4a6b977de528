from typing import get_args

import pytest

from saythesum.keyboard.keys import ColoursShown, LookChange, SizeShown, ViewShown
from saythesum.screen.colours import COLOUR_SETS
from saythesum.screen.look import FIRST_STEP, LAST_STEP, VIEWS, Look
from saythesum.settings import Colours, Settings


def test_one_key_goes_through_all_views_and_comes_back() -> None:
    look, seen = Look(), []
    for _ in VIEWS:
        look, message = look.changed(LookChange.NEXT_VIEW)
        assert message == ViewShown(look.view)
        seen.append(look.view)
    assert seen == [*VIEWS[1:], VIEWS[0]]
    assert look == Look()


def test_another_goes_through_all_colours() -> None:
    look, seen = Look(colours="white on black"), set()
    for _ in COLOUR_SETS:
        look, message = look.changed(LookChange.NEXT_COLOURS)
        assert message == ColoursShown(look.colours)
        seen.add(look.colours)
    assert seen == set(COLOUR_SETS) == set(get_args(Colours))
    assert look == Look(colours="white on black")


@pytest.mark.parametrize(("change", "end"), [(LookChange.BIGGER, LAST_STEP), (LookChange.SMALLER, 0)])
def test_sizes_end_at_both_ends(change: LookChange, end: int) -> None:
    look = Look()
    for _ in range(20):
        look, message = look.changed(change)
    assert look.step == end
    assert message == SizeShown(end)


def test_unless_something_was_chosen_a_window_looks_as_the_settings_say() -> None:
    window = Settings().window
    assert Look(window.view, window.size, window.colours) == Look(step=FIRST_STEP)
