"""Everything that can happen to a practice, as values. Times are milliseconds since this run began."""

from dataclasses import dataclass
from typing import NewType, TypeAlias

from saythesum.core.meanings import HowHeard, Meaning, Number
from saythesum.core.records.rows import By, HeardId, Settled
from saythesum.core.sums import Part

UtteranceId = NewType("UtteranceId", int)
ListenId = NewType("ListenId", int)
WakeId = NewType("WakeId", int)


@dataclass(frozen=True, slots=True)
class Began:
    """The practice starts, or goes on after a stop."""

    at_ms: int


@dataclass(frozen=True, slots=True)
class UtteranceEnded:
    """An utterance has ended, or was cut."""

    id: UtteranceId
    at_ms: int
    cut_ms: int | None = None
    """How much of it was heard before it was cut; None when it was said whole."""


@dataclass(frozen=True, slots=True)
class SpeechBegan:
    """The ear hears speech begin."""

    listen: ListenId
    at_ms: int


@dataclass(frozen=True, slots=True)
class NobodySpoke:
    """The ear was open between two sentences, and has shut again."""

    listen: ListenId
    at_ms: int


@dataclass(frozen=True, slots=True)
class HeardSoFar:
    """What one segment of speech meant, posted at its first 200 ms of silence.

    Posted again with the same `segment` when the same segment went on after all.
    """

    listen: ListenId
    segment: int
    """0, 1, 2 …: segments of speech since this ear opened."""
    heard: Meaning
    text: str
    began_ms: int
    ended_ms: int
    at_ms: int
    id: HeardId


@dataclass(frozen=True, slots=True)
class Entered:
    """A finished answer or a command from keys or a line of text."""

    heard: Meaning
    text: str
    by: By
    at_ms: int
    began_ms: int
    """The first key of it."""
    id: HeardId


@dataclass(frozen=True, slots=True)
class CountsAgain:
    """An answer that the pupil had taken back counts after all, as it was first heard."""

    number: Number
    how: HowHeard
    settled: Settled
    part: Part | None
    """The part it answers, where that was kept; None: as the question says."""
    at_ms: int


@dataclass(frozen=True, slots=True)
class EarAsked:
    """The pupil pressed the key that opens the ear for one answer."""

    at_ms: int


@dataclass(frozen=True, slots=True)
class TypingChanged:
    """An answer is being typed, or has been rubbed out again."""

    is_empty: bool
    at_ms: int


@dataclass(frozen=True, slots=True)
class Woke:
    id: WakeId
    at_ms: int


@dataclass(frozen=True, slots=True)
class TurnTaken:
    """The adult takes the turn: the ear shuts until it is given back."""

    at_ms: int


@dataclass(frozen=True, slots=True)
class TurnGivenBack:
    at_ms: int


@dataclass(frozen=True, slots=True)
class AdultMarked:
    """A digit in the adult's turn."""

    digit: int
    at_ms: int


@dataclass(frozen=True, slots=True)
class SpeakerChanged:
    """A screen reader speaks in place of the tool, or the tool again."""

    is_screen_reader: bool
    at_ms: int


@dataclass(frozen=True, slots=True)
class InputEnded:
    at_ms: int


Event: TypeAlias = (
    Began
    | UtteranceEnded
    | SpeechBegan
    | NobodySpoke
    | HeardSoFar
    | Entered
    | CountsAgain
    | EarAsked
    | TypingChanged
    | Woke
    | TurnTaken
    | TurnGivenBack
    | AdultMarked
    | SpeakerChanged
    | InputEnded
)
