"""What the devices tell the rest of the program. Posted from their own threads; times are the run's clock."""

from dataclasses import dataclass
from typing import TypeAlias

from saythesum.sound.devices import Device


@dataclass(frozen=True, slots=True)
class Over:
    """A sound has been heard to its end, or was cut, or could not be played."""

    id: int
    at_ms: int
    cut_ms: int | None = None
    """How much of it was heard before it was cut; None when it was heard whole."""


@dataclass(frozen=True, slots=True)
class LoudspeakerLost:
    sentence: str


@dataclass(frozen=True, slots=True)
class LoudspeakerFound:
    device: Device


@dataclass(frozen=True, slots=True)
class MicrophoneLost:
    sentence: str


@dataclass(frozen=True, slots=True)
class MicrophoneFound:
    device: Device


SoundNews: TypeAlias = Over | LoudspeakerLost | LoudspeakerFound | MicrophoneLost | MicrophoneFound
