"""Makes the sound cues in audio: `python -m tests.tools.make_sound_cues`.

Each has its own rhythm, so that it is known also by somebody to whom two pitches sound alike, and through the smallest
loudspeaker. All are as loud as speech, as ITU-R BS.1770 weighs pitches, and begin and end softly, so that none
startles.
"""

from dataclasses import dataclass

import numpy as np

from saythesum.ports import LISTENING_RATE_HZ, Samples, Sound
from saythesum.settings.shipped_files import audio_folder
from saythesum.sound.wav import write_wav
from saythesum.speaking.loudness import levelled


@dataclass(frozen=True, slots=True)
class Note:
    pitch_hz: float
    long_ms: int
    then_ms: int = 0
    """Silence after it."""


CUES = {
    "ear-open": (Note(587, 60, then_ms=40), Note(784, 60)),
    "ear-shut": (Note(523, 160),),
    "ten-reached": (Note(659, 70, then_ms=30), Note(659, 70, then_ms=30), Note(880, 220)),
    "heard-you": (Note(587, 50, then_ms=40), Note(587, 160)),
    "scan-step": (Note(494, 50),),
    "next-sum": (Note(523, 300),),
    "row-finished": (Note(523, 70, then_ms=40), Note(659, 70, then_ms=40), Note(784, 70, then_ms=40), Note(784, 240)),
    "practice-over": (Note(659, 240, then_ms=90), Note(523, 90, then_ms=60), Note(440, 420)),
}
"""Pitches lie between 400 and 900 Hz, where small loudspeakers still sound and mild hearing losses are smallest
(common practice)."""
ATTACK_MS, RELEASE_MS = 12, 35
OVERTONES = (1.0, 0.25, 0.08)
FADE_TO = 0.35
"""What a note has left when its release begins: it dies away like something struck."""


def main() -> None:
    for name, notes in CUES.items():
        write_wav(audio_folder() / f"{name}.wav", [cue(notes)], LISTENING_RATE_HZ)


def cue(notes: tuple[Note, ...]) -> Samples:
    pieces = [part for note in notes for part in (_sounded(note), np.zeros(_samples(note.then_ms)))]
    return levelled(Sound(np.concatenate(pieces).astype(np.float32), LISTENING_RATE_HZ)).samples


def _sounded(note: Note) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    time_s = np.arange(_samples(note.long_ms)) / LISTENING_RATE_HZ
    tone = np.zeros_like(time_s)
    for overtone, strength in enumerate(OVERTONES, start=1):
        tone += strength * np.sin(2 * np.pi * note.pitch_hz * overtone * time_s)
    shape = FADE_TO ** (time_s * 1000 / note.long_ms)
    attack, release = _samples(ATTACK_MS), _samples(RELEASE_MS)
    shape[:attack] *= _rise(attack)
    shape[-release:] *= _rise(release)[::-1]
    return tone * shape


def _rise(count: int) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Half a cosine from 0 to 1."""
    return 0.5 - 0.5 * np.cos(np.pi * np.arange(count) / count)


def _samples(ms: int) -> int:
    return ms * LISTENING_RATE_HZ // 1000


if __name__ == "__main__":
    main()
