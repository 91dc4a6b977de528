"""News of the devices themselves, posted from their own threads."""

from dataclasses import dataclass
from typing import TypeAlias

from saythesum.sound.devices import Device


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


DeviceNews: TypeAlias = LoudspeakerLost | LoudspeakerFound | MicrophoneLost | MicrophoneFound
