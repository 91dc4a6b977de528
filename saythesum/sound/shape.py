"""Whole recordings at another sampling rate."""

import numpy as np

from saythesum.ports import LISTENING_RATE_HZ, Samples, Sound
from saythesum.sound.flowing import RateChange

PIECE_SAMPLES = 1 << 14
"""Bounds the memory for long recordings."""


def for_listening(sound: Sound) -> Samples:
    return resampled(sound.samples, from_hz=sound.rate_hz, to_hz=LISTENING_RATE_HZ)


def resampled(samples: Samples, *, from_hz: int, to_hz: int) -> Samples:
    """The same sound at another rate."""
    if from_hz == to_hz or len(samples) == 0:
        return samples
    change = RateChange(from_hz=from_hz, to_hz=to_hz)
    begins = range(0, len(samples), PIECE_SAMPLES)
    made = [change.feed(samples[begin : begin + PIECE_SAMPLES]) for begin in begins]
    return np.concatenate([*made, change.rest()])
