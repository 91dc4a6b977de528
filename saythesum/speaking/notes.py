"""Short tones, as loud as speech: they begin and end softly, so that none startles."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from saythesum.ports import LISTENING_RATE_HZ, Samples, Sound
from saythesum.speaking.loudness import levelled

ATTACK_MS, RELEASE_MS = 12, 35
OVERTONES = (1.0, 0.25, 0.08)
CHIME = (1.0, 0.0, 0.5, 0.0, 0.0, 0.4)
"""Overtones of a note that is struck like a bell."""
FADE_TO = 0.35
"""What a note has left when its release begins: it dies away like something struck."""


@dataclass(frozen=True, slots=True)
class Note:
    pitch_hz: float
    long_ms: int
    then_ms: int = 0
    """Silence after it."""
    is_chime: bool = False


def sounded(notes: Sequence[Note]) -> Sound:
    pieces = [part for note in notes for part in (_tone(note), np.zeros(_samples(note.then_ms)))]
    samples: Samples = np.concatenate(pieces).astype(np.float32)
    return levelled(Sound(samples, LISTENING_RATE_HZ))


def _tone(note: Note) -> NDArray[np.float64]:
    time_s = np.arange(_samples(note.long_ms)) / LISTENING_RATE_HZ
    tone = np.zeros_like(time_s)
    for overtone, strength in enumerate(CHIME if note.is_chime else OVERTONES, start=1):
        tone += strength * np.sin(2 * np.pi * note.pitch_hz * overtone * time_s)
    shape = FADE_TO ** (time_s * 1000 / note.long_ms)
    attack, release = _samples(ATTACK_MS), _samples(RELEASE_MS)
    shape[:attack] *= _rise(attack)
    shape[-release:] *= _rise(release)[::-1]
    return tone * shape


def _rise(count: int) -> NDArray[np.float64]:
    """Half a cosine from 0 to 1."""
    return 0.5 - 0.5 * np.cos(np.pi * np.arange(count) / count)


def _samples(ms: int) -> int:
    return ms * LISTENING_RATE_HZ // 1000
