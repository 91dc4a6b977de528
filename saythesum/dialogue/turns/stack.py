"""The topics of the talk: small values on a stack, never saved. What each does is in the module of its kind."""

from dataclasses import dataclass
from typing import TypeAlias

from saythesum.core.grids.grid import Cell
from saythesum.core.meanings import Awaiting, Command, HowHeard, Number
from saythesum.core.records.marks import Mark
from saythesum.core.records.rows import Answer, Ask, Settled
from saythesum.core.sums import CLOSING_PARTS, ExerciseName, Part


@dataclass(frozen=True, slots=True)
class Asking:
    """A whole answer or a total is awaited; a spoken one will be said back."""

    times_unsure: int = 0


@dataclass(frozen=True, slots=True)
class Guiding:
    """The answer to one guided part is awaited; it is followed, not said back."""


@dataclass(frozen=True, slots=True)
class SayingBack:
    """A spoken number was said back and its pause is open. Nothing is kept yet."""

    number: Number
    how: HowHeard
    settled: Settled = Settled.SAID_BACK


@dataclass(frozen=True, slots=True)
class SayingBackCommand:
    """A lone short word while a number is awaited: said back before it acts."""

    command: Command


@dataclass(frozen=True, slots=True)
class Confirming:
    """Yes or no on what was heard."""

    number: Number
    how: HowHeard


@dataclass(frozen=True, slots=True)
class OfferingTwoJumps:
    """Yes or no on hearing of bridging, after a right answer that was counted. The next sum is not asked yet."""


@dataclass(frozen=True, slots=True)
class OfferingFacts:
    """Yes or no on a few facts of the kind that broke. The next sum is not asked yet."""

    activity: int


@dataclass(frozen=True, slots=True)
class OfferingPattern:
    """Yes or no on a talk about a pattern of the grid that is finished. What comes after it is not asked yet."""


@dataclass(frozen=True, slots=True)
class Thinking:
    """In a talk about a pattern: the pupil listens and thinks, or says something in own words, until they go on."""


@dataclass(frozen=True, slots=True)
class AskingWhichSum:
    """A bare "no" may be about the sum before, which is named: yes or no."""


@dataclass(frozen=True, slots=True)
class Paused:
    pass


@dataclass(frozen=True, slots=True)
class AdultsTurn:
    """What an adult can mark is listed meanwhile, a digit each."""

    open: Mark | None = None
    """The mark whose kinds are listed."""
    taken_back: Answer | None = None
    """The answer that the adult has said was not said, in this turn."""
    skipped: Cell | None = None
    """The cell that the adult has passed over, in this turn."""


@dataclass(frozen=True, slots=True)
class Ending:
    pass


Topic: TypeAlias = (
    Asking
    | Guiding
    | SayingBack
    | SayingBackCommand
    | Confirming
    | AskingWhichSum
    | OfferingTwoJumps
    | OfferingFacts
    | OfferingPattern
    | Thinking
    | Paused
    | AdultsTurn
    | Ending
)


THOUGHT_ABOUT = frozenset({Part.LISTEN, Part.WHY})
"""Moves of a talk in which no number is awaited."""


def topic_for(ask: Ask) -> Asking | Guiding | Thinking:
    if ask.part in THOUGHT_ABOUT:
        return Thinking()
    is_said_back = ask.part in CLOSING_PARTS or ask.exercise is ExerciseName.PATTERN
    return Asking() if is_said_back else Guiding()


def awaiting_for(ask: Ask) -> Awaiting:
    if ask.part in THOUGHT_ABOUT:
        return Awaiting.COMMAND
    is_said_back = ask.part in CLOSING_PARTS or ask.exercise is ExerciseName.PATTERN
    return Awaiting.NUMBER if is_said_back else Awaiting.STEP
