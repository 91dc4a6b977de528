"""Keys of the pupil's own, and letters of braille that are digits."""

import re
from importlib import resources
from itertools import product

import pytest

from saythesum.core.meanings import Awaiting, Choice, Given, Number
from saythesum.errors import CallerError
from saythesum.keyboard.keymap import EVERYBODYS, FINDING_A_SWITCH, Keymap, keymap_of
from saythesum.keyboard.keys import SWITCHES, Key, Pressed
from saythesum.keyboard.scan_codes import Stroke, press_of, presses_of_text
from saythesum.keyboard.terminal_bytes import decoded, held_keys_marked
from saythesum.settings import Braille, Keys, Settings, Switch
from saythesum.settings.key_names import FREE, OWN
from saythesum.settings.switch_names import SwitchName
from saythesum.wording.understand.understood import understood
from tests.keyboard.test_scan_codes import PLACES

LETTERS = {
    "a": "1",
    "b": "12",
    "c": "14",
    "d": "145",
    "e": "15",
    "f": "124",
    "g": "1245",
    "h": "125",
    "i": "24",
    "j": "245",
}
"""Dots. Source: The Rules of Unified English Braille (second edition, 2013), 4.1."""
DIGITS = {1: "1", 2: "12", 3: "14", 4: "145", 5: "15", 6: "124", 7: "1245", 8: "125", 9: "24", 0: "245"}
"""Dots after the numeric indicator, dots 3456. Source: the same, 6.1."""
BRAILLE = keymap_of(Settings(braille=Braille(letters_as_digits=True)))


def place_of(name: str) -> int:
    """As pygame has it for a key that settings call `name`."""
    others = {"Page Up": "PAGEUP", "Page Down": "PAGEDOWN", "Enter": "RETURN"}
    signs = {"slash": "DIVIDE", "star": "MULTIPLY", "minus": "MINUS", "plus": "PLUS", "dot": "PERIOD"}
    if pad := re.fullmatch("pad (.+)", name):
        return int(PLACES["KP_" + signs.get(pad[1], pad[1]).upper()])
    return int(PLACES[others.get(name, name).upper()])


IN_PYGAME = [name for name in (*OWN, *FREE) if not re.fullmatch(r"F(1[6-9]|2\d)", name)]
"""Its list of scan codes ends at F15."""


@pytest.mark.parametrize("name", IN_PYGAME)
def test_a_key_with_a_name_is_found_by_its_place(name: str) -> None:
    keymap = Keymap({name: Key.SKIP})
    assert press_of(Stroke(place_of(name), "", 30), keymap) == Pressed(Key.SKIP, 30)


def test_f13_to_f24_follow_each_other() -> None:
    """Source: USB HID Usage Tables, page 0x07: F13 is 104, F24 is 115."""
    for number in range(13, 25):
        keymap = Keymap({f"F{number}": Key.SKIP})
        assert press_of(Stroke(104 + number - 13, "", 0), keymap) == Pressed(Key.SKIP, 0)


def test_every_meaning_of_a_key_can_have_one_more() -> None:
    """Only digits, what a terminal sends by itself, Space as it presses buttons, and what only a switch comes to have
    none.
    """
    settings = {field.replace("_", "-") for field in Keys.__dataclass_fields__}
    assert settings == set(Key) - {Key.DIGIT, Key.SPACE, Key.CLOSE, Key.PAUSE, Key.GO_ON, Key.YES, Key.NO, *SWITCHES}


@pytest.mark.parametrize("setting", Keys.__dataclass_fields__)
def test_one_more_key_means_the_same(setting: str) -> None:
    keymap = keymap_of(Settings(keys=Keys(**{setting: "F5"})))
    press = press_of(Stroke(PLACES["F5"], "", 0), keymap)
    assert press == Pressed(Key(setting.replace("_", "-")), 0)
    assert {name: keymap.keys[name] for name in EVERYBODYS.keys} == EVERYBODYS.keys


def test_a_pad_digit_that_was_given_away_is_typed_no_more_but_the_row_still_types_it() -> None:
    keymap = keymap_of(Settings(keys=Keys(help="pad 0")))
    for text in ("0", ""):  # whatever Num Lock
        assert press_of(Stroke(PLACES["KP_0"], text, 0), keymap) == Pressed(Key.HELP, 0)
    assert press_of(Stroke(PLACES["0"], "0", 0), keymap) == Pressed(Key.DIGIT, 0, digit=0)
    assert press_of(Stroke(PLACES["KP_1"], "1", 0), keymap) == Pressed(Key.DIGIT, 0, digit=1)


def test_text_that_is_put_in_by_way_of_an_unused_key_is_that_text() -> None:
    """As keyboards on the screen do it."""
    keymap = keymap_of(Settings(keys=Keys(help="F20")))
    assert press_of(Stroke(111, "7", 0), keymap) == Pressed(Key.DIGIT, 0, digit=7)


def test_space_is_no_chord_and_stays_the_key_that_presses_buttons() -> None:
    assert keymap_of(Settings()).keys["Space"] is Key.SPACE


# ---- braille -----------------------------------------------------------------------------------------------


def test_a_letter_is_the_digit_with_the_same_dots() -> None:
    for letter, digit in product(LETTERS, DIGITS):
        assert (BRAILLE.digit_of(letter) == digit) == (LETTERS[letter] == DIGITS[digit])


@pytest.mark.parametrize("letter", [*"klmnopqrstuvwxyz", "", "aa", "é", "²", "⠙"])
def test_no_other_letter_is_a_digit(letter: str) -> None:
    assert BRAILLE.digit_of(letter) is None


def test_letters_are_digits_only_where_the_settings_say_so() -> None:
    assert press_of(Stroke(PLACES["D"], "d", 0)) is None
    assert presses_of_text("dd", 0) == ()
    four = Pressed(Key.DIGIT, 0, digit=4, is_letter=True)
    assert press_of(Stroke(PLACES["D"], "d", 0), BRAILLE) == four
    assert presses_of_text("#dd", 0, BRAILLE) == (four, four)
    assert press_of(Stroke(PLACES["D"], "d", 0, is_ctrl=True), BRAILLE) is None


@pytest.mark.parametrize(
    ("text", "digits"),
    [("dd", "44"), ("#dd", "44"), ("DD", "44"), ("aj", "10"), ("ajj", "100"), ("j", "0")],
)
def test_a_whole_answer_in_letters(text: str, digits: str) -> None:
    assert BRAILLE.digits_of(text) == digits
    assert EVERYBODYS.digits_of(text) is None


@pytest.mark.parametrize("text", ["", "#", "abcde", "d4", "44", "help", "i don't know", "##d", "d d"])
def test_what_is_no_answer_in_letters(text: str) -> None:
    assert BRAILLE.digits_of(text) is None


def test_no_word_that_means_something_is_a_number_in_letters() -> None:
    """Lines of up to four letters a to j, against all that a typed line can mean: every one of a letter or two, every
    30th that is longer, and all words that stand anywhere where lines are understood."""
    short = ["".join(letters) for length in (1, 2) for letters in product("abcdefghij", repeat=length)]
    longer = ["".join(letters) for length in (3, 4) for letters in product("abcdefghij", repeat=length)]
    known = {
        word
        for file in (resources.files("saythesum") / "wording" / "understand").iterdir()
        if file.name.endswith(".py")
        for word in re.findall(r"\b[a-j]{3,4}\b", file.read_text("utf-8"))
    }
    assert {"add", "back", "hide"} & known
    meant = {
        line
        for line in (*short, *longer[::30], *known)
        for awaiting in (Awaiting.NUMBER, Awaiting.STEP)
        if isinstance(understood(line, awaiting, typed=True), Given | Choice | Number)
    }
    assert meant == set()


# ---- switches


def test_a_switch_takes_its_key_from_what_else_that_meant_only_for_who_practises_by_it() -> None:
    settings = Settings(switch=Switch(first="Space", second="pad 0"))
    space, pad_0 = Stroke(place_of("Space"), " ", 30), Stroke(98, "0", 30)
    by_switch = keymap_of(settings, is_by_switch=True)
    assert press_of(space, by_switch) == Pressed(Key.SWITCH, 30)
    assert press_of(pad_0, by_switch) == Pressed(Key.SECOND_SWITCH, 30)
    assert press_of(space, keymap_of(settings)) == Pressed(Key.SPACE, 30)
    assert press_of(pad_0, keymap_of(settings)) == Pressed(Key.DIGIT, 30, digit=0)


def test_two_switches_of_one_name_are_one() -> None:
    settings = Settings(switch=Switch(first="Space", second="Space"))
    assert press_of(Stroke(place_of("Space"), " ", 30), keymap_of(settings, is_by_switch=True)) == Pressed(
        Key.SWITCH, 30
    )
    assert not settings.switch.has_two


@pytest.mark.parametrize("name", ["K", "F8", "Space", "Enter", "pad enter", "Left"])
def test_while_a_switch_is_looked_for_each_key_says_its_name(name: str) -> None:
    place = 4 + ord(name) - ord("A") if len(name) == 1 else place_of(name)
    assert press_of(Stroke(place, "", 30), FINDING_A_SWITCH) == Pressed(Key.SWITCH, 30, name=name)


@pytest.mark.parametrize(("name", "key"), [("F9", Key.ADULT), ("Escape", Key.ESCAPE)])
def test_what_an_adult_needs_is_never_a_switch(name: str, key: Key) -> None:
    assert press_of(Stroke(place_of(name), "", 30), FINDING_A_SWITCH) == Pressed(key, 30)


@pytest.mark.parametrize("name", ["f9", "Escape", "5", "ctrl", "joystick 0", "joystick 33", "mouse", "", 7, True])
def test_what_is_no_switch_is_told_with_what_would_be(name: object) -> None:
    with pytest.raises(CallerError, match="joystick 1"):
        SwitchName().taken(name)


@pytest.mark.parametrize(
    ("written", "name"), [("MOUSE  left", "mouse left"), ("joystick 12", "joystick 12"), ("space", "Space"), ("k", "K")]
)
def test_the_name_of_a_switch_is_read_as_it_is_typed(written: str, name: str) -> None:
    assert SwitchName().taken(written) == name


def test_a_terminal_that_repeats_a_held_switch_presses_it_once() -> None:
    """The first repeat comes after 0.66 s, and then 25 a second; it is let go at once, as nothing tells when it is."""
    keymap = keymap_of(Settings(switch=Switch(first="Space")), is_by_switch=True)
    times = [0, 660, *range(700, 3_000, 40)]
    presses = [press for at_ms in times for press in decoded(b" ", at_ms, keymap)[0]]
    held = list(held_keys_marked(presses))
    assert [press.at_ms for press in held if not (press.is_repeat or press.is_let_go)] == [0]
    assert sum(press.is_let_go for press in held) == len(times)
