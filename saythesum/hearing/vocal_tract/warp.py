"""The same words in the same time from a larger mouth: formants and pitch come down, the pace stays."""

import numpy as np

from saythesum.ports import Samples

_FRAME = 512
"""32 ms: longer than the longest period of a voice, shorter than a sound of speech."""
_HOP = _FRAME // 2
_REACH = 160
"""10 ms either way, a period of a voice of 100 Hz: within it a place is found that goes on from the last frame."""
_WINDOW = np.hanning(_FRAME + 1)[:-1].astype(np.float32)
_MARGIN = _FRAME
"""Silence at the end, so that the transform does not join the end to the beginning."""


def lowered(samples: Samples, factor: float) -> Samples:
    """All frequencies divided by `factor`, the duration kept. 1 changes nothing."""
    if factor == 1.0 or not len(samples):
        return samples
    return in_time(_stretched(samples, factor), factor, len(samples))


def _stretched(samples: Samples, factor: float) -> Samples:
    """Played that much slower: band-limited interpolation by the spectrum of the whole stretch."""
    spectrum = np.fft.rfft(np.pad(samples, (0, _MARGIN)))
    count = round((len(samples) + _MARGIN) * factor)
    bins = count // 2 + 1
    spectrum = np.pad(spectrum[:bins], (0, max(0, bins - len(spectrum))))
    stretched: Samples = (np.fft.irfft(spectrum, count) * factor).astype(np.float32)
    return stretched


def in_time(samples: Samples, speed: float, count: int) -> Samples:
    """`count` samples played that much faster at the same pitch, by overlapping frames that go on from each other.

    Source: W. Verhelst and M. Roelands, An overlap-add technique based on waveform similarity (WSOLA) for high
    quality time-scale modification of speech, ICASSP 1993.
    """
    sound = np.pad(samples, (_REACH, 2 * (_FRAME + _REACH)))
    made = np.zeros(count + 2 * _FRAME, np.float32)
    place = _REACH
    for at in range(0, count + _HOP, _HOP):
        if at:
            target = min(round(at * speed) + _REACH, len(sound) - _FRAME - _REACH)
            place = _likest(sound, target, sound[place + _HOP : place + _HOP + _FRAME])
        made[at : at + _FRAME] += _WINDOW * sound[place : place + _FRAME]
    return made[:count]


def _likest(sound: Samples, target: int, wanted: Samples) -> int:
    """Where near `target` a frame begins that is most like the one wanted."""
    near = sound[target - _REACH : target + _REACH + _FRAME]
    alike = np.correlate(near, wanted)
    energy = np.cumsum(np.square(near, dtype=np.float64))
    within = energy[_FRAME - 1 :] - np.concatenate([[0.0], energy[:-_FRAME]])
    return target - _REACH + int(np.argmax(alike / np.sqrt(within + 1e-9)))
