import pytest

from saythesum.keyboard.keys import (
    AdultHasTurn,
    ColoursShown,
    DigitTyped,
    Focus,
    FocusMoved,
    KeyMessage,
    NoRoom,
    NoWindow,
    PutBack,
    ReadBack,
    RubbedOut,
    SizeShown,
    StillTyped,
    ViewShown,
)
from saythesum.settings import Keys
from saythesum.wording.speak.said_keys import BUTTON_NAMES, key_said, keys_said


@pytest.mark.parametrize(
    ("message", "text"),
    [
        (DigitTyped(4), "Four."),
        (RubbedOut(7, is_empty=False), "Rubbed out seven."),
        (RubbedOut(7, is_empty=True), "Rubbed out seven. Nothing typed."),
        (NoRoom(), "No more digits. Enter or Backspace."),
        (StillTyped((4, 0)), "Typed here: four, zero."),
        (PutBack(52), "Fifty-two, put back."),
        (FocusMoved(Focus.STOP, ()), "Stop, button."),
        (FocusMoved(Focus.NOT_WHAT_I_SAID, (4,)), "Not what I said, button."),
        (FocusMoved(Focus.ANSWER, ()), "Answer, nothing typed."),
        (FocusMoved(Focus.ANSWER, (4, 7)), "Answer, four, seven."),
        (AdultHasTurn(), "The adult's turn. F9 gives it back."),
        (ReadBack(44), "Forty-four."),
        (ViewShown("number line"), "Number line view."),
        (ColoursShown("yellow on black"), "Yellow on black."),
        (SizeShown(0), "Size one."),
        (NoWindow(), "There is no window."),
    ],
)
def test_what_is_said_of_keys(message: KeyMessage, text: str) -> None:
    assert key_said(message) == text


def test_every_place_of_tab_has_a_name_of_its_own() -> None:
    assert set(BUTTON_NAMES) == set(Focus)
    assert len({*BUTTON_NAMES.values()}) == len(Focus)


def test_keys_of_the_pupils_own_are_told_after_the_others() -> None:
    assert keys_said(()).endswith(
        "In the window, F2 changes the view, F3 the colours. F9 is the adult's turn. "
        "F12 changes whether I speak or a screen reader."
    )
    own = (("help", "F5"), ("skip", "pad slash"))
    assert keys_said(own) == f"{keys_said(())} F5 helps. Pad slash skips this one."


@pytest.mark.parametrize("setting", Keys.__dataclass_fields__)
def test_every_key_that_can_be_given_has_words(setting: str) -> None:
    (sentence,) = [keys_said([(setting, "F5")]).removeprefix(keys_said(())).strip()]
    assert sentence.startswith("F5 ")
    assert sentence.endswith(".")
