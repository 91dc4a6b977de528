"""A window's keyboard: which key was pressed, whatever the layout and whether Num Lock is on or off.

Keys are identified by their position. Source of the numbers: USB HID Usage Tables, Keyboard/Keypad page (0x07); SDL
numbers its scan codes the same.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from saythesum.keyboard.keymap import EVERYBODYS, Keymap
from saythesum.keyboard.keys import Key, Pressed
from saythesum.settings.switch_names import LETTERS


@dataclass(frozen=True, slots=True)
class Stroke:
    scan: int
    """The key's position, as a usage of page 0x07; 0 if unknown."""
    text: str
    """What the system says it types; "" if it types nothing."""
    at_ms: int
    is_repeat: bool = False
    is_shift: bool = False
    is_ctrl: bool = False
    is_alt: bool = False


def press_of(stroke: Stroke, keymap: Keymap = EVERYBODYS) -> Pressed | None:
    """None for anything that never acts: letters, locks, Insert, Shift, Ctrl or Alt alone, system shortcuts."""
    if stroke.is_alt:
        return None
    if stroke.is_ctrl:
        key = _CHORDS.get(stroke.scan) or _CHORDS_BY_TEXT.get(stroke.text)
        return _pressed(stroke, key) if key else None
    name = _NAMES.get(stroke.scan, "")
    if switch := keymap.switch_of(name):
        return Pressed(switch[0], stroke.at_ms, stroke.is_repeat, name=switch[1])
    key = keymap.keys.get(name)
    digit = _digit(stroke)
    if digit is not None and not (key and name in _PAD):
        return Pressed(Key.DIGIT, stroke.at_ms, stroke.is_repeat, digit)
    if key is Key.TAB and stroke.is_shift:
        key = Key.SHIFT_TAB
    return _pressed(stroke, key) if key else _letter(stroke.text, keymap, stroke.at_ms, is_repeat=stroke.is_repeat)


def presses_of_text(text: str, at_ms: int, keymap: Keymap = EVERYBODYS) -> tuple[Pressed, ...]:
    """Text that arrived without a key press: from a braille display, a switch, an on-screen keyboard or a paste."""
    presses = (
        Pressed(Key.DIGIT, at_ms, digit=int(sign)) if _is_digit(sign) else _letter(sign, keymap, at_ms) for sign in text
    )
    return tuple(press for press in presses if press)


def _digit(stroke: Stroke) -> int | None:
    """By what it types, otherwise by its position: on other layouts the digit row types other signs, and without Num
    Lock the pad types none."""
    if _is_digit(stroke.text):
        return int(stroke.text)
    return None if stroke.is_shift else _DIGITS.get(stroke.scan)


def _is_digit(text: str) -> bool:
    return len(text) == 1 and text.isascii() and text.isdigit()


def _letter(text: str, keymap: Keymap, at_ms: int, *, is_repeat: bool = False) -> Pressed | None:
    digit = keymap.digit_of(text)
    return None if digit is None else Pressed(Key.DIGIT, at_ms, is_repeat, digit, is_letter=True)


def _pressed(stroke: Stroke, key: Key) -> Pressed:
    return Pressed(key, stroke.at_ms, stroke.is_repeat)


_DIGITS: Mapping[int, int] = {
    **{30 + place: (place + 1) % 10 for place in range(10)},  # the row: 1 to 9, then 0
    **{89 + place: (place + 1) % 10 for place in range(10)},  # the pad: likewise
}
_PAD = frozenset(f"pad {digit}" for digit in range(10))
_NAMES: Mapping[int, str] = {
    **{4 + place: letter for place, letter in enumerate(LETTERS)},
    **{40: "Enter", 41: "Escape", 42: "Backspace", 43: "Tab", 44: "Space"},
    **{58 + place: f"F{place + 1}" for place in range(12)},
    **{104 + place: f"F{place + 13}" for place in range(12)},
    **{74: "Home", 75: "Page Up", 76: "Delete", 77: "End", 78: "Page Down"},
    **{79: "Right", 80: "Left", 81: "Down", 82: "Up"},
    **{84: "pad slash", 85: "pad star", 86: "pad minus", 87: "pad plus", 88: "pad enter", 99: "pad dot"},
    **{scan: f"pad {digit}" for scan, digit in _DIGITS.items() if scan >= 89},
    103: "pad equals",
}
_CHORDS: Mapping[int, Key] = {
    **{40: Key.ADULT, 88: Key.ADULT},
    **{45: Key.SMALLER, 86: Key.SMALLER, 46: Key.BIGGER, 87: Key.BIGGER},
}
_CHORDS_BY_TEXT: Mapping[str, Key] = {"-": Key.SMALLER, "+": Key.BIGGER, "=": Key.BIGGER}
"""Plus and minus are in other positions on other layouts."""
