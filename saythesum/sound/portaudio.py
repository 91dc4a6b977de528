"""The only user of PortAudio in this process: it looks for devices, opens streams and looks again.

PortAudio counts its devices once, when it starts. One that is plugged in later is only seen after it was stopped
and started anew, which ends every open stream; so that waits until none is open.
"""

import atexit
from collections.abc import Callable
from functools import partial
from threading import RLock
from typing import Any

from saythesum.errors import DeviceError
from saythesum.sound.bounded_calls import BoundedCalls
from saythesum.sound.devices import Device, Direction, StreamFormat, formats_to_try
from saythesum.sound.ring import Frames

BLOCK_MS = {Direction.IN: 50, Direction.OUT: 100}
"""Sound is noticed at the end of a block. Blocks of 30 ms gave silence through PulseAudio on Linux."""
KEPT_READY: dict[Direction, float | str] = {Direction.IN: 0.3, Direction.OUT: "low"}
"""Seconds of sound a device holds before some is lost: a microphone's cost no time, a loudspeaker's would."""

STREAM_WITHIN_S, LIBRARY_WITHIN_S = 1.5, 4.0
"""A stream starts and stops in a few milliseconds; a device is opened in 0.1 to 0.4 s on a busy machine."""

MOST_AWAY_MS = 1_000.0
"""A driver that reports more has made a mistake."""

OnBlock = Callable[[Frames, float | None], None]
"""Fills or takes a block. The number is when its first sample is heard, or was, in ms from now; None where the device
does not say.
"""


def load_portaudio() -> "PortAudio":
    """Raises DeviceError when the library is not there."""
    try:
        import sounddevice
    except (OSError, ImportError) as failure:
        raise DeviceError(
            "No sound: the PortAudio library is missing. On Debian or Ubuntu install it with:"
            " sudo apt-get install libportaudio2; until then practise by keys with what is on the screen."
        ) from failure
    return PortAudio(sounddevice)


class Stream:
    """One open device. `on_end` comes once from a thread of PortAudio when it ends by itself: the device is lost."""

    def __init__(self, raw: Any, format: StreamFormat, calls: BoundedCalls, forget: Callable[["Stream"], None]) -> None:
        self.format = format
        self._raw = raw
        self._calls = calls
        self._forget = forget
        self._is_closed = False

    @property
    def is_active(self) -> bool:
        return not self._is_closed and not self._calls.is_stuck and bool(self._raw.active)

    @property
    def latency_ms(self) -> float:
        return float(self._raw.latency) * 1000

    def start(self) -> None:
        """Raises what `failures` of PortAudio names, and DeviceError where the device does not answer."""
        self._calls.call(self._raw.start)

    def abort(self) -> None:
        """Silence at once: what the device was given and has not played is dropped. It can be started again.

        Also from a stream that has ended by itself. Raises DeviceError where the device does not answer.
        """
        self._calls.call(lambda: self._raw.abort(ignore_errors=True))

    def close(self) -> None:
        """Closing again does nothing. A stream that does not answer is left as it is, and goes on standing in the way
        of a renewal: PortAudio must not be stopped under it.
        """
        if self._is_closed:
            return
        self._is_closed = True
        try:
            self._calls.call(lambda: self._raw.close(ignore_errors=True))
        except DeviceError:
            return
        finally:
            self._calls.close()
        self._forget(self)


class PortAudio:
    """`library` is the module sounddevice, or something that behaves like it."""

    def __init__(self, library: Any) -> None:
        self._library = library
        self._failures = (library.PortAudioError, ValueError, OSError)
        self._open: set[Stream] = set()
        self._lock = RLock()
        self._calls = BoundedCalls(self._leave_running, within_s=LIBRARY_WITHIN_S)
        self.is_renewal_wanted = False
        """A device is waited for, and an open stream stands in the way of looking for it."""

    def devices(self) -> tuple[Device, ...]:
        """As of the last look; see `renew`."""
        return tuple(device for _, device in self._numbered())

    def open(
        self, device: Device, direction: Direction, *, rate_hz: int, on_block: OnBlock, on_end: Callable[[], None]
    ) -> Stream:
        """At `rate_hz` mono if the device can do that, otherwise as it can. Not started yet.

        Raises DeviceError.
        """
        with self._lock:
            index = next((number for number, other in self._numbered() if other.is_same(device)), None)
            if index is None:
                raise DeviceError(f'The {direction} "{device.name}" is not there any more; plug it in again.')
            reason: Exception | None = None
            for format in formats_to_try(device, direction, rate_hz):
                try:
                    raw = self._calls.call(partial(self._raw_stream, index, direction, format, on_block, on_end))
                except self._failures as failure:
                    reason = failure
                    continue
                calls = BoundedCalls(self._leave_running, within_s=STREAM_WITHIN_S)
                stream = Stream(raw, format, calls, self._open.discard)
                self._open.add(stream)
                return stream
        raise DeviceError(
            f'The {direction} "{device.name}" cannot be opened ({reason}); close other programs that use it,'
            " or plug it in again."
        ) from reason

    def start(self, stream: Stream) -> None:
        """Raises DeviceError; the stream is closed then."""
        try:
            stream.start()
        except self._failures as failure:
            stream.close()
            raise DeviceError(f"The device does not start ({failure}); plug it in again.") from failure

    def renew(self) -> bool:
        """Look again for devices. False where an open stream stands in the way, or this sounddevice cannot."""
        with self._lock:
            if self._open:
                self.is_renewal_wanted = True
                return False
            self.is_renewal_wanted = False
            # Private calls, and the only ones that make PortAudio look again: without them nothing is found anew.
            terminate = getattr(self._library, "_terminate", None)
            initialize = getattr(self._library, "_initialize", None)
            if terminate is None or initialize is None:
                return False
            try:
                self._calls.call(terminate)
                self._calls.call(initialize)
            except (*self._failures, DeviceError):
                return False
            return True

    def stepped_aside(self, stream: Stream) -> bool:
        """Closes `stream` and looks for devices again, if that is wanted; returns whether it did.

        Not while a second stream would stand in the way anyway.
        """
        with self._lock:
            if not self.is_renewal_wanted or self._open != {stream}:
                return False
            stream.close()
            return self.renew()

    def _numbered(self) -> list[tuple[int, Device]]:
        with self._lock:
            try:
                hosts = self._calls.call(self._library.query_hostapis)
                found = [dict(device) for device in self._calls.call(self._library.query_devices)]
            except (*self._failures, DeviceError):
                return []
            default_in, default_out = self._default("input"), self._default("output")
        return [
            (
                number,
                Device(
                    str(each["name"]),
                    str(hosts[each["hostapi"]]["name"]),
                    inputs=int(each["max_input_channels"]),
                    outputs=int(each["max_output_channels"]),
                    rate_hz=int(each["default_samplerate"]) or 48_000,
                    is_default_in=number == default_in,
                    is_default_out=number == default_out,
                ),
            )
            for number, each in enumerate(found)
        ]

    def _default(self, kind: str) -> int:
        """Its index; -1 where there is none."""
        try:
            return int(self._calls.call(lambda: self._library.query_devices(kind=kind))["index"])
        except (*self._failures, DeviceError):
            return -1

    def _leave_running(self) -> None:
        """What stops PortAudio at the end of the program would wait for the call that is stuck."""
        if stop := getattr(self._library, "_exit_handler", None):
            atexit.unregister(stop)

    def _raw_stream(
        self, index: int, direction: Direction, format: StreamFormat, on_block: OnBlock, on_end: Callable[[], None]
    ) -> Any:
        is_in = direction is Direction.IN
        make = self._library.InputStream if is_in else self._library.OutputStream

        def callback(block: Frames, _count: int, time: Any, _flags: Any) -> None:
            heard_s = time.inputBufferAdcTime if is_in else time.outputBufferDacTime
            is_told = bool(heard_s and time.currentTime)
            away_ms = (heard_s - time.currentTime) * 1000
            on_block(block, max(-MOST_AWAY_MS, min(away_ms, MOST_AWAY_MS)) if is_told else None)

        return make(
            device=index,
            samplerate=format.rate_hz,
            channels=format.channels,
            dtype="int16",
            blocksize=format.rate_hz * BLOCK_MS[direction] // 1000,
            latency=KEPT_READY[direction],
            callback=callback,
            finished_callback=on_end,
        )
