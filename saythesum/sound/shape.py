"""Another sampling rate."""

from math import gcd

import numpy as np
from numpy.typing import NDArray

from saythesum.ports import LISTENING_RATE_HZ, Samples, Sound

STOPBAND_DB = 80.0
"""What would fold back is this much quieter: below the noise of a 16-bit recording in a room."""
ZERO_CROSSINGS = 64
"""Of the sinc, on each side, counted at the lower of the two rates."""
WEIGHTS_AT_ONCE = 2_000_000
"""Used in one step, which bounds the memory for long recordings and strange rates."""


def for_listening(sound: Sound) -> Samples:
    return resampled(sound.samples, from_hz=sound.rate_hz, to_hz=LISTENING_RATE_HZ)


def resampled(samples: Samples, *, from_hz: int, to_hz: int) -> Samples:
    """The same sound at another rate: a sinc in a Kaiser window, one set of weights for each phase.

    Source: Crochiere and Rabiner, "Multirate Digital Signal Processing" (1983), chapter 4; the window's shape by
    Kaiser's formula, in Oppenheim and Schafer, "Discrete-Time Signal Processing", section 7.5.3.
    """
    if from_hz == to_hz or len(samples) == 0:
        return samples
    common = gcd(from_hz, to_hz)
    up, down = to_hz // common, from_hz // common
    half = int(np.ceil(ZERO_CROSSINGS * max(1.0, from_hz / to_hz)))
    width = min(1.0, to_hz / from_hz)
    at_once = max(1, WEIGHTS_AT_ONCE // (2 * half))
    every_phase = phase_weights(np.arange(up) / up, half, width) if up <= at_once else None
    padded = np.concatenate([np.zeros(half, np.float32), samples, np.zeros(half + 1, np.float32)])
    count = -(-len(samples) * up // down)
    made = np.empty(count, np.float32)
    for begin in range(0, count, at_once):
        position = np.arange(begin, min(begin + at_once, count), dtype=np.int64) * down
        phase = position % up
        weights = phase_weights(phase / up, half, width) if every_phase is None else every_phase[phase]
        taps = padded[(position // up)[:, None] + np.arange(1, 2 * half + 1)]
        made[begin : begin + len(position)] = np.einsum("ij,ij->i", taps, weights)
    return made


def phase_weights(phases: NDArray[np.float64], half: int, width: float) -> Samples:
    """[phase, tap]: tap `t` weighs the sample `t + 1 - half` away. A phase is how far past a sample, 0 to 1.

    `width` is the share of the original band that is kept; the cut-off lies below it by half the transition.
    """
    transition = (STOPBAND_DB - 7.95) / (14.36 * half)  # Kaiser's formula for 2 * half taps, as a share of the band
    cutoff = width - transition / 2
    beta = 0.1102 * (STOPBAND_DB - 8.7)
    away: NDArray[np.float64] = np.arange(1 - half, half + 1) - phases[:, None]
    window = np.i0(beta * np.sqrt(np.clip(1 - (away / half) ** 2, 0, None))) / np.i0(beta)
    weights = cutoff * np.sinc(cutoff * away) * window
    even: Samples = (weights / weights.sum(axis=1, keepdims=True)).astype(np.float32)
    return even
