"""All settings, frozen, one dataclass for each room that has any. Reading them from a file is in `settings_from`."""

from dataclasses import dataclass, field
from typing import Literal


@dataclass(frozen=True, slots=True)
class Speech:
    """The voice. Source of the range: pyttsx3's espeak driver clamps outside 80 to 400 words a minute."""

    rate_wpm: int = 140
    voice: str = "gmw/en"
    """A voice's id as pyttsx3 lists it; British English by default."""
    pitch: int = 50
    """0 to 100, where the voice has a pitch to set."""
    volume_percent: int = 90


@dataclass(frozen=True, slots=True)
class Waits:
    """Every wait, in milliseconds. None is 'for ever'."""

    said_back_ms: int = 1000
    """The open pause after a number was said back."""
    after_number_ms: int = 1300
    after_bare_ten_ms: int = 2500
    """A tens word may go on: "fifty … two"."""
    counting_ms: int = 4000
    """A number equal to the start, or to the start plus one, is probably counting aloud."""
    after_other_ms: int = 1300
    """After a command, a choice or something not understood."""


@dataclass(frozen=True, slots=True)
class Listening:
    engine: Literal["neural", "vosk"] = "neural"
    ear: Literal["press", "open"] | None = None
    """None: open with a headset, press without one."""


@dataclass(frozen=True, slots=True)
class Wording:
    length: Literal["brief", "short", "full"] = "short"


@dataclass(frozen=True, slots=True)
class Helping:
    most_help_turns: int = 6
    most_help_speech_ms: int = 75_000


@dataclass(frozen=True, slots=True)
class Settings:
    speech: Speech = field(default_factory=Speech)
    waits: Waits = field(default_factory=Waits)
    listening: Listening = field(default_factory=Listening)
    wording: Wording = field(default_factory=Wording)
    helping: Helping = field(default_factory=Helping)
