"""What is to be played, in order, and how far it has got. Fed and asked by the player, emptied by the device."""

from collections import deque
from dataclasses import dataclass, field
from threading import Lock

import numpy as np
from numpy.typing import NDArray

from saythesum.ports import SoundId

Mono = NDArray[np.int16]


@dataclass(slots=True)
class _Laid:
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


class Line:
    """Times are the run's clock, at the ear: when a sample is heard, not when the device takes it.

    Two threads use it; the lock is held for a copy of 100 ms of sound at most.
    """

    def __init__(self, rate_hz: int, *, ready_ms: float = 0) -> None:
        self._rate_hz = rate_hz
        self.ready_ms = ready_ms
        """Nothing is heard before that."""
        self._last_over_ms: float | None = None
        self._laid: deque[_Laid] = deque()
        self._lock = Lock()

    @property
    def is_empty(self) -> bool:
        return not self._laid

    def lay(self, id: SoundId, *, after_ms: int) -> None:
        """Behind what is there already, with `after_ms` of silence between. Its sound follows, by `add`."""
        with self._lock:
            self._laid.append(_Laid(id, after_ms))

    def add(self, piece: Mono, *, is_last: bool) -> None:
        """To what was laid last. Nothing, where that has been cut meanwhile."""
        with self._lock:
            if self._laid and not self._laid[-1].is_whole:
                self._laid[-1].pieces.append(piece)
                self._laid[-1].is_whole = is_last

    def fill(self, out: Mono, heard_ms: float) -> bool:
        """The next samples; silence where there are none. `heard_ms`: when the first of them will be heard.

        Whether the end of a sound is among them.
        """
        with self._lock:
            at, before = 0, self._last_over_ms
            for laid in self._laid:
                if laid.over_ms is None:
                    at = self._fill_from(laid, out, at, heard_ms)
                    if laid.over_ms is None:
                        break
            out[at:] = 0
            return self._last_over_ms != before

    def over(self, now_ms: float) -> list[SoundId]:
        """What has been heard to its end, once."""
        with self._lock:
            ids = []
            while self._laid and (over_ms := self._laid[0].over_ms) is not None and over_ms <= now_ms:
                ids.append(self._laid.popleft().id)
            return ids

    @property
    def next_over_ms(self) -> float | None:
        """When `over` will have something to tell, as far as is known."""
        with self._lock:
            return self._laid[0].over_ms if self._laid else None

    def cut(self, now_ms: float) -> list[tuple[SoundId, int]]:
        """Drop everything: what was not over yet, with the milliseconds of it that were heard."""
        with self._lock:
            cut = [(laid.id, _heard_ms(laid, now_ms)) for laid in self._laid]
            self._laid.clear()
            self._last_over_ms = None
            return cut

    def _fill_from(self, laid: _Laid, out: Mono, at: int, heard_ms: float) -> int:
        """Where in `out` it stopped."""
        if laid.begun_ms is None:
            free_ms = self.ready_ms
            if self._last_over_ms is not None:
                free_ms = max(free_ms, self._last_over_ms + laid.after_ms)
            wait = round((free_ms - heard_ms) * self._rate_hz / 1000)
            begin = min(len(out), max(at, wait))
            out[at:begin] = 0
            at = begin
        while at < len(out) and laid.pieces:
            if laid.begun_ms is None:
                laid.begun_ms = heard_ms + at * 1000 / self._rate_hz
            piece = laid.pieces.popleft()
            count = min(len(piece), len(out) - at)
            out[at : at + count] = piece[:count]
            at += count
            if count or laid.end_ms is None:
                laid.end_ms = heard_ms + at * 1000 / self._rate_hz
            if count < len(piece):
                laid.pieces.appendleft(piece[count:])
        if laid.is_whole and not laid.pieces:
            laid.over_ms = self._last_over_ms = laid.end_ms
        return at


def _heard_ms(laid: _Laid, now_ms: float) -> int:
    if laid.begun_ms is None:
        return 0
    return max(0, round(min(now_ms, laid.over_ms or now_ms) - laid.begun_ms))
