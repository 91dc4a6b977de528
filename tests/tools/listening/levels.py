"""How loud speech is, pauses left out, and changes of level."""

import numpy as np
from numpy.typing import NDArray

from saythesum.ports import LISTENING_RATE_HZ, Samples

_FRAME_SAMPLES = LISTENING_RATE_HZ // 50
_SPEECH_BELOW_LOUDEST_DB = 30.0
"""A frame further below the loudest one is a pause. Common practice."""


def speech_rms(samples: Samples) -> float:
    """The level of the 20 ms frames that are speech; 0 for silence."""
    whole = np.pad(samples, (0, -len(samples) % _FRAME_SAMPLES)).reshape(-1, _FRAME_SAMPLES)
    powers = np.mean(whole.astype(np.float64) ** 2, axis=1)
    loudest = powers.max(initial=0.0)
    if not loudest:
        return 0.0
    return float(np.sqrt(powers[powers >= loudest * 10 ** (-_SPEECH_BELOW_LOUDEST_DB / 10)].mean()))


def quieter_by(samples: Samples, db: float) -> Samples:
    quieter: Samples = (samples * 10 ** (-db / 20)).astype(np.float32)
    return quieter


def within_full_scale(samples: NDArray[np.floating]) -> Samples:
    """Turned down where it would clip, so that nothing is clipped by accident."""
    scaled: Samples = (samples / max(1.0, float(np.abs(samples).max(initial=0.0)))).astype(np.float32)
    return scaled
