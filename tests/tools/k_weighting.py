"""How loud a sound is while it sounds, as ITU-R BS.1770 weighs pitches.

Source: ITU-R BS.1770-4, annex 1: the coefficients of its tables 1 and 2, for 48 kHz, and the constant -0.691. What is
ours: pauses are left out as in `saythesum.speaking.loudness` and not by blocks of 400 ms, as a cue is shorter than one.
"""

import math

import numpy as np
import soxr
from numpy.typing import NDArray

from saythesum.ports import Sound
from saythesum.speaking.loudness import active_rms

RATE_HZ = 48_000
_SHELF = ((1.53512485958697, -2.69169618940638, 1.19839281085285), (-1.69065929318241, 0.73248077421585))
_HIGH_PASS = ((1.0, -2.0, 1.0), (-1.99004745483398, 0.99007225036621))


def loudness_db(sound: Sound) -> float:
    """In LKFS, of what is no pause."""
    at_48 = soxr.resample(sound.samples.astype(np.float64), sound.rate_hz, RATE_HZ)
    weighted = _filtered(_filtered(at_48, *_SHELF), *_HIGH_PASS)
    return -0.691 + 20 * math.log10(active_rms(Sound(weighted.astype(np.float32), RATE_HZ)))


def _filtered(samples: NDArray[np.float64], over: tuple[float, ...], under: tuple[float, ...]) -> NDArray[np.float64]:
    x1 = x2 = y1 = y2 = 0.0
    came: NDArray[np.float64] = np.empty(len(samples))
    for place, x in enumerate(samples):
        y = over[0] * x + over[1] * x1 + over[2] * x2 - under[0] * y1 - under[1] * y2
        came[place] = y
        x1, x2, y1, y2 = x, x1, y, y1
    return came
