"""Speech without a voice: the same spectrum over time, with noise in place of the vocal cords."""

import numpy as np
from numpy.typing import NDArray

from saythesum.ports import LISTENING_RATE_HZ, Samples
from tests.tools.listening.levels import within_full_scale

_FRAME = LISTENING_RATE_HZ // 32
_STEP = _FRAME // 4
_SMOOTH_QUEFRENCY = 30
"""Cepstral coefficients kept: 1.9 ms, longer than a formant's ringing and shorter than any voice's period."""


def whispered(samples: Samples, dice: np.random.Generator) -> Samples:
    window = np.hanning(_FRAME + 1)[:-1]
    whole = np.pad(samples.astype(np.float64), (_FRAME, _FRAME + -len(samples) % _STEP))
    sound, weight = np.zeros(len(whole)), np.zeros(len(whole))
    for at in range(0, len(whole) - _FRAME, _STEP):
        noise = dice.standard_normal(_FRAME) * window / np.sqrt((window**2).sum())
        shaped = np.fft.irfft(np.fft.rfft(noise) * _envelope(whole[at : at + _FRAME] * window), _FRAME)
        sound[at : at + _FRAME] += shaped * window
        weight[at : at + _FRAME] += window**2
    return within_full_scale((sound / np.maximum(weight, 1e-3))[_FRAME : _FRAME + len(samples)])


def _envelope(frame: NDArray[np.float64]) -> NDArray[np.float64]:
    """The smooth shape of the magnitude spectrum."""
    cepstrum = np.fft.irfft(np.log(np.abs(np.fft.rfft(frame)) + 1e-7))
    cepstrum[_SMOOTH_QUEFRENCY : len(cepstrum) - _SMOOTH_QUEFRENCY + 1] = 0.0
    envelope: NDArray[np.float64] = np.exp(np.fft.rfft(cepstrum).real)
    return envelope
