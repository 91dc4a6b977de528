"""What can be heard, by an ear, from keys or from a line of text: meanings as values."""

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TypeAlias

from saythesum.core.records.rows import By, HeardId


class Awaiting(StrEnum):
    """What the ear is open for. Numbers are awaited in 0 to 1099, always, whatever the sum."""

    NUMBER = "number"
    """A whole answer or a total."""
    STEP = "step"
    """A number for one guided part."""
    CHOICE = "choice"
    """Yes or no."""
    COMMAND = "command"
    """No number is awaited: short commands count."""


NUMBER_KINDS = frozenset({Awaiting.NUMBER, Awaiting.STEP})
LARGEST_NUMBER = 1099
MOST_DIGITS = len(str(LARGEST_NUMBER))


class Command(StrEnum):
    SAY_AGAIN = "say-again"
    SLOWER = "slower"
    WAIT = "wait"
    GO_ON = "go-on"
    SKIP = "skip"
    GO_BACK = "go-back"
    HELP = "help"
    DONT_KNOW = "dont-know"
    NOT_WHAT_I_SAID = "not-what-i-said"
    SAID_FIRST = "said-first"
    """That's what I said first."""
    WHERE_AM_I = "where-am-i"
    READ_ROW = "read-row"
    READ_COLUMN = "read-column"
    HOW_MANY_MORE = "how-many-more"
    HUSH = "hush"
    STOP = "stop"
    LEFT = "left"
    RIGHT = "right"
    UP = "up"
    DOWN = "down"
    ROW_START = "row-start"
    ROW_END = "row-end"
    KEYS_ALOUD = "keys-aloud"
    PATTERNS = "patterns"
    """Look for a pattern in the grid, as far as it is done."""
    NO_MORE_PATTERNS = "no-more-patterns"
    NEEDS_ADULT = "needs-adult"
    """Toilet, ill, upset, something broken: the practice waits, and an adult may help."""


class WhyUnclear(StrEnum):
    """Why nothing was understood."""

    NOTHING = "nothing"
    OTHER = "other"
    TWO_NUMBERS = "two-numbers"
    LOST = "lost"
    """Something was said, and part of its sound was lost on its way: the machine's fault."""


@dataclass(frozen=True, slots=True)
class Number:
    value: int
    certainty: float | None = None
    """0 to 1; None for keys and text."""
    sure: bool = True
    close_to: tuple[int, ...] = ()
    """Values easily confused with it in this hearing."""
    objecting: bool = False
    """Said as a correction: "no, sixty-two", "I said sixty-two"."""
    corrected: bool = field(default=False, compare=False)
    """Said with what puts another number right: "forty-eight, no, forty-seven", "I mean forty-seven". How it was said,
    not what was meant."""
    said_first: bool = False
    """Said with "that's what I said first"."""
    counting: bool = False
    """The last of a run counted aloud: "thirty-nine, forty, forty-one"."""
    alternatives: tuple[int, ...] = ()
    """Other numbers this hearing may have been, likeliest first."""


@dataclass(frozen=True, slots=True)
class Choice:
    yes: bool
    certainty: float | None = None
    sure: bool = True


@dataclass(frozen=True, slots=True)
class Given:
    """A command, given by voice, key or line."""

    command: Command
    certainty: float | None = None
    sure: bool = True
    alone: bool = False
    """A short word ("stop", "no") while a number is awaited, or a sentence of which nothing else is sure: where it
    was spoken it is said back before it acts."""


@dataclass(frozen=True, slots=True)
class Unclear:
    why: WhyUnclear


LOST = Unclear(WhyUnclear.LOST)


@dataclass(frozen=True, slots=True)
class WaitEnded:
    name: str


Meaning: TypeAlias = Number | Choice | Given | Unclear
"""What one segment of speech, one line or one key press meant."""

Heard: TypeAlias = Meaning | WaitEnded
"""What a topic can hear: a meaning, or that a wait has ended."""


@dataclass(frozen=True, slots=True)
class HowHeard:
    by: By
    id: HeardId | None
    took_ms: int | None
    """From the end of the question to the first sound or key; None where that time says nothing about the pupil."""
