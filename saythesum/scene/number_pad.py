"""A number pad of buttons: what it presses is what keys press."""

from collections.abc import Sequence
from dataclasses import dataclass

from saythesum.keyboard.keys import Key
from saythesum.wording.numbers import words
from saythesum.wording.speak.said_shown import PAD_NAMES


@dataclass(frozen=True, slots=True)
class PadKeyShown:
    key: Key
    name: str
    digit: int | None = None


NUMBER_PAD: Sequence[PadKeyShown] = (
    *(PadKeyShown(Key.DIGIT, words(digit), digit) for digit in (*range(1, 10), 0)),
    *(PadKeyShown(key, PAD_NAMES[key]) for key in (Key.BACKSPACE, Key.ENTER)),
)
