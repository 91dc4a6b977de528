"""When to look again for a device that was lost, and where."""

from saythesum.sound.devices import Device, Direction, found_again
from saythesum.sound.portaudio import PortAudio

FIRST_AFTER_MS = 1_000
LONGEST_MS = 8_000
"""Looking again takes the other devices away for a moment, so it is done less often as time goes on."""


class Retries:
    """After each loss the waits begin anew."""

    def __init__(self, portaudio: PortAudio, direction: Direction, *, only_this: bool) -> None:
        self._portaudio = portaudio
        self._direction = direction
        self._only_this = only_this
        self._wait_ms = FIRST_AFTER_MS
        self._next_ms = 0

    def lost(self, now_ms: int) -> None:
        self._wait_ms = FIRST_AFTER_MS
        self._next_ms = now_ms + self._wait_ms

    def is_due(self, now_ms: int) -> bool:
        return now_ms >= self._next_ms

    def found(self, lost: Device, now_ms: int) -> Device:
        """Raises DeviceError when it is still away."""
        self._wait_ms = min(2 * self._wait_ms, LONGEST_MS)
        self._next_ms = now_ms + self._wait_ms
        self._portaudio.renew()
        return found_again(self._portaudio.devices(), lost, self._direction, only_this=self._only_this)
