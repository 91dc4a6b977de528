"""The microphone: sound for the ear, in samples of the run."""

from collections.abc import Callable
from queue import Empty, SimpleQueue
from threading import Event, Thread

import numpy as np

from saythesum.errors import DeviceError
from saythesum.ports import LISTENING_RATE_HZ, Captured, Clock
from saythesum.sound.device_clock import DeviceTime
from saythesum.sound.device_events import DeviceNews, MicrophoneFound, MicrophoneLost
from saythesum.sound.devices import Device, Direction, StreamFormat
from saythesum.sound.portaudio import PortAudio, Stream
from saythesum.sound.resample import RateChange
from saythesum.sound.retries import Retries
from saythesum.sound.ring import Frames, Ring

RING_MS = 2_000
TICK_MS = 500
CLOSED_WITHIN_S = 1
"""What is not closed by then is left behind: the practice must come to its end."""
STALLED_MS = 2_000
"""A device that delivers no block for this long counts as lost, even if it reports no error."""


class PortAudioMicrophone:
    """A `Microphone`. The device is opened, watched and looked for again in a thread of its own.

    With `only_this` no other device takes its place when it is gone.
    """

    def __init__(
        self, portaudio: PortAudio, device: Device, *, clock: Clock, post: Callable[[DeviceNews], None], only_this: bool
    ) -> None:
        self._portaudio, self._device, self._clock, self._post = portaudio, device, clock, post
        self._retries = Retries(portaudio, Direction.IN, only_this=only_this)
        self._orders: SimpleQueue[int | None] = SimpleQueue()
        """The number of an opening that ended by itself; None to close."""
        self._openings = 0
        self._stream: Stream | None = None
        self._recording: _Recording | None = None
        self._arrived = Event()
        self._taken_ms = 0
        """When the device last gave a block."""
        self._thread = Thread(target=self._run, name="microphone", daemon=True)
        self._thread.start()

    @property
    def overflows(self) -> int:
        """Blocks lost since the device was opened, as nobody read them in time."""
        recording = self._recording
        return recording.ring.overflows if recording else 0

    def read(self, timeout_s: float = 0.5) -> Captured:
        """At most the last two seconds."""
        self._arrived.wait(timeout_s)
        self._arrived.clear()
        recording = self._recording
        if recording is None:
            return Captured(_run_sample(self._clock.since_start_ms()), np.zeros(0, np.float32))
        return recording.read()

    def close(self) -> None:
        """Returns when the device is closed, or does not answer."""
        self._orders.put(None)
        self._thread.join(CLOSED_WITHIN_S)

    # ---- its own thread

    def _run(self) -> None:
        try:
            self._open(self._device)
        except DeviceError as error:
            self._lose(str(error))
        while True:
            try:
                ended = self._orders.get(timeout=TICK_MS / 1000)
            except Empty:
                self._watch()
                continue
            if ended is None:
                break
            if ended == self._openings and self._stream:
                self._lose(self._gone)
        if self._stream:
            self._stream.close()

    def _open(self, device: Device) -> None:
        opening = self._openings = self._openings + 1
        stream = self._portaudio.open(
            device,
            Direction.IN,
            rate_hz=LISTENING_RATE_HZ,
            on_block=self._take,
            on_end=lambda: self._orders.put(opening),
        )
        self._taken_ms = self._clock.since_start_ms()
        self._recording = _Recording(stream.format, began=_run_sample(self._taken_ms))
        self._device, self._stream = device, stream
        self._portaudio.start(stream)

    def _watch(self) -> None:
        now_ms = self._clock.since_start_ms()
        if self._stream is None:
            if self._retries.is_due(now_ms):
                self._try_again(now_ms)
        elif now_ms - self._taken_ms > STALLED_MS:
            self._lose(self._gone)
        elif self._portaudio.stepped_aside(self._stream):
            self._reopen()

    def _try_again(self, now_ms: int) -> None:
        try:
            self._open(self._retries.found(self._device, now_ms))
        except DeviceError:
            self._stream = self._recording = None
        else:
            self._post(MicrophoneFound(self._device))

    def _reopen(self) -> None:
        try:
            self._open(self._device)
        except DeviceError as error:
            self._lose(str(error))

    def _lose(self, sentence: str) -> None:
        """Reports the loss before it closes the device, which may take a while."""
        self._post(MicrophoneLost(sentence))
        stream, self._stream, self._recording = self._stream, None, None
        if stream:
            stream.close()
        self._retries.lost(self._clock.since_start_ms())

    @property
    def _gone(self) -> str:
        return f'The microphone "{self._device.name}" is gone; plug it in again, or go on by keys.'

    # ---- the device's thread

    def _take(self, block: Frames, away_ms: float | None) -> None:
        self._taken_ms = self._clock.since_start_ms()
        if recording := self._recording:
            recording.take(block, self._taken_ms, away_ms)
            self._arrived.set()


class _Recording:
    """One opening of a device: its frames go in, samples at their place in the run come out."""

    def __init__(self, format: StreamFormat, *, began: int) -> None:
        self.ring = Ring(frames=format.rate_hz * RING_MS // 1000, channels=format.channels)
        self._rate_hz = format.rate_hz
        self._latest: tuple[int, float, bool] = (0, 0.0, False)
        """Frames so far; the run's clock when the last of them was recorded, or came in if the device gives no time;
        whether it gave one.
        """
        self._time = DeviceTime(began, rate_hz=LISTENING_RATE_HZ)
        self._next_frame = -1
        self._flow_from = self._flowed = 0
        self._change = RateChange(from_hz=self._rate_hz, to_hz=LISTENING_RATE_HZ)

    def take(self, block: Frames, came_ms: int, away_ms: float | None) -> None:
        """In the device's thread."""
        self.ring.write(block)
        ended_ms = came_ms if away_ms is None else came_ms + away_ms + len(block) * 1000 / self._rate_hz
        self._latest = (self.ring.written, ended_ms, away_ms is not None)

    def read(self) -> Captured:
        count, ended_ms, has_time = self._latest
        if count:
            note = self._time.recorded if has_time else self._time.arrived
            note(self._samples(count), _run_sample(ended_ms))
        first, frames = self.ring.read()
        if first != self._next_frame:  # the beginning, or sound was lost: what was kept back does not fit any more
            self._change = RateChange(from_hz=self._rate_hz, to_hz=LISTENING_RATE_HZ)
            self._flow_from, self._flowed = self._samples(first), 0
        self._next_frame = first + len(frames)
        samples = self._change.feed((frames.mean(axis=1) / 32_768).astype(np.float32))
        at_sample = self._time.began + self._flow_from + self._flowed
        self._flowed += len(samples)
        return Captured(at_sample, samples)

    def _samples(self, frames: int) -> int:
        return frames * LISTENING_RATE_HZ // self._rate_hz


def _run_sample(at_ms: float) -> int:
    return int(at_ms * LISTENING_RATE_HZ // 1000)
