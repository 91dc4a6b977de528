"""All settings, frozen, one dataclass for each room that has any. `reading` takes them from a file."""

from dataclasses import dataclass, field
from typing import Literal

from saythesum.settings.limits import one_of, wait, whole, words

Engine = Literal["neural", "vosk"]
EarKind = Literal["press", "open"]
Length = Literal["brief", "short", "full"]


@dataclass(frozen=True, slots=True)
class Speech:
    """The voice. Source of the range: pyttsx3's espeak driver clamps outside 80 to 400 words a minute."""

    rate_wpm: int = field(default=140, metadata=whole(80, 400))
    voice: str = field(default="gmw/en", metadata=words(100))
    """A voice's id as pyttsx3 lists it; British English by default."""
    pitch: int = field(default=50, metadata=whole(0, 100))
    """Where the voice has a pitch to set."""
    volume_percent: int = field(default=90, metadata=whole(0, 100))


@dataclass(frozen=True, slots=True)
class Waits:
    """Every wait, in milliseconds. None is 'for ever'."""

    said_back_ms: int | None = field(default=1000, metadata=wait(300, 60_000))
    """The open pause after a number was said back."""
    after_number_ms: int | None = field(default=1300, metadata=wait(300, 60_000))
    after_bare_ten_ms: int | None = field(default=2500, metadata=wait(300, 60_000))
    """A tens word may go on: "fifty … two"."""
    counting_ms: int | None = field(default=4000, metadata=wait(300, 60_000))
    """A number equal to the start, or to the start plus one, is probably counting aloud."""
    after_other_ms: int | None = field(default=1300, metadata=wait(300, 60_000))
    """After a command, a choice or something not understood."""


@dataclass(frozen=True, slots=True)
class Listening:
    engine: Engine = field(default="neural", metadata=one_of(Engine))
    ear: EarKind | None = field(default=None, metadata=one_of(EarKind, optional=True))
    """None: open with a headset, press without one."""


@dataclass(frozen=True, slots=True)
class Wording:
    length: Length = field(default="short", metadata=one_of(Length))


@dataclass(frozen=True, slots=True)
class Helping:
    most_help_turns: int = field(default=6, metadata=whole(1, 20))
    most_help_speech_ms: int = field(default=75_000, metadata=whole(5_000, 600_000))


@dataclass(frozen=True, slots=True)
class Settings:
    speech: Speech = field(default_factory=Speech)
    waits: Waits = field(default_factory=Waits)
    listening: Listening = field(default_factory=Listening)
    wording: Wording = field(default_factory=Wording)
    helping: Helping = field(default_factory=Helping)
