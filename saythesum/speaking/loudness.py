"""One loudness for all phrases, and no silence around them."""

import numpy as np

from saythesum.ports import Samples, Sound

SPEECH_RMS = 0.1
"""-20 dB of full scale, while there is speech. Source: common practice for speech files."""
HIGHEST_PEAK = 0.89
"""-1 dB of full scale."""
FRAME_MS = 20
ACTIVE_BELOW_LOUDEST_DB = 30
"""A frame this much below the loudest is a pause. Source: after ITU-T P.56, which measures speech without its
pauses; the plain threshold instead of its envelope is ours."""
KEPT_BEFORE_MS = 20
KEPT_AFTER_MS = 80
"""Longer than before: words fade."""


def levelled(sound: Sound, volume: float = 1.0) -> Sound:
    """At SPEECH_RMS times `volume` (0 to 1), or less where a peak would pass HIGHEST_PEAK times `volume`."""
    speech_rms = active_rms(sound)
    if speech_rms == 0:
        return sound
    peak = float(np.abs(sound.samples).max())
    gain = min(SPEECH_RMS / speech_rms, HIGHEST_PEAK / peak) * volume
    return Sound((sound.samples * gain).astype(np.float32), sound.rate_hz)


def active_rms(sound: Sound) -> float:
    """The level of what is not a pause, 0 to 1; 0 for silence."""
    frames = _frame_rms(sound)
    loudest = frames.max(initial=0.0)
    if loudest == 0:
        return 0.0
    active = frames[frames >= loudest * 10 ** (-ACTIVE_BELOW_LOUDEST_DB / 20)]
    return float(np.sqrt(np.mean(active**2)))


def trimmed(sound: Sound) -> Sound:
    """Without the silence at both ends, except for a little. Silence alone becomes no sound at all."""
    loud = np.flatnonzero(np.abs(sound.samples) > 0.01 * np.abs(sound.samples).max(initial=0.0))
    if len(loud) == 0:
        return Sound(sound.samples[:0], sound.rate_hz)
    first = max(0, int(loud[0]) - sound.rate_hz * KEPT_BEFORE_MS // 1000)
    last = int(loud[-1]) + 1 + sound.rate_hz * KEPT_AFTER_MS // 1000
    return Sound(sound.samples[first:last], sound.rate_hz)


def _frame_rms(sound: Sound) -> Samples:
    length = max(1, sound.rate_hz * FRAME_MS // 1000)
    whole = sound.samples if len(sound.samples) >= length else np.resize(sound.samples, length)
    frames = whole[: len(whole) // length * length].reshape(-1, length).astype(np.float64)
    rms: Samples = np.sqrt(np.mean(frames**2, axis=1)).astype(np.float32)
    return rms
