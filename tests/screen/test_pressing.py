"""What a thing that is pressed or focused from outside comes to, carried out as keys are."""

import itertools

import pytest

from saythesum.core.records.rows import HeardId
from saythesum.keyboard.answer_entry import Typing, situation
from saythesum.keyboard.key_actions import pressed
from saythesum.keyboard.keys import Focus, Pressed
from saythesum.screen.pressing import focused_by
from tests.screen.scenes import Shown


@pytest.mark.parametrize("shows_grid", [False, True])
def test_the_focus_comes_to_where_assistive_software_puts_it(shows_grid: bool) -> None:
    shown = Shown()
    places = Typing(shows_grid=shows_grid).places
    for here, there in itertools.product(places, places):
        shown.typing = Typing(focus=here, shows_grid=shows_grid)
        for press in focused_by(there, shown.scene, at_ms=0):
            assert isinstance(press, Pressed)
            now = situation(shown.talk.state)
            shown.typing, _ = pressed(shown.typing, press, situation=now, heard_id=HeardId("1"))
        assert shown.typing.focus is there


def test_a_button_that_has_gone_meanwhile_gets_no_focus() -> None:
    assert focused_by(Focus.PATTERNS, Shown().scene, at_ms=0) == []
