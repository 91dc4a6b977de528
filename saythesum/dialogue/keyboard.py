"""A window's keyboard: which key a stroke is, whatever its layout and whether Num Lock is on or off.

Keys are known by their place. Source of the numbers: USB HID Usage Tables, Keyboard/Keypad page (0x07); SDL numbers
its scan codes the same.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from saythesum.dialogue.keys import Key, Pressed


@dataclass(frozen=True, slots=True)
class Stroke:
    scan: int
    """The key's place, as a usage of page 0x07; 0 where unknown."""
    text: str
    """What the system says it types; "" where it types nothing."""
    at_ms: int
    is_repeat: bool = False
    is_shift: bool = False
    is_ctrl: bool = False
    is_alt: bool = False


def press_of(stroke: Stroke) -> Pressed | None:
    """None for whatever is never a key: letters, locks, Insert, a lone Shift, Ctrl or Alt, chords of the system."""
    if stroke.is_alt:
        return None
    if stroke.is_ctrl:
        key = _CHORDS.get(stroke.scan) or _CHORDS_BY_TEXT.get(stroke.text)
        return _pressed(stroke, key) if key else None
    digit = _digit(stroke)
    if digit is not None:
        return Pressed(Key.DIGIT, stroke.at_ms, stroke.is_repeat, digit)
    key = _KEYS.get(stroke.scan)
    if key is Key.TAB and stroke.is_shift:
        key = Key.SHIFT_TAB
    return _pressed(stroke, key) if key else None


def presses_of_text(text: str, at_ms: int) -> tuple[Pressed, ...]:
    """Text that came without a key: from a braille display, a switch, an on-screen keyboard, a paste."""
    return tuple(Pressed(Key.DIGIT, at_ms, digit=int(sign)) for sign in text if _is_digit(sign))


def _digit(stroke: Stroke) -> int | None:
    """By what it types; else by its place: rows of other layouts type other signs, a pad without Num Lock none."""
    if _is_digit(stroke.text):
        return int(stroke.text)
    return None if stroke.is_shift else _DIGITS.get(stroke.scan)


def _is_digit(text: str) -> bool:
    return len(text) == 1 and text.isascii() and text.isdigit()


def _pressed(stroke: Stroke, key: Key) -> Pressed:
    return Pressed(key, stroke.at_ms, stroke.is_repeat)


_DIGITS: Mapping[int, int] = {
    **{30 + place: (place + 1) % 10 for place in range(10)},  # the row: 1 to 9, then 0
    **{89 + place: (place + 1) % 10 for place in range(10)},  # the pad: likewise
}
_KEYS: Mapping[int, Key] = {
    **{40: Key.ENTER, 88: Key.ENTER, 41: Key.ESCAPE, 42: Key.BACKSPACE, 43: Key.TAB, 44: Key.SPACE},
    **{58: Key.KEYS_ALOUD, 66: Key.ADULT},
    **{74: Key.HOME, 75: Key.WHERE_AM_I, 77: Key.END, 78: Key.HELP},
    **{79: Key.RIGHT, 80: Key.LEFT, 81: Key.DOWN, 82: Key.UP},
    **{85: Key.SAY_AGAIN, 86: Key.BACKSPACE, 87: Key.HELP, 99: Key.WHERE_AM_I},  # the pad: star, minus, plus, dot
}
_CHORDS: Mapping[int, Key] = {
    **{40: Key.ADULT, 88: Key.ADULT},
    **{45: Key.SMALLER, 86: Key.SMALLER, 46: Key.BIGGER, 87: Key.BIGGER},
}
_CHORDS_BY_TEXT: Mapping[str, Key] = {"-": Key.SMALLER, "+": Key.BIGGER, "=": Key.BIGGER}
"""Plus and minus lie elsewhere on other layouts."""
