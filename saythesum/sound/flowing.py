"""Another sampling rate for sound that comes in blocks."""

from functools import lru_cache
from math import gcd

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view

from saythesum.ports import Samples
from saythesum.sound.shape import ZERO_CROSSINGS, phase_weights


class RateChange:
    """What `shape.resampled` makes of the whole, block after block; about 4 ms of sound stay back until more comes.

    For rates that devices and voices have. Rates without a common divisor would need weights for every sample.
    """

    def __init__(self, *, from_hz: int, to_hz: int) -> None:
        common = gcd(from_hz, to_hz)
        self._up, self._down = to_hz // common, from_hz // common
        self._half = int(np.ceil(ZERO_CROSSINGS * max(1.0, from_hz / to_hz)))
        self._weights = _all_weights(self._up, self._half, min(1.0, to_hz / from_hz))
        self._kept: Samples = np.zeros(self._half, np.float32)
        self._fed = self._made = 0

    def feed(self, samples: Samples) -> Samples:
        if self._up == self._down:
            return samples
        self._fed += len(samples)
        self._kept = np.concatenate([self._kept, samples])
        # A round is the shortest stretch after which the phases repeat: `down` samples in, `up` out.
        rounds = max(0, (len(self._kept) - 2 * self._half - 1) // self._down)
        made = np.empty((rounds, self._up), np.float32)
        windows = sliding_window_view(self._kept, 2 * self._half) if rounds else self._kept
        for phase in range(self._up if rounds else 0):
            begin = 1 + phase * self._down // self._up
            made[:, phase] = windows[begin :: self._down][:rounds] @ self._weights[phase * self._down % self._up]
        self._kept = self._kept[rounds * self._down :].copy()
        self._made += made.size
        return made.reshape(-1)

    def rest(self) -> Samples:
        """What was kept back. Nothing can be fed after it."""
        if self._up == self._down:
            return np.zeros(0, np.float32)
        due = -(-self._fed * self._up // self._down) - self._made
        return self.feed(np.zeros(2 * self._half + 1 + self._down, np.float32))[:due]


@lru_cache(maxsize=8)
def _all_weights(phases: int, half: int, width: float) -> Samples:
    """Kept, as every sound of a practice has the same two rates."""
    return phase_weights(np.arange(phases) / phases, half, width)
