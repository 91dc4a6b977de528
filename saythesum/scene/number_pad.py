"""Keys as buttons, for whoever points, touches or uses assistive software: a number pad, and some without a sum."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from saythesum.keyboard.keys import Focus, Key
from saythesum.wording.numbers import words
from saythesum.wording.speak.said_shown import BEGIN, CLOSE, PAD_NAMES


@dataclass(frozen=True, slots=True)
class PadKeyShown:
    key: Key
    name: str
    digit: int | None = None

    @property
    def text(self) -> str:
        """As it is drawn."""
        return self.name if self.digit is None else str(self.digit)


@dataclass(frozen=True, slots=True)
class CellChosen:
    row: int
    column: int


Pressable: TypeAlias = Focus | PadKeyShown | CellChosen
"""What pressing a thing does: what Tab and Enter would, a key, or as many arrows as lead to a cell."""
PadRows: TypeAlias = Sequence[Sequence[PadKeyShown]]


def _digits(*digits: int) -> tuple[PadKeyShown, ...]:
    return tuple(PadKeyShown(Key.DIGIT, words(digit), digit) for digit in digits)


def _key(key: Key) -> PadKeyShown:
    return PadKeyShown(key, PAD_NAMES[key])


PAD_ROWS: PadRows = (
    _digits(1, 2, 3),
    _digits(4, 5, 6),
    _digits(7, 8, 9),
    (*_digits(0), _key(Key.ENTER)),
    (_key(Key.BACKSPACE),),
)
"""From the top, as on a telephone."""
NUMBER_PAD: Sequence[PadKeyShown] = tuple(key for row in PAD_ROWS for key in row)
CHOOSING = (_key(Key.DOWN), _key(Key.UP), _key(Key.ENTER))
"""They answer the questions of the first start."""
BEGINNING = (PadKeyShown(Key.ENTER, BEGIN),)
CLOSING = (PadKeyShown(Key.ENTER, CLOSE),)
