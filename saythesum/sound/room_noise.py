"""Ten seconds of the room through the microphone: can a pupil be heard here today?"""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from saythesum.ports import LISTENING_RATE_HZ, Samples

TEN_SECONDS = 10 * LISTENING_RATE_HZ
FRAME_SAMPLES = 512
"""What finds speech looks at this much at once: 32 ms."""
SPEECH_FROM = 0.3
"""Where the ear opens, too: what is speech here would wake the ear there."""
MOST_SPEECH = 0.2
"""Talk in more than a fifth of the time leaves no pause to answer in. Common practice is to ask for silence; the
share is ours, from memory of classrooms."""
CLIPPED_FROM = 0.999
MOST_CLIPPED = 0.001
"""Share of samples at the end of the scale. Speech that is not clipped has none."""
SILENT_BELOW = 1e-5
"""Below half a step of 16 bits: no room is that quiet, the microphone is off."""
HUM_HZ = (50.0, 60.0)
"""The mains, anywhere in the world."""
HUM_OVERTONES = 6
MOST_HUM = 0.5
"""Share of all power that lies within 2 Hz of the mains and its overtones."""
HUM_MATTERS_FROM = 1e-3
"""-60 dB of full scale: hum below that disturbs nobody."""


class RoomState(StrEnum):
    QUIET_ENOUGH = "quiet-enough"
    TOO_MUCH_TALKING = "too-much-talking"
    SILENT_MICROPHONE = "silent-microphone"
    HUM = "hum"
    CLIPPING = "clipping"


@dataclass(frozen=True, slots=True)
class Room:
    state: RoomState
    level: float
    """Root of the mean square, 0 to 1, offset taken out."""
    speech: float
    """Share of the time, 0 to 1."""
    hum: float
    """Share of the power, 0 to 1."""
    clipped: float
    """Share of the samples, 0 to 1."""


def judged(samples: Samples, probability: Callable[[Samples], float]) -> Room:
    """`samples`: what came, mono at LISTENING_RATE_HZ; TEN_SECONDS are enough, nothing at all is a silent one.

    `probability` of speech, 0 to 1, for frames of FRAME_SAMPLES in order.
    """
    steady = samples - samples.mean() if len(samples) else samples
    level = float(np.sqrt(np.mean(steady.astype(np.float64) ** 2))) if len(samples) else 0.0
    if level < SILENT_BELOW:
        return Room(RoomState.SILENT_MICROPHONE, level, 0.0, 0.0, 0.0)
    clipped = float(np.mean(np.abs(samples) >= CLIPPED_FROM))
    hum = _hum(steady)
    frames = samples[: len(samples) // FRAME_SAMPLES * FRAME_SAMPLES].reshape(-1, FRAME_SAMPLES)
    speech = float(np.mean([probability(frame) >= SPEECH_FROM for frame in frames])) if len(frames) else 0.0
    return Room(_state(level, speech=speech, hum=hum, clipped=clipped), level, speech, hum, clipped)


def _state(level: float, *, speech: float, hum: float, clipped: float) -> RoomState:
    """What can be put right with a cable or a slider comes before what cannot."""
    if clipped > MOST_CLIPPED:
        return RoomState.CLIPPING
    if hum > MOST_HUM and level > HUM_MATTERS_FROM:
        return RoomState.HUM
    return RoomState.TOO_MUCH_TALKING if speech > MOST_SPEECH else RoomState.QUIET_ENOUGH


def _hum(steady: Samples) -> float:
    """The larger share of the two mains."""
    window = np.hanning(len(steady))
    power = np.abs(np.fft.rfft(steady * window)) ** 2
    hz = np.fft.rfftfreq(len(steady), 1 / LISTENING_RATE_HZ)
    shares = []
    for mains in HUM_HZ:
        nearest = np.clip(np.rint(hz / mains), 1, HUM_OVERTONES) * mains
        shares.append(float(power[np.abs(hz - nearest) <= 2].sum() / max(power.sum(), 1e-30)))
    return max(shares)
