"""What is said of keys: the digit just typed, where Tab is, what was rubbed out."""

from collections.abc import Mapping
from typing import assert_never

from saythesum.dialogue import keys
from saythesum.dialogue.keys import Focus
from saythesum.wording.lengths import begun
from saythesum.wording.numbers import listed, words

BUTTON_NAMES: Mapping[Focus, str] = {
    Focus.QUESTION: "Question",
    Focus.ANSWER: "Answer",
    Focus.GRID: "Grid",
    Focus.HELP: "Help",
    Focus.NOT_WHAT_I_SAID: "Not what I said",
    Focus.SKIP: "Skip",
    Focus.STOP: "Stop",
}
"""The same names on the screen and in the ear."""


def key_said(message: keys.KeyMessage) -> str:
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
        case keys.PutBack(value=value):
            return f"{begun(value)}, put back."
        case keys.OnFocus(focus=Focus.ANSWER, digits=digits):
            return f"Answer, {listed(digits) if digits else 'nothing typed'}."
        case keys.OnFocus(focus=focus):
            return f"{BUTTON_NAMES[focus]}, button."
        case keys.AdultHasTurn():
            return "The adult's turn. F9 gives it back."
        case _:
            assert_never(message)
