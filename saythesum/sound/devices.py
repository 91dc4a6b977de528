"""Which microphones and loudspeakers there are, as values, and which one is meant."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from saythesum.errors import DeviceError

HEADSET_WORDS = ("headset", "headphone", "earphone", "earpiece", "earbud", "hands-free", "handsfree", "hands free")
"""In the names that drivers give. Common practice; a guess only, and a setting wins over it."""


class Direction(StrEnum):
    """Named as people name the device."""

    IN = "microphone"
    OUT = "loudspeaker"


@dataclass(frozen=True, slots=True)
class Device:
    name: str
    host: str
    """The sound system of the operating system that offers it; the same device may be there under several."""
    inputs: int
    """Channels, 0 for none."""
    outputs: int
    rate_hz: int
    """Its own."""
    is_default_in: bool = False
    is_default_out: bool = False

    def channels(self, direction: Direction) -> int:
        return self.inputs if direction is Direction.IN else self.outputs

    def is_default(self, direction: Direction) -> bool:
        return self.is_default_in if direction is Direction.IN else self.is_default_out

    def is_same(self, other: "Device") -> bool:
        """Whether this is the device that was away; everything but its name may have changed."""
        return (self.name, self.host) == (other.name, other.host)

    @property
    def seems_headset(self) -> bool:
        """By its name. A USB device that both plays and records is usually a headset as well."""
        name = self.name.lower()
        both_ways_by_usb = "usb" in name and self.inputs > 0 and self.outputs > 0
        return both_ways_by_usb or any(word in name for word in HEADSET_WORDS)


@dataclass(frozen=True, slots=True)
class StreamFormat:
    rate_hz: int
    channels: int


def chosen(devices: Sequence[Device], direction: Direction, wanted: str | None) -> Device:
    """The device named `wanted`, or the first whose name contains it; without `wanted`, the default one.

    Raises DeviceError with a sentence: there is none, or none of that name.
    """
    able = [device for device in devices if device.channels(direction)]
    if not able:
        raise DeviceError(f"There is no {direction}; plug one in, or go on by keys with what is on the screen.")
    by_default_first = sorted(able, key=lambda device: not device.is_default(direction))
    if wanted is None:
        return by_default_first[0]
    for fits in (_is_name, _is_part):
        for device in by_default_first:
            if fits(wanted, device.name):
                return device
    names = ", ".join(dict.fromkeys(f'"{device.name}"' for device in able))
    raise DeviceError(
        f'There is no {direction} called "{wanted}"; right would be a name, or part of it, out of {names}.'
    )


def found_again(devices: Sequence[Device], lost: Device, direction: Direction, *, only_this: bool) -> Device:
    """`lost` if it is back; otherwise the default one, unless only this one will do.

    Raises DeviceError.
    """
    for device in devices:
        if device.is_same(lost) and device.channels(direction):
            return device
    if only_this:
        raise DeviceError(f'The {direction} "{lost.name}" is not there; plug it in again.')
    return chosen(devices, direction, None)


def formats_to_try(device: Device, direction: Direction, rate_hz: int) -> list[StreamFormat]:
    """Best first: `rate_hz` mono, then the device's own way, then what nearly every device does."""
    most = device.channels(direction)
    rates = dict.fromkeys((rate_hz, device.rate_hz, 48_000, 44_100))
    return [StreamFormat(rate, channels) for rate in rates for channels in (1, 2) if channels <= most]


def _is_name(wanted: str, name: str) -> bool:
    return wanted.strip().lower() == name.lower()


def _is_part(wanted: str, name: str) -> bool:
    return bool(wanted.strip()) and wanted.strip().lower() in name.lower()
