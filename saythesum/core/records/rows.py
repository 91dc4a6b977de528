"""The five kinds of row that are kept for ever. A field that has landed stays.

Rows hold no time: the store adds `at` and `at_ms`.
"""

import hashlib  # noqa: F401 - uuid5 loads it when first called, which would be in the middle of a step
from dataclasses import dataclass
from enum import StrEnum
from typing import Literal, NewType, TypeAlias
from uuid import UUID, uuid5

from saythesum.core.exercises.exercise import Exercise, Key
from saythesum.core.exercises.registry import exercise
from saythesum.core.sums import ExerciseName, Hidden, Part

RowId = NewType("RowId", str)
HeardId = NewType("HeardId", str)


def row_id(practice: UUID, serial: int) -> RowId:
    """The id of the practice's row number `serial`, counting from 0.

    It is made from the practice's own id, so replaying gives the same ids without any randomness.
    """
    return RowId(str(uuid5(practice, f"row {serial}")))


class Support(StrEnum):
    """The level of help at which a part was asked, least first (trade: least-to-most prompting)."""

    INDEPENDENT = "independent"
    REPEATED = "repeated"
    ENCOURAGED = "encouraged"
    ASKED = "asked"
    FIRST_STEP = "first-step"
    MODELLED = "modelled"
    ADULT_HELP = "adult-help"
    ADULT_ANSWER = "adult-answer"


UNAIDED = frozenset({Support.INDEPENDENT, Support.REPEATED})
"""Hearing the question again is not help."""


class Reason(StrEnum):
    """Why something is asked when no answer is the reason."""

    DONT_KNOW = "dont-know"
    HELP = "help"
    MOVED = "moved"
    SKIPPED = "skipped"


class By(StrEnum):
    VOICE = "voice"
    KEYS = "keys"
    TEXT = "text"
    SWITCH = "switch"
    """Chosen from what was offered, by one or two switches."""


class Settled(StrEnum):
    """What made it certain which answer was meant."""

    SAID_BACK = "said-back"
    SAID_AGAIN = "said-again"
    CONFIRMED = "confirmed"
    FOLLOWED = "followed"
    KEYS = "keys"
    TEXT = "text"
    ADULT = "adult"


class Purpose(StrEnum):
    PRACTICE = "practice"
    PROBE = "probe"
    PAPER = "paper"


class Form(StrEnum):
    """The words in which something is asked. With the answer that `because` names, they follow from the row."""

    FIRST = "first"
    """The whole sum, after an introduction to the practice."""
    FRESH = "fresh"
    NEW_ROW = "new-row"
    NEXT_ALONG = "next-along"
    """The next one in the same row: the start need not be said again."""
    SAME_ROW = "same-row"
    BACK = "back"
    """One that was left before."""
    BACK_IN_ROW = "back-in-row"
    """The same, in the row that the pupil is in."""
    CALLED = "called"
    """A part, because the pupil called for help."""
    AFTER_RIGHT = "after-right"
    """The part after one that was answered rightly."""
    AFTER_WRONG = "after-wrong"
    """The part at which help with a wrong answer begins."""
    AGAIN = "again"
    """The same part, after a wrong answer to it."""
    LOOK_AGAIN = "look-again"
    """The whole sum once more, after a wrong answer to it."""
    STEP_DONE = "step-done"
    """What follows a part that the tool did."""
    TELLING_APART = "telling-apart"
    """A small question whose answer tells the mistakes apart that fit a wrong answer, or another way to begin with one
    that came before."""
    EASIER = "easier"
    """A sum of the same grid that will go better, after several that did not."""
    OTHER_WAY = "other-way"
    """The first step of another way, where the one through the ten has not helped."""
    BACK_TO_SUMS = "back-to-sums"
    """The whole sum, after a few facts that the sums led back to."""
    WORKED = "worked"
    """The worked line: the pupil says the answer."""


class Way(StrEnum):
    """How an answer was found."""

    COUNTED = "counted"
    BRIDGED = "bridged"
    TENS_AND_ONES = "tens-and-ones"
    COMPENSATED = "compensated"
    DOUBLED = "doubled"
    KNOWN = "known"


class VoidReason(StrEnum):
    NOT_SAID = "not-said"
    WRONG_PUPIL = "wrong-pupil"
    ADULT = "adult"
    INTERRUPTED = "interrupted"


class EndReason(StrEnum):
    FINISHED = "finished"
    STOPPED = "stopped"
    ADULT = "adult"
    END_OF_INPUT = "end-of-input"


@dataclass(frozen=True, slots=True)
class Ask:
    """A question; it is kept before it is said."""

    id: RowId
    row: int | None
    """Row and column count from 0; None for a question outside a grid."""
    column: int | None
    part: Part
    support: Support
    because: RowId | Reason | None
    """An answer's id, or a reason, or None for the ordinary next cell."""
    activity: int = 0
    """Its place in the practice's plan, from 0."""
    exercise: ExerciseName = ExerciseName.SUM
    hidden: Hidden = Hidden.TOTAL
    form: Form | None = None
    """None only in rows older than format 4; `dialogue.tutor.older_questions` works it out."""
    about: str | None = None
    """What the words are about: for `step-done` the part that the tool did; for `after-right` and `again` the part that
    was asked for before and changes them (the exercise's `begun`); for the first question after a wrong answer the
    mistake that it starts from, by its name."""
    lines: tuple[int, ...] = ()
    """What a talk about patterns is about, in rows and columns of its grid, as the pattern `about` has them; () in any
    other question."""

    @property
    def place(self) -> tuple[int, int]:
        """Row and column of a question in a grid."""
        return _place(self.row, self.column)


def _place(row: int | None, column: int | None) -> tuple[int, int]:
    assert row is not None and column is not None, "this question is not in a grid"
    return row, column


@dataclass(frozen=True, slots=True)
class Answer:
    id: RowId
    row: int | None
    column: int | None
    start: int
    amount: int
    part: Part
    right_answer: int
    given: int
    right: bool
    support: Support
    tries: int
    """Answers to this part of this cell in this visit, this one included."""
    certainty: float | None
    """0 to 1; None for keys and text."""
    close_to: tuple[int, ...]
    heard: HeardId | None
    took_ms: int | None
    """From the end of the question to the first sound or key; None when repeated or interrupted."""
    could_be: tuple[str, ...]
    """Names of the mistakes whose formula gives this number; first those that also fit the pupil's other answers."""
    by: By
    settled: Settled
    sure: bool
    """The gate's verdict on the hearing; always true of typed answers."""
    operation: str = "add"
    """A registered exercise's."""
    purpose: Purpose = Purpose.PRACTICE
    activity: int = 0
    exercise: ExerciseName = ExerciseName.SUM
    hidden: Hidden = Hidden.TOTAL
    way: Way | None = None
    """How it was found: as the pupil said, or by the steps that were talked through; None where neither is known."""

    @property
    def place(self) -> tuple[int, int]:
        """Row and column of a question in a grid."""
        return _place(self.row, self.column)

    @property
    def asked(self) -> Exercise:
        """Raises CallerError where there is no such exercise."""
        return exercise(self.operation, self.start, self.amount, self.exercise, self.hidden)

    @property
    def key(self) -> Key:
        return Key(self.operation, self.start, self.amount, self.exercise, self.hidden)

    @property
    def is_relied_on(self) -> bool:
        """Heard for sure, or said back to the pupil, who let it stand. Any other answer was only followed: it counts as
        no evidence and does not raise support."""
        return self.sure or self.settled is not Settled.FOLLOWED


@dataclass(frozen=True, slots=True)
class Void:
    """Takes back an answer, and with it every row whose `because` leads back to that answer."""

    id: RowId
    of: RowId
    why: VoidReason


class NoteKind(StrEnum):
    SUPPORT = "support"
    WORKED_WITH = "worked-with"
    NOT_COUNTED = "not-counted"
    TEXT = "text"
    WAS_RIGHT = "was-right"
    """The answer was right, whatever was heard."""
    WAY = "way"
    """How it was found, as the adult saw it: a word of `Way`."""
    WAITS = "waits"
    """From here on the tool waits longer, or as usual."""
    OWN_WORDS = "own-words"
    """What the pupil says of the practice."""


@dataclass(frozen=True, slots=True)
class Note:
    id: RowId
    of: RowId | None
    what: NoteKind
    value: str
    by: Literal["adult"] = "adult"


@dataclass(frozen=True, slots=True)
class End:
    id: RowId
    cells: int
    """Cells answered in this practice."""
    right_first_time: int
    """Of these, answered right at the first try and without help."""
    reason: EndReason


Row: TypeAlias = Ask | Answer | Void | Note | End
