"""The keys of a practice, and what a press can come to, as values. No sentence is in here.

An edge (window, terminal) turns what its keyboard did into `Pressed`; `pressing` says what comes of it.
"""

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from saythesum.dialogue.events import Event


class Key(StrEnum):
    """Every key that means something, either place of it. Whatever is not here is never a key."""

    DIGIT = "digit"
    ENTER = "enter"
    BACKSPACE = "backspace"
    """Also the pad's minus."""
    SPACE = "space"
    SAY_AGAIN = "say-again"
    """The pad's star: Space that presses no button."""
    HELP = "help"
    """Page Down, the pad's plus."""
    WHERE_AM_I = "where-am-i"
    """Page Up, the pad's dot."""
    LEFT = "left"
    RIGHT = "right"
    UP = "up"
    DOWN = "down"
    HOME = "home"
    END = "end"
    TAB = "tab"
    SHIFT_TAB = "shift-tab"
    ESCAPE = "escape"
    KEYS_ALOUD = "keys-aloud"
    """F1."""
    ADULT = "adult"
    """F9, Ctrl and Enter."""
    BIGGER = "bigger"
    """Ctrl and plus."""
    SMALLER = "smaller"
    """Ctrl and minus."""
    STOP = "stop"
    """Ctrl and C in a terminal."""
    CLOSE = "close"
    """The input is at its end, or the window is being closed."""


@dataclass(frozen=True, slots=True)
class Pressed:
    key: Key
    at_ms: int
    is_repeat: bool = False
    """It is still held down from before."""
    digit: int | None = None
    """0 to 9, for `Key.DIGIT` alone."""


class Focus(StrEnum):
    """Where Tab goes, in its order; it wraps."""

    QUESTION = "question"
    ANSWER = "answer"
    GRID = "grid"
    HELP = "help"
    NOT_WHAT_I_SAID = "not-what-i-said"
    SKIP = "skip"
    STOP = "stop"


# ---- what is said of keys ----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class DigitTyped:
    digit: int


@dataclass(frozen=True, slots=True)
class RubbedOut:
    digit: int
    is_empty: bool
    """Nothing is left of what was typed."""


@dataclass(frozen=True, slots=True)
class NoRoom:
    """A digit more than an answer can have; it was not typed."""


@dataclass(frozen=True, slots=True)
class StillTyped:
    """What was typed here before the pupil went elsewhere. Digits, first one first."""

    digits: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class PutBack:
    """What had been taken back counts again."""

    value: int


@dataclass(frozen=True, slots=True)
class OnFocus:
    focus: Focus
    digits: tuple[int, ...]
    """What is typed, for `Focus.ANSWER`."""


@dataclass(frozen=True, slots=True)
class AdultHasTurn:
    pass


KeyMessage: TypeAlias = DigitTyped | RubbedOut | NoRoom | StillTyped | PutBack | OnFocus | AdultHasTurn

# ---- what an edge has to do --------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Post:
    """Give it to the dialogue."""

    event: Event


@dataclass(frozen=True, slots=True)
class CutSpeech:
    """Cut what is being said, and report it to the dialogue as cut: it goes on from there."""


@dataclass(frozen=True, slots=True)
class SpeakKey:
    """Say it at once. Whatever the dialogue says because of a `Post` after this comes behind it."""

    message: KeyMessage


@dataclass(frozen=True, slots=True)
class Resize:
    """One step of print size."""

    is_bigger: bool


KeyAction: TypeAlias = Post | CutSpeech | SpeakKey | Resize
