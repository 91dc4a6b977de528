"""The loudspeaker: one sound after the other, each with an id, cut at any moment.

Between sounds the device plays silence, which keeps it awake. A sound that follows silence does not wait behind
it: the stream is aborted, which takes 1 to 2 ms, and starts anew with the sound.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from queue import Empty, SimpleQueue
from threading import Thread
from typing import TypeAlias, TypeVar

import numpy as np

from saythesum.errors import DeviceError
from saythesum.ports import BETWEEN_SOUNDS_MS, Clock, Over, Samples, Sound, SoundId
from saythesum.sound.device_events import DeviceNews, LoudspeakerFound, LoudspeakerLost
from saythesum.sound.devices import Device, Direction
from saythesum.sound.playback_queue import Mono, PlaybackQueue
from saythesum.sound.portaudio import BLOCK_MS, PortAudio, Stream
from saythesum.sound.pulseaudio import Output, PrivateSink, Watch, all_outputs, our_outputs
from saythesum.sound.resample import RateChange
from saythesum.sound.retries import Retries
from saythesum.sound.ring import Frames

RATE_HZ = 22_050
"""What the voices give, so that most devices need no change of rate from us."""
WARM_UP_MS = 300
"""Silence after a device was opened: many swallow what comes first."""
PIECE_MS = 200
"""The first piece of a long sound is on its way while the others are brought to the device's rate."""
TICK_MS = 500
UNKNOWN_AHEAD_MS = 2.0 * BLOCK_MS[Direction.OUT]
"""For a device that does not report its delay: a stream keeps two blocks ready."""
CLOSED_WITHIN_S = 1
"""What is not closed by then is left behind: the practice must come to its end."""
STALLED_MS = 2_000
"""A device that takes no block for this long counts as lost, even if it reports no error."""


T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class _Play:
    id: SoundId
    sound: Sound
    after_ms: int


@dataclass(frozen=True, slots=True)
class _Cut:
    pass


@dataclass(frozen=True, slots=True)
class _Ended:
    opening: int


@dataclass(frozen=True, slots=True)
class _Doubt:
    """A sound server may play us elsewhere now."""

    opening: int


@dataclass(frozen=True, slots=True)
class _Tick:
    pass


@dataclass(frozen=True, slots=True)
class _Close:
    pass


_Order: TypeAlias = _Play | _Cut | _Ended | _Doubt | _Tick | _Close


class PortAudioLoudspeaker:
    """A `Loudspeaker` with a thread of its own. While the device is away, sounds are over at once.

    With `only_this` no other device is ever used: a headset that goes means silence.
    """

    def __init__(
        self,
        portaudio: PortAudio,
        device: Device,
        *,
        clock: Clock,
        post: Callable[[Over | DeviceNews], None],
        only_this: bool,
        private_sink: str = PrivateSink.NAME,
    ) -> None:
        """`private_sink`: what a sink of our own before it is called."""
        self._private_name = private_sink
        self._portaudio, self._device, self._clock, self._post = portaudio, device, clock, post
        self._only_this = only_this
        self._retries = Retries(portaudio, Direction.OUT, only_this=only_this)
        self._home: frozenset[Output] = frozenset()
        self._private_sink: PrivateSink | None = None
        self._watch: Watch | None = None
        self._orders: SimpleQueue[_Order] = SimpleQueue()
        self._stream: Stream | None = None
        self._openings = 0
        self._playback = PlaybackQueue(RATE_HZ)
        self._is_hushed = False
        self._taken_ms = 0
        """When the device last took a block."""
        self._thread = Thread(target=self._run, name="player", daemon=True)
        self._thread.start()

    def play(self, id: SoundId, sound: Sound, *, after_ms: int = BETWEEN_SOUNDS_MS) -> None:
        self._orders.put(_Play(id, sound, after_ms))

    def cut(self) -> None:
        self._is_hushed = True
        self._orders.put(_Cut())

    def close(self) -> None:
        """Cuts what is playing; returns when the device is closed, or does not answer."""
        self._is_hushed = True
        self._orders.put(_Close())
        self._thread.join(CLOSED_WITHIN_S)

    # ---- its own thread

    def _run(self) -> None:
        self._trying(self._open, self._device)
        is_open = True
        while is_open:
            order = self._next_order()
            self._trying(self._carry_out, order)
            self._report_over()
            is_open = not isinstance(order, _Close)

    def _trying(self, action: Callable[[T], None], what: T) -> None:
        try:
            action(what)
        except DeviceError as error:
            self._lose(str(error))

    def _next_order(self) -> _Order:
        over_ms = self._playback.next_over_ms
        wait_ms = TICK_MS if over_ms is None else min(TICK_MS, max(1.0, over_ms - self._now_ms))
        try:
            return self._orders.get(timeout=wait_ms / 1000)
        except Empty:
            return _Tick()

    @property
    def _now_ms(self) -> int:
        return self._clock.since_start_ms()

    def _carry_out(self, order: _Order) -> None:
        match order:
            case _Play():
                self._begin(order)
            case _Cut():
                self._silence()
            case _Ended(opening=opening):
                if opening == self._openings and self._stream and not self._stream.is_active:
                    raise DeviceError(self._gone)
            case _Doubt(opening=opening):
                if opening == self._openings and self._stream:
                    self._make_sure(self._stream)
            case _Tick():
                self._look_after()
            case _Close():
                self._report_cut()
                self._let_go()

    def _open(self, device: Device) -> None:
        self._open_anywhere(device)
        if self._only_this:
            self._stay_at_home()

    def _open_anywhere(self, device: Device) -> None:
        opening = self._openings = self._openings + 1
        stream = self._portaudio.open(
            device,
            Direction.OUT,
            rate_hz=RATE_HZ,
            on_block=self._fill,
            on_end=lambda: self._orders.put(_Ended(opening)),
        )
        self._device, self._stream = device, stream
        self._taken_ms = self._now_ms
        self._playback = PlaybackQueue(stream.format.rate_hz, ready_ms=self._now_ms + WARM_UP_MS)
        self._portaudio.start(stream)

    def _stay_at_home(self) -> None:
        """A sound server may play us on the same output as the first time, or not at all."""
        outputs = our_outputs()
        self._home = self._home or outputs
        if not outputs <= self._home:
            raise DeviceError(self._gone)
        if not outputs:
            return
        if len(outputs) == 1:
            self._take_private_sink(next(iter(outputs)).sink)
        opening = self._openings
        self._watch = Watch(self._is_at_home, lambda: self._orders.put(_Doubt(opening)))

    def _take_private_sink(self, sink: str) -> None:
        """Then nothing is heard elsewhere, not even in the moment before we learn that the device has gone."""
        try:
            self._private_sink = PrivateSink(sink, self._private_name)
        except DeviceError:
            return
        if self._stream:
            self._stream.close()
        with self._private_sink.taken():
            self._open_anywhere(self._device)

    def _is_at_home(self) -> bool:
        return self._home <= all_outputs() if self._private_sink else our_outputs() <= self._home

    def _make_sure(self, stream: Stream) -> None:
        """Silence first: finding out takes a moment, which would be heard."""
        stream.abort()
        if not self._is_at_home():
            raise DeviceError(self._gone)
        self._portaudio.start(stream)

    def _begin(self, play: _Play) -> None:
        self._report_over()
        stream = self._stream
        if stream is None:
            return self._post(Over(play.id, self._now_ms, cut_ms=0))
        jumps_silence = self._playback.is_empty and self._now_ms >= self._playback.ready_ms
        self._playback.append(play.id, after_ms=play.after_ms)  # first, so that a device lost here still reports it
        if jumps_silence:
            stream.abort()
        for piece, is_last in _pieces(play.sound, stream.format.rate_hz):
            self._playback.add(piece, is_last=is_last)
            if jumps_silence and not stream.is_active:
                self._portaudio.start(stream)

    def _silence(self) -> None:
        stream = self._stream
        if stream and not self._playback.is_empty:
            stream.abort()
            self._report_cut()
            self._is_hushed = False
            self._portaudio.start(stream)
        self._is_hushed = False

    def _look_after(self) -> None:
        now_ms = self._now_ms
        if self._stream is None:
            if self._retries.is_due(now_ms):
                self._try_again(now_ms)
        elif now_ms - self._taken_ms > STALLED_MS:
            raise DeviceError(self._gone)
        elif self._playback.is_empty and self._portaudio.stepped_aside(self._stream):
            self._let_go()
            self._open(self._device)

    def _try_again(self, now_ms: int) -> None:
        try:
            self._open(self._retries.found(self._device, now_ms))
        except DeviceError:
            self._let_go()
        else:
            self._post(LoudspeakerFound(self._device))

    def _let_go(self) -> None:
        if self._watch:
            self._watch.close()
        if self._stream:
            self._stream.close()
        if self._private_sink:
            self._private_sink.close()
        self._watch = self._stream = self._private_sink = None

    def _lose(self, sentence: str) -> None:
        """Reports the loss before it closes the device, which may take a while."""
        self._is_hushed = True
        self._post(LoudspeakerLost(sentence))
        self._report_cut()
        self._let_go()
        self._retries.lost(self._now_ms)
        self._is_hushed = False

    @property
    def _gone(self) -> str:
        return f'The loudspeaker "{self._device.name}" is gone; plug it in again.'

    def _report_over(self) -> None:
        now_ms = self._now_ms
        for id in self._playback.over(now_ms):
            self._post(Over(id, now_ms))

    def _report_cut(self) -> None:
        self._report_over()
        now_ms = self._now_ms
        for id, cut_ms in self._playback.cut(now_ms):
            self._post(Over(id, now_ms, cut_ms))

    # ---- the device's thread

    def _fill(self, block: Frames, ahead_ms: float | None) -> None:
        self._taken_ms = self._now_ms
        if self._is_hushed:
            block[:] = 0
            return
        heard_ms = self._taken_ms + (UNKNOWN_AHEAD_MS if ahead_ms is None else ahead_ms)
        if self._playback.fill(block[:, 0], heard_ms):
            self._orders.put(_Tick())  # the end of a sound is now known: report it on time
        block[:, 1:] = block[:, :1]


def _pieces(sound: Sound, rate_hz: int) -> Iterator[tuple[Mono, bool]]:
    """The sound at another rate, piece by piece, each with whether it is the last."""
    change = RateChange(from_hz=sound.rate_hz, to_hz=rate_hz)
    length = sound.rate_hz * PIECE_MS // 1000
    for begin in range(0, len(sound.samples), length):
        yield _as_int16(change.feed(sound.samples[begin : begin + length])), False
    yield _as_int16(change.rest()), True


def _as_int16(samples: Samples) -> Mono:
    mono: Mono = np.clip(np.rint(samples * 32_768.0), -32_768, 32_767).astype(np.int16)
    return mono
