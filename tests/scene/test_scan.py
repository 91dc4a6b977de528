"""What is offered to a switch, as it is shown and told."""

from dataclasses import replace

import pytest

from saythesum.dialogue.step import State
from saythesum.dialogue.turns.effects import Ear
from saythesum.keyboard.answer_entry import Typing
from saythesum.keyboard.keys import Key
from saythesum.keyboard.offers import Offer
from saythesum.keyboard.scanning import Scan
from saythesum.scene.scan import NOTHING_OFFERED, scan_shown
from saythesum.scene.scene import Now, scene
from tests.talk import Talk, plan_of


def asked(ear: Ear = Ear.SWITCH, *, has_screen_reader: bool = False) -> State:
    plan = plan_of((38,), (5,))
    window = replace(plan.settings.window, screen_reader=has_screen_reader)
    talk = Talk(replace(plan, settings=replace(plan.settings, window=window)), ear=ear)
    talk.begin()
    return talk.state


SEVEN = scan_shown(Scan((Offer(Key.DIGIT, 7),), at=0, count=9), (), is_adults_turn=False)
WAITS = scan_shown(Scan((Offer(Key.DIGIT, 7),)), (), is_adults_turn=False)


@pytest.mark.parametrize(
    ("offer", "typed", "text", "name"),
    [
        (Offer(Key.DIGIT, 0), (), "0", "Zero."),
        (Offer(Key.ENTER), (4, 3), "That's it, 43", "That's it, forty-three."),
        (Offer(Key.ENTER), (0, 5), "That's it, 5", "That's it, five."),
        (Offer(Key.BACKSPACE), (4,), "Rub out", "Rub out."),
        (Offer(Key.BACKSPACE), (), "Take back the last one", "Take back the last one."),
        (Offer(Key.ADULT), (), "The adult's turn", "The adult's turn."),
    ],
)
def test_each_thing_in_print_and_in_words(offer: Offer, typed: tuple[int, ...], text: str, name: str) -> None:
    shown = scan_shown(Scan((offer,), at=0), typed, is_adults_turn=False)
    assert (shown.text, shown.name) == (text, name)


def test_in_the_adults_turn_the_same_key_gives_it_back() -> None:
    assert scan_shown(Scan((Offer(Key.ADULT),), at=0), (), is_adults_turn=True).text == "Back to my turn"


@pytest.mark.parametrize(
    ("scan", "now"), [(SEVEN, Now.CHOOSE), (WAITS, Now.PRESS), (NOTHING_OFFERED, Now.SWITCH_WAITS)]
)
def test_what_the_switch_does_now_is_told(scan: object, now: Now) -> None:
    assert scene(asked(), Typing(), None, scan).now is now  # type: ignore[arg-type]


def test_only_who_practises_by_switch_is_shown_offers() -> None:
    assert scene(asked(), Typing(), None, SEVEN).offered == SEVEN
    assert scene(asked(Ear.KEYS), Typing()).offered is None


def test_a_screen_reader_that_speaks_for_the_tool_says_what_is_offered_each_time_anew() -> None:
    state = asked(has_screen_reader=True)
    first = scene(state, Typing(), None, SEVEN).spoken
    again = scene(state, Typing(), None, replace(SEVEN, count=SEVEN.count + 10)).spoken
    assert first.text == again.text == "Seven."
    assert again.turn > first.turn
    assert "Seven" not in scene(asked(), Typing(), None, SEVEN).spoken.text
