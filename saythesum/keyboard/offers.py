"""What a switch can choose, in the order in which it is offered: the same for every sum, whatever its answer."""

from dataclasses import dataclass
from typing import TypeAlias

from saythesum.core.grids.grid import Cell
from saythesum.core.meanings import MOST_DIGITS, NUMBER_KINDS, Awaiting
from saythesum.dialogue.tutor.plan import Plan
from saythesum.keyboard.answer_entry import Digits, Situation
from saythesum.keyboard.keys import Key


@dataclass(frozen=True, slots=True)
class Offer:
    """Choosing it is pressing this key."""

    key: Key
    digit: int | None = None
    """0 to 9, for `Key.DIGIT`."""


Offers: TypeAlias = tuple[Offer, ...]

_AFTER_A_NUMBER = tuple(map(Offer, (Key.BACKSPACE, Key.SPACE, Key.HELP, Key.SKIP, Key.PAUSE, Key.ADULT, Key.STOP)))
_DIGITS = tuple(Offer(Key.DIGIT, digit) for digit in range(10))
_THATS_IT = (Offer(Key.ENTER),)
_AFTER_A_CHOICE = tuple(map(Offer, (Key.SPACE, Key.PAUSE, Key.ADULT, Key.STOP)))
_YES_OR_NO = (Offer(Key.YES), Offer(Key.NO), *_AFTER_A_CHOICE)
_READY = (Offer(Key.GO_ON), *_AFTER_A_CHOICE)
_IN_A_PAUSE = tuple(map(Offer, (Key.GO_ON, Key.WHERE_AM_I, Key.ADULT, Key.STOP)))
_BACK_TO_THE_PUPIL = (Offer(Key.ADULT),)


def offers(situation: Situation, typed: Digits, most_digits: int, *, is_called: bool) -> Offers:
    """Nothing while the tool speaks, and in an adult's turn unless the pupil called for it (`is_called`).

    `most_digits`: how many digits every number has room for.
    """
    if not situation.is_running:
        return ()
    if situation.is_adults_turn:
        return _BACK_TO_THE_PUPIL if is_called else ()
    if situation.awaits is None:
        return ()
    if situation.is_paused:
        return _IN_A_PAUSE
    if situation.awaits in NUMBER_KINDS:
        return _of_a_number(typed, most_digits, may_be_longer=situation.is_talk)
    return _YES_OR_NO if situation.awaits is Awaiting.CHOICE else _READY


def _of_a_number(typed: Digits, most_digits: int, *, may_be_longer: bool) -> Offers:
    """From the left; a number may also end before all its places are filled, and where patterns are talked about, whose
    numbers are not the grid's, it may go on after them.
    """
    if len(typed) >= most_digits:
        more = _DIGITS if may_be_longer and len(typed) < MOST_DIGITS else ()
        return (*_THATS_IT, *more, *_AFTER_A_NUMBER)
    return (*_DIGITS, *(_THATS_IT if typed else ()), *_AFTER_A_NUMBER)


def comes_by_itself(situation: Situation) -> bool:
    """Where a pupil thinks or rests nothing is offered until a press asks for it."""
    return not situation.is_adults_turn and situation.awaits in {*NUMBER_KINDS, Awaiting.CHOICE}


def most_digits(plan: Plan) -> int:
    """As many as the longest number of any sum in the practice has, so that they tell nothing of this one's answer."""
    return max(
        len(str(number))
        for place, activity in enumerate(plan.activities)
        for row in range(activity.grid.rows)
        for column in range(activity.grid.columns)
        for number in _answers(plan, Cell(row, column, place))
    )


def _answers(plan: Plan, cell: Cell) -> list[int]:
    asked = plan.exercise_at(cell)
    return [asked.start, asked.total, *(asked.answer_to(part) for part in asked.parts)]
