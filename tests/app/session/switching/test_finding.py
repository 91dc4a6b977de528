"""The switch is found by being pressed."""

from collections.abc import Mapping

import pytest

from saythesum.app.session.inbox import Happened, Inbox
from saythesum.app.session.switching.finding import SwitchFinder
from saythesum.dialogue.turns.events import InputEnded
from saythesum.keyboard.keys import Key, Pressed
from saythesum.ports import Over, OwnSound
from saythesum.wording.speak.said_switch import (
    HOLDS_NO_SWITCH,
    PRESS_SECOND,
    PRESS_YOUR_SWITCH,
    SWITCH_KEPT,
    press_again,
)


def found(*happens: Happened) -> tuple[Mapping[str, str] | None, list[str], list[Happened]]:
    """What was found, what was said, and what was no press of a switch."""
    inbox = Inbox(lambda: 0)
    said: list[str] = []
    aside: list[Happened] = []
    for thing in (*happens, InputEnded(99_000)):
        inbox.post(thing)
    return SwitchFinder(inbox, said.append, aside.append, debounce_ms=500).find(), said, aside


def press(name: str, at_s: float) -> Pressed:
    return Pressed(Key.SWITCH, round(at_s * 1000), name=name)


def test_one_switch_pressed_twice_and_once_more_as_there_is_no_second() -> None:
    changes, said, _ = found(press("Space", 1), press("Space", 3), press("Space", 6))
    assert changes == {"first": "Space"}
    assert said == [PRESS_YOUR_SWITCH, press_again("Space"), PRESS_SECOND, SWITCH_KEPT]


def test_two_switches() -> None:
    names = ("mouse left", "mouse left", "joystick 2", "joystick 2")
    changes, said, _ = found(*(press(name, 2 * place) for place, name in enumerate(names)))
    assert changes == {"first": "mouse left", "second": "joystick 2"}
    assert said[1] == "That's the left mouse button. Press it once more."
    assert said[3] == "That's button two. Press it once more."


def test_an_elbow_on_another_key_does_not_become_the_switch() -> None:
    changes, _, _ = found(press("K", 1), press("F8", 3), press("F8", 5), press("F8", 7))
    assert changes == {"first": "F8"}


@pytest.mark.parametrize(("is_repeat", "is_let_go"), [(True, False), (False, True), (False, False)])
def test_a_bounce_is_no_second_press(is_repeat: bool, is_let_go: bool) -> None:
    bounced = Pressed(Key.SWITCH, 1_200, name="Space", is_repeat=is_repeat, is_let_go=is_let_go)
    changes, said, _ = found(press("Space", 1), bounced)
    assert changes is None
    assert said == [PRESS_YOUR_SWITCH, press_again("Space")]


def test_a_digit_cannot_be_one_as_it_is_typed_as_an_answer() -> None:
    _, said, _ = found(Pressed(Key.DIGIT, 1_000, digit=5))
    assert said == [PRESS_YOUR_SWITCH, HOLDS_NO_SWITCH]


def test_the_end_of_what_was_said_is_passed_on() -> None:
    over = Over(OwnSound(1), 400)
    assert found(over)[2] == [over]


@pytest.mark.parametrize("end", [InputEnded(5), Pressed(Key.CLOSE, 5), Pressed(Key.STOP, 5)])
def test_closing_ends_it(end: Happened) -> None:
    assert found(press("Space", 1), end, press("Space", 4))[0] is None
