import pytest

from saythesum.dialogue.keys import (
    AdultHasTurn,
    DigitTyped,
    Focus,
    KeyMessage,
    NoRoom,
    OnFocus,
    PutBack,
    RubbedOut,
    StillTyped,
)
from saythesum.wording.said_keys import BUTTON_NAMES, key_said


@pytest.mark.parametrize(
    ("message", "text"),
    [
        (DigitTyped(4), "Four."),
        (RubbedOut(7, is_empty=False), "Rubbed out seven."),
        (RubbedOut(7, is_empty=True), "Rubbed out seven. Nothing typed."),
        (NoRoom(), "No more digits. Enter or Backspace."),
        (StillTyped((4, 0)), "Typed here: four, zero."),
        (PutBack(52), "Fifty-two, put back."),
        (OnFocus(Focus.STOP, ()), "Stop, button."),
        (OnFocus(Focus.NOT_WHAT_I_SAID, (4,)), "Not what I said, button."),
        (OnFocus(Focus.ANSWER, ()), "Answer, nothing typed."),
        (OnFocus(Focus.ANSWER, (4, 7)), "Answer, four, seven."),
        (AdultHasTurn(), "The adult's turn. F9 gives it back."),
    ],
)
def test_what_is_said_of_keys(message: KeyMessage, text: str) -> None:
    assert key_said(message) == text


def test_every_place_of_tab_has_a_name_of_its_own() -> None:
    assert set(BUTTON_NAMES) == set(Focus)
    assert len({*BUTTON_NAMES.values()}) == len(Focus)
