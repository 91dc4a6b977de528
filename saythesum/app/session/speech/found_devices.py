"""The devices that a practice finds, and the ear that goes with them."""

from collections.abc import Sequence
from dataclasses import dataclass

from saythesum.app.terminal.console import tell
from saythesum.dialogue.turns.effects import Ear
from saythesum.errors import DeviceError
from saythesum.settings import Settings
from saythesum.sound.devices import Device, Direction, chosen
from saythesum.sound.portaudio import PortAudio, load_portaudio


@dataclass(frozen=True, slots=True)
class Devices:
    """What was found. Without a microphone the practice is by keys, without a loudspeaker by reading."""

    portaudio: PortAudio | None
    loudspeaker: Device | None
    microphone: Device | None
    has_headset: bool
    missing: tuple[str, ...] = ()
    """A sentence for each, printed when it was looked for and said at the start."""


def found_devices(settings: Settings, *, by_voice: bool) -> Devices:
    """Prints what is missing and what to do. Raises DeviceError only for a device that the settings name."""
    try:
        portaudio = load_portaudio()
    except DeviceError as error:
        tell(str(error))
        return Devices(None, None, None, has_headset=False, missing=(str(error),))
    known = portaudio.devices()
    missing: list[str] = []
    loudspeaker = _device(known, Direction.OUT, settings.sound.loudspeaker, missing)
    microphone = _device(known, Direction.IN, settings.sound.microphone, missing) if by_voice else None
    seems_headset = loudspeaker is not None and loudspeaker.seems_headset
    has_headset = seems_headset if settings.sound.headset is None else settings.sound.headset
    return Devices(portaudio, loudspeaker, microphone, has_headset, tuple(missing))


def _device(known: Sequence[Device], direction: Direction, wanted: str | None, missing: list[str]) -> Device | None:
    try:
        return chosen(known, direction, wanted)
    except DeviceError as error:
        if wanted is not None:
            raise
        tell(str(error))
        missing.append(str(error))
        return None


def ear_kind(settings: Settings, devices: Devices, wanted: str | None) -> Ear:
    """Unless chosen: open with a headset, press without one. A room full of voices is the normal case.

    Where a screen reader speaks nobody knows when it has finished, so the ear opens by key only.
    """
    if devices.microphone is None:
        return Ear.KEYS
    if settings.window.screen_reader:
        return Ear.PRESS
    kind = wanted or settings.listening.ear or ("open" if devices.has_headset else "press")
    return Ear(kind)
