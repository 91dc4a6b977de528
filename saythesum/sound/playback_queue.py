"""What is to be played, in order, and how far it has got.

The player's thread fills and asks it, the device's thread empties it.
"""

from collections import deque
from dataclasses import dataclass, field
from threading import Lock

import numpy as np
from numpy.typing import NDArray

from saythesum.ports import SoundId

Mono = NDArray[np.int16]


@dataclass(slots=True)
class _QueuedSound:
    id: SoundId
    after_ms: int
    pieces: deque[Mono] = field(default_factory=deque)
    is_whole: bool = False
    begun_ms: float | None = None
    """When its first sample is heard."""
    end_ms: float | None = None
    """When the last sample so far has been."""
    over_ms: float | None = None
    """When the last of all has been."""


class PlaybackQueue:
    """Times are the run's clock, at the ear: when a sample is heard, not when the device takes it.

    Two threads use it; the lock is held for a copy of 100 ms of sound at most.
    """

    def __init__(self, rate_hz: int, *, ready_ms: float = 0) -> None:
        self._rate_hz = rate_hz
        self.ready_ms = ready_ms
        """Nothing is heard before that."""
        self._last_over_ms: float | None = None
        self._sounds: deque[_QueuedSound] = deque()
        self._lock = Lock()

    @property
    def is_empty(self) -> bool:
        return not self._sounds

    def append(self, id: SoundId, *, after_ms: int) -> None:
        """After everything queued so far, with `after_ms` of silence between. Its samples follow through `add`."""
        with self._lock:
            self._sounds.append(_QueuedSound(id, after_ms))

    def add(self, piece: Mono, *, is_last: bool) -> None:
        """To the sound that was appended last; dropped if that has been cut meanwhile."""
        with self._lock:
            if self._sounds and not self._sounds[-1].is_whole:
                self._sounds[-1].pieces.append(piece)
                self._sounds[-1].is_whole = is_last

    def fill(self, out: Mono, heard_ms: float) -> bool:
        """Writes the next samples to `out`, and silence where there are none.

        `heard_ms`: when the first of them will be heard. Returns whether the end of a sound is among them.
        """
        with self._lock:
            at, before = 0, self._last_over_ms
            for sound in self._sounds:
                if sound.over_ms is None:
                    at = self._fill_from(sound, out, at, heard_ms)
                    if sound.over_ms is None:
                        break
            out[at:] = 0
            return self._last_over_ms != before

    def over(self, now_ms: float) -> list[SoundId]:
        """The sounds that have been heard to their end; each is returned once."""
        with self._lock:
            ids = []
            while self._sounds and (over_ms := self._sounds[0].over_ms) is not None and over_ms <= now_ms:
                ids.append(self._sounds.popleft().id)
            return ids

    @property
    def next_over_ms(self) -> float | None:
        """When `over` will next return something, as far as is known."""
        with self._lock:
            return self._sounds[0].over_ms if self._sounds else None

    def cut(self, now_ms: float) -> list[tuple[SoundId, int]]:
        """Drops everything. Returns the sounds that were not over yet, and how many milliseconds of each were heard."""
        with self._lock:
            cut = [(sound.id, _heard_ms(sound, now_ms)) for sound in self._sounds]
            self._sounds.clear()
            self._last_over_ms = None
            return cut

    def _fill_from(self, sound: _QueuedSound, out: Mono, at: int, heard_ms: float) -> int:
        """Returns the place in `out` where it stopped."""
        if sound.begun_ms is None:
            free_ms = self.ready_ms
            if self._last_over_ms is not None:
                free_ms = max(free_ms, self._last_over_ms + sound.after_ms)
            wait = round((free_ms - heard_ms) * self._rate_hz / 1000)
            begin = min(len(out), max(at, wait))
            out[at:begin] = 0
            at = begin
        while at < len(out) and sound.pieces:
            if sound.begun_ms is None:
                sound.begun_ms = heard_ms + at * 1000 / self._rate_hz
            piece = sound.pieces.popleft()
            count = min(len(piece), len(out) - at)
            out[at : at + count] = piece[:count]
            at += count
            if count or sound.end_ms is None:
                sound.end_ms = heard_ms + at * 1000 / self._rate_hz
            if count < len(piece):
                sound.pieces.appendleft(piece[count:])
        if sound.is_whole and not sound.pieces:
            sound.over_ms = self._last_over_ms = sound.end_ms
        return at


def _heard_ms(sound: _QueuedSound, now_ms: float) -> int:
    if sound.begun_ms is None:
        return 0
    return max(0, round(min(now_ms, sound.over_ms or now_ms) - sound.begun_ms))
