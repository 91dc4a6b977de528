"""The keys of a practice, and what a press can lead to, as values. There are no sentences in here.

An edge (window, terminal) turns its keyboard's events into `Pressed`; `key_actions` says what each one does.
"""

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from saythesum.core.records.rows import By
from saythesum.dialogue.turns.events import Event
from saythesum.settings import Colours, View


class Key(StrEnum):
    """Every key that means something, wherever it is on the keyboard. Anything not listed here does nothing."""

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
    SCREEN_READER = "screen-reader"
    """F12: a screen reader speaks in place of the tool, or the tool again."""
    PATTERNS = "patterns"
    """F4, unless the settings give that key to something else."""
    NOT_WHAT_I_SAID = "not-what-i-said"
    """Has a key only if the settings give it one; so does the next."""
    SKIP = "skip"
    STOP = "stop"
    """Ctrl and C in a terminal."""
    PAUSE = "pause"
    """No key of its own, nor have the next three: a switch comes to them (`scanning`)."""
    GO_ON = "go-on"
    YES = "yes"
    NO = "no"
    SWITCH = "switch"
    """Whatever the pupil's only or first switch is; it means nothing by itself."""
    SECOND_SWITCH = "second-switch"
    CLOSE = "close"
    """The input has ended, or the window is being closed."""


SWITCHES = frozenset({Key.SWITCH, Key.SECOND_SWITCH})


@dataclass(frozen=True, slots=True)
class Pressed:
    key: Key
    at_ms: int
    is_repeat: bool = False
    """The key is being held down."""
    digit: int | None = None
    """0 to 9; only for `Key.DIGIT`."""
    is_letter: bool = False
    """The digit was typed as a braille letter."""
    is_let_go: bool = False
    """Of a switch only: this is the end of its press."""
    by: By = By.KEYS
    """By switch: it was chosen from what was offered, and no key was pressed for it."""
    name: str = ""
    """What was pressed, where a switch is looked for and the key is `Key.SWITCH`."""


class Focus(StrEnum):
    """Where Tab goes, in this order; it wraps around."""

    QUESTION = "question"
    ANSWER = "answer"
    GRID = "grid"
    HELP = "help"
    NOT_WHAT_I_SAID = "not-what-i-said"
    SKIP = "skip"
    PATTERNS = "patterns"
    STOP = "stop"


# ---- what is said about keys ----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class DigitTyped:
    digit: int
    is_letter: bool = False
    """It was typed as a braille letter: a screen reader that echoes keys says the letter."""


@dataclass(frozen=True, slots=True)
class RubbedOut:
    digit: int
    is_empty: bool
    """Nothing is left of what was typed."""


@dataclass(frozen=True, slots=True)
class NoRoom:
    """One digit more than an answer can have; it was ignored."""


@dataclass(frozen=True, slots=True)
class StillTyped:
    """What was typed here before the pupil moved away: the digits in order."""

    digits: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class ReadBack:
    """The answer being given, when braille letters were typed for its digits."""

    value: int


@dataclass(frozen=True, slots=True)
class PutBack:
    """What had been taken back counts again."""

    value: int


@dataclass(frozen=True, slots=True)
class FocusMoved:
    focus: Focus
    digits: tuple[int, ...]
    """What is typed, for `Focus.ANSWER`."""


@dataclass(frozen=True, slots=True)
class AdultHasTurn:
    by_switch: bool = False
    """The pupil called for it by switch, and can give it back so."""


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
    """There is no window whose look could be changed."""


@dataclass(frozen=True, slots=True)
class SpeakerShown:
    is_screen_reader: bool
    """It speaks now; else the tool does."""


LookMessage: TypeAlias = ViewShown | ColoursShown | SizeShown
TypingMessage: TypeAlias = DigitTyped | RubbedOut | NoRoom | StillTyped | ReadBack | PutBack
KeyMessage: TypeAlias = TypingMessage | FocusMoved | AdultHasTurn | LookMessage | NoWindow | SpeakerShown

# ---- what an edge has to do --------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Post:
    """Pass this event to the dialogue."""

    event: Event


@dataclass(frozen=True, slots=True)
class CutSpeech:
    """Cut what is being said and report it to the dialogue as cut; the dialogue goes on from there."""


@dataclass(frozen=True, slots=True)
class SpeakKey:
    """Say it at once. Anything the dialogue says because of a later `Post` is said after it."""

    message: KeyMessage


class LookChange(StrEnum):
    """What can be changed about how the window looks."""

    BIGGER = "bigger"
    """One step of print size."""
    SMALLER = "smaller"
    NEXT_VIEW = "next-view"
    NEXT_COLOURS = "next-colours"


@dataclass(frozen=True, slots=True)
class ChangeSpeaker:
    """From the tool to a screen reader or back, then say the result as a `SpeakKey`."""


@dataclass(frozen=True, slots=True)
class ChangeLook:
    """Change it, then say the result as a `SpeakKey`."""

    change: LookChange


KeyAction: TypeAlias = Post | CutSpeech | SpeakKey | ChangeLook | ChangeSpeaker
