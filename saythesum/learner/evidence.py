"""Which answers count: the one definition for what is known of a pupil, findings, the end of a practice and reports.

First answers without help tell about the whole sum; the first answer to a step that was asked for tells about
that step. Helped answers, and answers that were not heard for sure, tell nothing. Rows that a void has reached are
left out before.
"""

from collections.abc import Mapping
from enum import Enum, auto
from typing import NamedTuple, TypeAlias

from saythesum.core.exercises.exercise import Exercise, Key
from saythesum.core.exercises.registry import exercise
from saythesum.core.grids.grid import Cell
from saythesum.core.meanings import LARGEST_NUMBER
from saythesum.core.records.rows import UNAIDED, Answer, By, Purpose, RowId, Support
from saythesum.core.sums import CLOSING_PARTS, ExerciseName, Part


class Tells(Enum):
    NOTHING = auto()
    A_STEP = auto()
    THE_SUM = auto()
    PERHAPS = auto()
    """A wrong hearing that is easily confused with another number: nothing until it comes again."""


Unsettled: TypeAlias = Mapping[Cell, Answer]
"""Wrong answers that may have been misheard, one for a cell."""


class Evidence(NamedTuple):
    of: RowId
    key: Key
    """The exercise, in plain values: what is known of a pupil can be kept in a file."""
    part: Part
    given: int
    by: By

    @property
    def asked(self) -> Exercise:
        return exercise(*self.key)

    @property
    def is_right(self) -> bool:
        return self.given == self.asked.answer_to(self.part)


def evidence_of(answer: Answer) -> Evidence:
    return Evidence(answer.id, answer.key, answer.part, answer.given, answer.by)


def tells(answer: Answer) -> Tells:
    """What an answer tells by itself. One that came back on paper tells nothing, as nobody saw how it came about; one
    in a talk about patterns tells of nothing but the talk."""
    if answer.purpose is Purpose.PAPER or answer.exercise is ExerciseName.PATTERN:
        return Tells.NOTHING
    if not (is_possible(answer) and answer.is_relied_on and answer.tries == 1):
        return Tells.NOTHING
    if answer.part is Part.WHOLE and answer.support in UNAIDED:
        return Tells.PERHAPS if answer.close_to and not answer.right else Tells.THE_SUM
    if answer.part is not Part.WHOLE and answer.support is Support.ASKED:
        return Tells.NOTHING if answer.close_to and not answer.right else Tells.A_STEP
    return Tells.NOTHING


def counted(answer: Answer, unsettled: Unsettled) -> tuple[Answer | None, Unsettled]:
    """What counts now that this answer is kept (it, the one that it bears out, or neither), and what is unsettled."""
    if answer.exercise is ExerciseName.PATTERN:
        return None, unsettled
    cell = Cell(*answer.place)
    match tells(answer):
        case Tells.THE_SUM:
            return answer, _without(cell, unsettled)
        case Tells.A_STEP:
            return answer, unsettled
        case Tells.PERHAPS:
            return None, {**unsettled, cell: answer}
        case Tells.NOTHING:
            first = unsettled.get(cell)
            if first is not None and _bears_out(answer, first):
                return first, _without(cell, unsettled)
            return None, unsettled


def _without(cell: Cell, unsettled: Unsettled) -> Unsettled:
    if cell not in unsettled:
        return unsettled
    return {other: answer for other, answer in unsettled.items() if other != cell}


def _bears_out(again: Answer, first: Answer) -> bool:
    """Whether the same number came again in the same cell, or by keys: then the first was heard rightly."""
    is_same = (again.asked, again.given) == (first.asked, first.given)
    is_own = again.support not in (Support.MODELLED, Support.ADULT_HELP, Support.ADULT_ANSWER)
    return is_same and is_own and (again.is_relied_on or again.by is not By.VOICE)


def is_possible(answer: Answer) -> bool:
    """Whether it is a number that is awaited, for a part that there is, and marked as the exercise says."""
    if answer.exercise is ExerciseName.PATTERN:
        return answer.given <= LARGEST_NUMBER and answer.right == (answer.given == answer.right_answer)
    known = (*answer.asked.parts, *answer.asked.small_questions)
    if answer.part not in CLOSING_PARTS and answer.part not in known:
        return False
    return 0 <= answer.given <= LARGEST_NUMBER and answer.right == (answer.given == answer.asked.answer_to(answer.part))
