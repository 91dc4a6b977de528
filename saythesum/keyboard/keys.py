"""The keys of a practice, and what a press can come to, as values. No sentence is in here.

An edge (window, terminal) turns what its keyboard did into `Pressed`; `pressing` says what comes of it.
"""

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from saythesum.dialogue.turns.events import Event
from saythesum.settings import Colours, View


class Key(StrEnum):
    """Every key that means something, either place of it. Whatever is not here is never a key."""

    DIGIT = "digit"
    ENTER = "enter"
    BACKSPACE = "backspace"
    """Also the pad's minus."""
    SPACE = "space"
    SAY_AGAIN = "say-again"
    """The pad's star: another Space."""
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
    VIEW = "view"
    """F2."""
    COLOURS = "colours"
    """F3."""
    NOT_WHAT_I_SAID = "not-what-i-said"
    """Only where the settings give it a key, and so is the next."""
    SKIP = "skip"
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
    is_letter: bool = False
    """The digit came as a letter of braille."""


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
    is_letter: bool = False
    """It came as a letter of braille: whatever else speaks keys says the letter."""


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
class ReadBack:
    """The answer that is being given, where letters of braille stood for its digits."""

    value: int


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


@dataclass(frozen=True, slots=True)
class ViewShown:
    view: View


@dataclass(frozen=True, slots=True)
class ColoursShown:
    colours: Colours


@dataclass(frozen=True, slots=True)
class SizeShown:
    step: int
    """0 to 8."""


@dataclass(frozen=True, slots=True)
class NoWindow:
    """There is none whose look could be changed."""


LookMessage: TypeAlias = ViewShown | ColoursShown | SizeShown
TypingMessage: TypeAlias = DigitTyped | RubbedOut | NoRoom | StillTyped | ReadBack | PutBack
KeyMessage: TypeAlias = TypingMessage | OnFocus | AdultHasTurn | LookMessage | NoWindow

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


class LookChange(StrEnum):
    """What can be changed in what the window looks like."""

    BIGGER = "bigger"
    """One step of print size."""
    SMALLER = "smaller"
    NEXT_VIEW = "next-view"
    NEXT_COLOURS = "next-colours"


@dataclass(frozen=True, slots=True)
class ChangeLook:
    """Say what it has come to, as a `SpeakKey`."""

    change: LookChange


KeyAction: TypeAlias = Post | CutSpeech | SpeakKey | ChangeLook
