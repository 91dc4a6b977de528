"""What is said of keys: the digit just typed, where Tab is, what was rubbed out."""

from collections.abc import Mapping, Sequence
from typing import assert_never

from saythesum.keyboard import keys
from saythesum.keyboard.keys import Focus
from saythesum.wording.numbers import listed, words
from saythesum.wording.speak.lengths import begun, capital

BUTTON_NAMES: Mapping[Focus, str] = {
    Focus.QUESTION: "Question",
    Focus.ANSWER: "Answer",
    Focus.GRID: "Grid",
    Focus.HELP: "Help",
    Focus.NOT_WHAT_I_SAID: "Not what I said",
    Focus.SKIP: "Skip",
    Focus.PATTERNS: "Patterns",
    Focus.STOP: "Stop",
}
"""The same names on the screen and in the ear."""


_KEYS = (
    "Type the number, then Enter. Backspace rubs out, or takes back an answer. Space says it again. Page Down helps. "
    "Page Up says where you are. Arrows move about. Escape hushes. Tab finds skip and stop. "
    "F4 looks for a pattern. In the window, F2 changes the view, F3 the colours. F9 is the adult's turn. "
    "F12 changes whether I speak or a screen reader."
)
_DOES: Mapping[str, str] = {
    **{"enter": "is Enter", "backspace": "is Backspace", "say_again": "says it again", "help": "helps"},
    **{"where_am_i": "says where you are", "not_what_i_said": "takes back what you said", "skip": "skips this one"},
    **{"stop": "stops", "left": "goes left", "right": "goes right", "up": "goes up", "down": "goes down"},
    **{"home": "is Home", "end": "is End", "tab": "is Tab", "shift_tab": "is Tab backwards", "escape": "hushes"},
    **{"keys_aloud": "says the keys", "adult": "is the adult's turn", "bigger": "makes the print larger"},
    **{"smaller": "makes the print smaller", "view": "changes the view", "colours": "changes the colours"},
    "screen_reader": "changes whether I speak or a screen reader",
    **{"patterns": "looks for a pattern"},
}
"""By the settings that give a meaning one more key."""


def keys_said(more: Sequence[tuple[str, str]]) -> str:
    """`more`: the settings that give a key, and its name."""
    return " ".join([_KEYS, *(f"{capital(name)} {_DOES[setting]}." for setting, name in more)])


def key_said(message: keys.KeyMessage) -> str:
    if isinstance(message, keys.TypingMessage):
        return _typing(message)
    match message:
        case keys.FocusMoved(focus=Focus.ANSWER, digits=digits):
            return f"Answer, {listed(digits) if digits else 'nothing typed'}."
        case keys.FocusMoved(focus=focus):
            return f"{BUTTON_NAMES[focus]}, button."
        case keys.AdultHasTurn(by_switch=True):
            return "The adult's turn. F9 or your switch gives it back."
        case keys.AdultHasTurn():
            return "The adult's turn. F9 gives it back."
        case keys.ViewShown(view=view):
            return f"{capital(view)} view."
        case keys.ColoursShown(colours=colours):
            return f"{capital(colours)}."
        case keys.SizeShown(step=step):
            return f"Size {words(step + 1)}."
        case keys.SpeakerShown(is_screen_reader=True):
            return "A screen reader speaks now. F12 changes back."
        case keys.SpeakerShown():
            return "I speak now. F12 changes back."
        case keys.NoWindow():
            return "There is no window."
        case _:
            assert_never(message)


def _typing(message: keys.TypingMessage) -> str:
    match message:
        case keys.DigitTyped(digit=digit):
            return f"{begun(digit)}."
        case keys.RubbedOut(digit=digit, is_empty=True):
            return f"Rubbed out {words(digit)}. Nothing typed."
        case keys.RubbedOut(digit=digit):
            return f"Rubbed out {words(digit)}."
        case keys.NoRoom():
            return "No more digits. Enter or Backspace."
        case keys.StillTyped(digits=digits):
            return f"Typed here: {listed(digits)}."
        case keys.ReadBack(value=value):
            return f"{begun(value)}."
        case keys.PutBack(value=value):
            return f"{begun(value)}, put back."
        case _:
            assert_never(message)
