"""Another sampling rate for sound that comes in blocks: a sinc in a Kaiser window, a set of weights for each phase.

Source: Crochiere and Rabiner, "Multirate Digital Signal Processing" (1983), chapter 4; the window's shape by Kaiser's
formula, in Oppenheim and Schafer, "Discrete-Time Signal Processing", section 7.5.3.
"""

from collections.abc import Iterable
from functools import lru_cache
from math import ceil, gcd

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

from saythesum.ports import LISTENING_RATE_HZ, Samples, Sound

STOPBAND_DB = 80.0
"""What would fold back is this much quieter: below the noise of a 16-bit recording in a room."""
ZERO_CROSSINGS = 64
"""Of the sinc, on each side, counted at the lower of the two rates."""
MOST_WEIGHTS = 2_000_000
"""In one matrix: the rates that devices and voices have need half a million at most."""
TABLE_PHASES = 512
"""For all other rates. Between two of them the weights are interpolated, with an error of (pi / 512)^2 / 8, 106 dB
down. Source of the error: J. O. Smith, "Digital Audio Resampling Home Page", on linear interpolation of the table."""


class RateChange:
    """Used by one thread. About 8 ms of sound stay back until more comes."""

    def __init__(self, *, from_hz: int, to_hz: int) -> None:
        common = gcd(from_hz, to_hz)
        self._up, self._down = to_hz // common, from_hz // common
        self._half = ceil(ZERO_CROSSINGS * max(1.0, from_hz / to_hz))
        self._width = min(1.0, to_hz / from_hz)
        self._kept: Samples = np.zeros(self._half, np.float32)
        self._fed = self._made = self._dropped = 0

    def feed(self, samples: Samples) -> Samples:
        if self._up == self._down:
            return samples
        self._fed += len(samples)
        self._kept = np.concatenate([self._kept, samples])
        rounds = max(1, self._half // self._down)
        is_small = rounds * self._up * (rounds * self._down + 2 * self._half) <= MOST_WEIGHTS
        made = self._round_by_round(rounds) if is_small else self._one_by_one()
        self._made += len(made)
        return made

    def rest(self) -> Samples:
        """What was kept back. Nothing can be fed after it."""
        if self._up == self._down:
            return np.zeros(0, np.float32)
        due = ceil(self._fed * self._up / self._down) - self._made
        return self.feed(np.zeros(3 * self._half + self._down, np.float32))[:due]

    def _round_by_round(self, rounds: int) -> Samples:
        """A round is the shortest stretch after which the phases repeat: `down` samples in, `up` out. Several at once
        make one product of matrices, which is several times faster than sample by sample.
        """
        matrix = _matrix(self._up, self._down, self._half, self._width, rounds)
        step = rounds * self._down
        count = max(0, (len(self._kept) - 2 * self._half) // step)
        if not count:
            return np.zeros(0, np.float32)
        made: Samples = sliding_window_view(self._kept, len(matrix))[::step][:count] @ matrix
        self._drop(count * step)
        return made.reshape(-1)

    def _one_by_one(self) -> Samples:
        last_begin = self._dropped + len(self._kept) - 2 * self._half - 1
        end = ((last_begin + 1) * self._up - 1) // self._down + 1
        if end <= self._made:
            return np.zeros(0, np.float32)
        position = np.arange(self._made, end, dtype=np.int64) * self._down
        begin = position // self._up - self._dropped
        place = position % self._up * (TABLE_PHASES / self._up)
        before = place.astype(np.int64)
        share = (place - before).astype(np.float32)[:, None]
        table = _all_weights(TABLE_PHASES, self._half, self._width)
        taps = sliding_window_view(self._kept, 2 * self._half)[begin + 1]
        made: Samples = np.einsum("ij,ij->i", taps, table[before] * (1 - share) + table[before + 1] * share)
        self._drop(int(begin[-1]))
        return made

    def _drop(self, count: int) -> None:
        self._kept = self._kept[count:].copy()
        self._dropped += count


@lru_cache(maxsize=8)
def _matrix(up: int, down: int, half: int, width: float, rounds: int) -> Samples:
    """[sample in, sample out]. Kept, as every sound of a practice has the same two rates."""
    weights = _all_weights(up, half, width)
    matrix = np.zeros((rounds * down + 2 * half, rounds * up), np.float32)
    for out in range(rounds * up):
        begin = out * down // up + 1
        matrix[begin : begin + 2 * half, out] = weights[out * down % up]
    return matrix


@lru_cache(maxsize=8)
def _all_weights(phases: int, half: int, width: float) -> Samples:
    """[phase, tap], from 0 to a whole sample past: tap `t` weighs the sample `t + 1 - half` away.

    `width` is the share of the original band that is kept; the cut-off lies below it by half the transition.
    """
    transition = (STOPBAND_DB - 7.95) / (14.36 * half)  # Kaiser's formula for 2 * half taps, as a share of the band
    cutoff = width - transition / 2
    beta = 0.1102 * (STOPBAND_DB - 8.7)
    past = np.arange(phases + 1) / phases
    away: NDArray[np.float64] = np.arange(1 - half, half + 1) - past[:, None]
    window = np.i0(beta * np.sqrt(np.clip(1 - (away / half) ** 2, 0, None))) / np.i0(beta)
    weights = cutoff * np.sinc(cutoff * away) * window
    even: Samples = (weights / weights.sum(axis=1, keepdims=True)).astype(np.float32)
    return even


PIECE_SAMPLES = 1 << 14
"""Bounds the memory for long recordings."""


def for_listening(sound: Sound) -> Samples:
    return resampled(sound.samples, from_hz=sound.rate_hz, to_hz=LISTENING_RATE_HZ)


def resampled(samples: Samples, *, from_hz: int, to_hz: int) -> Samples:
    """The same sound at another rate."""
    if from_hz == to_hz or len(samples) == 0:
        return samples
    begins = range(0, len(samples), PIECE_SAMPLES)
    return resampled_in_pieces(
        (samples[begin : begin + PIECE_SAMPLES] for begin in begins), from_hz=from_hz, to_hz=to_hz
    )


def resampled_in_pieces(pieces: Iterable[Samples], *, from_hz: int, to_hz: int) -> Samples:
    """The same for sound that is not all there at once."""
    change = RateChange(from_hz=from_hz, to_hz=to_hz)
    return np.concatenate([*map(change.feed, pieces), change.rest()])
