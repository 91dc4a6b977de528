"""Which answers tell anything about a pupil.

First answers without help tell about the whole sum; the first answer to a step that was asked for tells about
that step. Helped answers, and answers that were not heard for sure, tell nothing.
"""

from enum import Enum, auto
from typing import NamedTuple

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.records.rows import UNAIDED, Answer, By, RowId, Support
from saythesum.core.sums import CLOSING_PARTS, Part

LARGEST_HEARD = 1099
"""Numbers are awaited from 0 to here; what lies beyond is no answer."""


class Tells(Enum):
    NOTHING = auto()
    A_STEP = auto()
    THE_SUM = auto()
    PERHAPS = auto()
    """A wrong hearing that is easily confused with another number: nothing until it comes again."""


class Evidence(NamedTuple):
    of: RowId
    sum: Exercise
    part: Part
    given: int
    by: By

    @property
    def is_right(self) -> bool:
        return self.given == self.sum.answer_to(self.part)


def evidence_of(answer: Answer) -> Evidence:
    return Evidence(answer.id, answer.asked, answer.part, answer.given, answer.by)


def tells(answer: Answer) -> Tells:
    if not (is_possible(answer) and answer.is_relied_on and answer.tries == 1):
        return Tells.NOTHING
    if answer.part is Part.WHOLE and answer.support in UNAIDED:
        return Tells.PERHAPS if answer.close_to and not answer.right else Tells.THE_SUM
    if answer.part is not Part.WHOLE and answer.support is Support.ASKED:
        return Tells.NOTHING if answer.close_to and not answer.right else Tells.A_STEP
    return Tells.NOTHING


def bears_out(again: Answer, first: Answer) -> bool:
    """Whether the same number came again in the same cell, or by keys: then the first was heard rightly."""
    is_same = (again.row, again.column, again.start, again.amount, again.given) == (
        first.row,
        first.column,
        first.start,
        first.amount,
        first.given,
    )
    is_own = again.support not in (Support.MODELLED, Support.ADULT_HELP, Support.ADULT_ANSWER)
    return is_same and is_own and (again.is_relied_on or again.by is not By.VOICE)


def is_possible(answer: Answer) -> bool:
    """Whether it is a number that is awaited, for a part that there is, and marked as the exercise says."""
    if answer.part not in CLOSING_PARTS and answer.part not in answer.asked.parts:
        return False
    return 0 <= answer.given <= LARGEST_HEARD and answer.right == (answer.given == answer.asked.answer_to(answer.part))
