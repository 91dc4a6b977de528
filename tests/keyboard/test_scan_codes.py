"""Strokes of a window's keyboard. The places are checked against pygame's own list of scan codes."""

import random

import pygame
import pytest

from saythesum.keyboard.keys import Key, Pressed
from saythesum.keyboard.scan_codes import Stroke, press_of, presses_of_text
from tests.dialogue.at_the_keys import AtTheKeys

PLACES = {name.removeprefix("KSCAN_"): scan for name, scan in vars(pygame).items() if name.startswith("KSCAN_")}
ENTER = Stroke(PLACES["KP_ENTER"], "\r", 0)


def key_at(place: str, text: str = "", *, shift: bool = False, ctrl: bool = False, alt: bool = False) -> Key | None:
    press = press_of(Stroke(PLACES[place], text, 0, is_shift=shift, is_ctrl=ctrl, is_alt=alt))
    return press.key if press else None


@pytest.mark.parametrize("digit", range(10))
def test_digits_of_row_and_pad(digit: int) -> None:
    typed = Pressed(Key.DIGIT, 40, digit=digit)
    assert press_of(Stroke(PLACES[f"{digit}"], str(digit), 40)) == typed
    assert press_of(Stroke(PLACES[f"KP_{digit}"], str(digit), 40)) == typed
    assert press_of(Stroke(PLACES[f"KP_{digit}"], "", 40)) == typed, "Num Lock off"


def test_pad_without_num_lock_types_and_does_not_move() -> None:
    """A pad whose 4 is also the arrow to the left."""
    pupil = AtTheKeys().keys("right")
    four = Stroke(PLACES["KP_4"], "", 0)
    pupil.presses(press_of(stroke) for stroke in (four, four, ENTER))
    assert pupil.given == [44]
    assert pupil.at == (0, 1)


@pytest.mark.parametrize(
    ("place", "text", "shift", "digit"),
    [
        ("4", "'", False, 4),  # French: the row types signs, with Shift digits
        ("4", "4", True, 4),
        ("2", "é", False, 2),
        ("4", "č", False, 4),  # Czech: likewise
        ("4", "$", True, None),  # British: with Shift it is a sign
        ("UNKNOWN", "7", False, 7),
        ("4", "٤", False, 4),  # another script's digit counts by its place alone
        ("UNKNOWN", "٤", False, None),
        ("UNKNOWN", "²", False, None),
    ],
)
def test_digits_of_other_layouts(place: str, text: str, shift: bool, digit: int | None) -> None:
    press = press_of(Stroke(PLACES[place], text, 0, is_shift=shift))
    assert (press.digit if press else None) == digit


@pytest.mark.parametrize(
    ("places", "key"),
    [
        (("RETURN", "KP_ENTER"), Key.ENTER),
        (("BACKSPACE", "KP_MINUS"), Key.BACKSPACE),
        (("SPACE",), Key.SPACE),
        (("KP_MULTIPLY",), Key.SAY_AGAIN),
        (("PAGEDOWN", "KP_PLUS"), Key.HELP),
        (("PAGEUP", "KP_PERIOD"), Key.WHERE_AM_I),
        (("LEFT",), Key.LEFT),
        (("RIGHT",), Key.RIGHT),
        (("UP",), Key.UP),
        (("DOWN",), Key.DOWN),
        (("HOME",), Key.HOME),
        (("END",), Key.END),
        (("TAB",), Key.TAB),
        (("ESCAPE",), Key.ESCAPE),
        (("F1",), Key.KEYS_ALOUD),
        (("F2",), Key.VIEW),
        (("F3",), Key.COLOURS),
        (("F9",), Key.ADULT),
    ],
)
def test_keys_by_place(places: tuple[str, ...], key: Key) -> None:
    assert {key_at(place) for place in places} == {key}


def test_chords() -> None:
    assert key_at("TAB", shift=True) is Key.SHIFT_TAB
    assert {key_at("RETURN", "\r", ctrl=True), key_at("KP_ENTER", ctrl=True)} == {Key.ADULT}
    assert {key_at("EQUALS", ctrl=True), key_at("KP_PLUS", ctrl=True), key_at("RIGHTBRACKET", "+", ctrl=True)} == {
        Key.BIGGER
    }
    assert {key_at("MINUS", ctrl=True), key_at("KP_MINUS", ctrl=True), key_at("SLASH", "-", ctrl=True)} == {Key.SMALLER}
    assert key_at("4", "4", ctrl=True) is None
    assert key_at("4", "4", alt=True) is None
    assert key_at("F4", alt=True) is None


NEVER = (
    *("LSHIFT", "RSHIFT", "LCTRL", "RCTRL", "LALT", "RALT", "LGUI", "RGUI", "MENU"),
    *("CAPSLOCK", "NUMLOCK", "SCROLLOCK", "INSERT", "DELETE", "PRINTSCREEN", "PAUSE", "F5", "F10", "F12"),
    *"ABCDEFGHIJKLMNOPQRSTUVWXYZ",
)


@pytest.mark.parametrize("seed", range(20))
def test_twenty_keys_that_are_none(seed: int) -> None:
    """Shift, Ctrl, Caps, Insert and letters, in any company: nothing answered, nothing moved, nothing said."""
    dice = random.Random(seed)
    pupil = AtTheKeys().keys("4")
    before = (pupil.talk.state, pupil.typing, list(pupil.told))
    for _ in range(20):
        place = dice.choice(NEVER)
        letter = place.lower() if len(place) == 1 else ""
        marks = {mark: dice.random() < 0.3 for mark in ("is_shift", "is_ctrl", "is_alt")}
        pupil.presses([press_of(Stroke(PLACES[place], letter, dice.randrange(9000), **marks))])
    assert (pupil.talk.state, pupil.typing, pupil.told) == before
    assert pupil.posted == []


def test_a_held_key_stays_marked_as_held() -> None:
    press = press_of(Stroke(PLACES["7"], "7", 900, is_repeat=True))
    assert press == Pressed(Key.DIGIT, 900, is_repeat=True, digit=7)


def test_text_without_a_key() -> None:
    assert presses_of_text("4a ²٤7\n", 30) == (Pressed(Key.DIGIT, 30, digit=4), Pressed(Key.DIGIT, 30, digit=7))
