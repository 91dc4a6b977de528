"""What the dialogue wants done. Nothing here does anything."""

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from saythesum.core.meanings import Awaiting, Meaning
from saythesum.core.records.rows import By, EndReason, HeardId, Row
from saythesum.dialogue.messages import Message
from saythesum.dialogue.turns.events import ListenId, UtteranceId, WakeId
from saythesum.learner.selection import WhyChosen
from saythesum.learner.worth_finding import WorthFinding


class Ear(StrEnum):
    """How the ear opens."""

    PRESS = "press"
    OPEN = "open"
    KEYS = "keys"
    TEXT = "text"
    SWITCH = "switch"
    """By keys, but that a switch comes to them one after the other."""


TYPED = frozenset({Ear.KEYS, Ear.TEXT, Ear.SWITCH})
"""Nothing is listened to."""


class OpenWhen(StrEnum):
    """When the ear that opens by itself does so."""

    AFTER_SPEECH = "after-speech"
    BETWEEN_SENTENCES = "between-sentences"
    """And after them: on a loudspeaker the tool would hear itself at any other time."""
    ALWAYS = "always"
    """With a headset the tool cannot hear itself: the pupil may speak into what it says."""


class Purpose(StrEnum):
    """What the ear opens for."""

    ANSWER = "answer"
    """To a question, or a command."""
    CORRECTION = "correction"
    """The pause in which what was said back can be put right."""
    BETWEEN_SENTENCES = "between-sentences"
    """The tool's turn goes on unless the pupil speaks."""
    ANYBODY = "anybody"
    """Before the practice: to find out whether somebody is there."""


@dataclass(frozen=True, slots=True)
class Settle:
    """This is what was heard, once and for all: a line for the log."""

    id: HeardId
    heard: Meaning
    text: str
    by: By


@dataclass(frozen=True, slots=True)
class Keep:
    """Put on disk before anything that follows is done."""

    row: Row
    why: WhyChosen | WorthFinding | None = None
    """Of a question: why its cell, or the pattern that it is about, was chosen, where it was."""


@dataclass(frozen=True, slots=True)
class Hush:
    """Cut what is being said."""


@dataclass(frozen=True, slots=True)
class SpeakSlower:
    """From here on, in this practice."""


@dataclass(frozen=True, slots=True)
class Say:
    id: UtteranceId
    message: Message


@dataclass(frozen=True, slots=True)
class Listen:
    id: ListenId
    awaiting: Awaiting
    ear: Ear
    purpose: Purpose
    for_ms: int | None = None
    """Between two sentences: how long, unless somebody speaks before that."""

    @property
    def is_between(self) -> bool:
        return self.purpose is Purpose.BETWEEN_SENTENCES


@dataclass(frozen=True, slots=True)
class ShutEar:
    pass


@dataclass(frozen=True, slots=True)
class Wake:
    id: WakeId
    name: str
    after_ms: int


@dataclass(frozen=True, slots=True)
class Finish:
    reason: EndReason


Effect: TypeAlias = Settle | Keep | Hush | SpeakSlower | Say | Listen | ShutEar | Wake | Finish
