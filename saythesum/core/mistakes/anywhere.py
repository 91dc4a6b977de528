"""Patterns that can fit any question: a lost place in the grid, the previous answer, a slip on the keys."""

from collections.abc import Iterator
from functools import lru_cache

from saythesum.core.mistakes.pattern import HelpFrom, Occasion, Pattern
from saythesum.core.sums import Calculation

KEY_ROW = "1234567890"
BRAILLE_ALIKE = ("59", "4680")
"""Digits whose braille cells are one shape, mirrored or turned."""


def _answers_next_to_it(occasion: Occasion[Calculation]) -> tuple[int, ...]:
    return tuple(other.total for other in occasion.beside)


def _answer_before_it(occasion: Occasion[Calculation]) -> tuple[int, ...]:
    return () if occasion.before is None else (occasion.before,)


def _mistyped(occasion: Occasion[Calculation]) -> tuple[int, ...]:
    return _mistypings(occasion.asked.total) if occasion.is_typed else ()


@lru_cache(maxsize=1024)
def _mistypings(total: int) -> tuple[int, ...]:
    meant = str(total)
    typed = {digits for place in range(len(meant)) for digits in _slips_at(meant, place)} - {"", meant}
    return tuple(sorted({int(digits) for digits in typed}))


def _slips_at(meant: str, place: int) -> Iterator[str]:
    """The number with the digit at this place left out, doubled, or replaced."""
    before, digit, after = meant[:place], meant[place], meant[place + 1 :]
    yield before + after
    yield before + digit + digit + after
    at = KEY_ROW.index(digit)
    alike = "".join(shape for shape in BRAILLE_ALIKE if digit in shape)
    for other in KEY_ROW[max(at - 1, 0) : at + 2] + alike:
        yield before + other + after


NEIGHBOUR_CELL: Pattern[Calculation] = Pattern(
    "A24",
    "neighbour-cell",
    _answers_next_to_it,
    HelpFrom.PLACE_AGAIN,
    "The place in the grid was lost: this is the answer next to it.",
    "Put one finger on {start} at the side and one on {amount} at the top. Where do they meet?",
    "Perkins, the role of the teacher of visually impaired pupils in reading tables by touch",
)

PREVIOUS_ANSWER: Pattern[Calculation] = Pattern(
    "A25",
    "previous-answer",
    _answer_before_it,
    HelpFrom.QUESTION_AGAIN,
    "The answer before was said again: tired, or still with the last question.",
    "That was the last one. Shall we rest, or hear the new one: {start}, and {amount} more?",
)

KEY_SLIP: Pattern[Calculation] = Pattern(
    "A28",
    "key-slip",
    _mistyped,
    HelpFrom.DIGITS,
    "A digit was left out, doubled, or its neighbour pressed; in braille, a shape mirrored or turned.",
    "Read me what stands there, digit by digit.",
    "Arter, on young pupils who find braille hard; braille shapes from the liblouis tables",
    gives_way=True,  # its help is to hear the digits, and each was spoken as it was typed
)

ANYWHERE = (NEIGHBOUR_CELL, PREVIOUS_ANSWER, KEY_SLIP)
