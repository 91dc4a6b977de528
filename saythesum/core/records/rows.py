"""The five kinds of row that are kept for ever. A field once landed stays.

Rows know no time: whoever stores one adds `at` and `at_ms`.
"""

import hashlib  # noqa: F401 - uuid5 loads it when first called, which would be in the middle of a step
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from typing import Literal, NewType, TypeAlias
from uuid import UUID, uuid5

from saythesum.core.sums import Part, Sum

RowId = NewType("RowId", str)
HeardId = NewType("HeardId", str)


def row_id(practice: UUID, serial: int) -> RowId:
    """The id of a practice's row number `serial` (0 is the first).

    Made from the practice's own id, so that replaying gives the same ids and needs no dice.
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
    """Why something is asked, where no answer is the reason."""

    DONT_KNOW = "dont-know"
    HELP = "help"
    MOVED = "moved"
    SKIPPED = "skipped"


class By(StrEnum):
    VOICE = "voice"
    KEYS = "keys"
    TEXT = "text"


class Settled(StrEnum):
    """How it became certain what the answer was."""

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
    """Kept before it is said."""

    id: RowId
    row: int
    column: int
    part: Part
    support: Support
    because: RowId | Reason | None
    """An answer's id, or a reason, or None for the ordinary next cell."""


@lru_cache(maxsize=2048)
def _sum(start: int, amount: int) -> Sum:
    """One for all the answers to it: a year's answers are to few sums, and each is looked up by its sum."""
    return Sum(start, amount)


@dataclass(frozen=True, slots=True)
class Answer:
    id: RowId
    row: int
    column: int
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
    """Names of the mistakes whose formula gives this number; first what fits the pupil's other answers, too."""
    by: By
    settled: Settled
    operation: Literal["add", "take"] = "add"
    purpose: Purpose = Purpose.PRACTICE
    sure: bool = True
    """Whether the gate that judges hearings took it; what was typed is always sure."""

    @property
    def sum(self) -> Sum:
        return _sum(self.start, self.amount)

    @property
    def is_relied_on(self) -> bool:
        """Heard for sure, or said back to the pupil, who let it stand. Anything else was only followed: it is no
        evidence and raises no support."""
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
