"""The conditions in which every set is heard: each a name and what it makes of a clip's sound.

Whatever is drawn at random is drawn from the clip's own name, so that a clip sounds the same in every run.
"""

import subprocess
import zlib
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from saythesum.ports import LISTENING_RATE_HZ, Samples
from tests.tools.listening.babble import babble
from tests.tools.listening.levels import quieter_by, speech_rms, within_full_scale
from tests.tools.listening.room_echo import impulse_response
from tests.tools.listening.sounds import Clip, need
from tests.tools.listening.whisper import whispered

CLIPPED_BY_DB = 12.0
"""How far the loudest sample would lie above full scale: somebody shouts, or the gain is turned up."""
OFFSET = 0.2
DROPPED_BLOCK_SAMPLES, DROPPED_SHARE = 320, 0.1
"""20 ms blocks, as sound cards have them. Lost ones leave no gap: what comes after moves up."""


@dataclass(frozen=True, slots=True)
class Condition:
    name: str
    of: Callable[[Clip], Samples]


def child(factor: float) -> Condition:
    """Pitch and formants raised together, duration kept: the effect of a shorter vocal tract."""
    return Condition(f"child {factor}", lambda clip: raised(clip.samples, factor))


def raised(samples: Samples, factor: float) -> Samples:
    need("ffmpeg")
    command = ["ffmpeg", "-v", "error", "-f", "f32le", "-ar", str(LISTENING_RATE_HZ), "-ac", "1", "-i", "-"]
    command += ["-af", f"rubberband=pitch={factor}:formant=shifted", "-f", "f32le", "-"]
    done = subprocess.run(command, input=samples.tobytes(), capture_output=True, check=True)
    return within_full_scale(np.frombuffer(done.stdout, dtype=np.float32))


def babbled(snr_db: float) -> Condition:
    def of(clip: Clip) -> Samples:
        dice = dice_of(clip)
        return _with_noise(clip.samples, babble(len(clip.samples), clip.voice, dice), snr_db)

    return Condition(f"babble {snr_db:.0f} dB", of)


def white_noise(snr_db: float) -> Condition:
    def of(clip: Clip) -> Samples:
        return _with_noise(clip.samples, dice_of(clip).standard_normal(len(clip.samples)), snr_db)

    return Condition(f"white noise {snr_db:.0f} dB", of)


def clipped(samples: Samples) -> Samples:
    loudest = float(np.abs(samples).max(initial=1e-9))
    shouted: Samples = np.clip(samples / loudest * 10 ** (CLIPPED_BY_DB / 20), -1.0, 1.0).astype(np.float32)
    return shouted


def echoed(samples: Samples) -> Samples:
    """As loud as without the room, for a room only adds."""
    wet = np.convolve(samples, impulse_response())[: len(samples)]
    return within_full_scale(wet * speech_rms(samples) / max(speech_rms(wet), 1e-9))


def dropped(clip: Clip) -> Samples:
    dice = dice_of(clip)
    blocks = [
        clip.samples[at : at + DROPPED_BLOCK_SAMPLES] for at in range(0, len(clip.samples), DROPPED_BLOCK_SAMPLES)
    ]
    return np.concatenate([block for block in blocks if dice.random() >= DROPPED_SHARE] or blocks[:1])


def dice_of(clip: Clip) -> np.random.Generator:
    return np.random.default_rng(zlib.crc32(f"{clip.voice} {clip.name}".encode()))


def _with_noise(samples: Samples, noise: NDArray[np.float64], snr_db: float) -> Samples:
    """The noise goes through all of it, before and after the speech too."""
    wanted_rms = speech_rms(samples) / 10 ** (snr_db / 20)
    return within_full_scale(samples + noise * wanted_rms / max(float(np.sqrt(np.mean(noise**2))), 1e-9))


CLEAN = Condition("clean", lambda clip: clip.samples)
CONDITIONS = (
    CLEAN,
    *(child(factor) for factor in (1.2, 1.35, 1.5)),
    *(babbled(snr_db) for snr_db in (10.0, 5.0)),
    white_noise(10.0),
    Condition("20 dB quieter", lambda clip: quieter_by(clip.samples, 20.0)),
    Condition("clipped", lambda clip: clipped(clip.samples)),
    Condition("small room", lambda clip: echoed(clip.samples)),
    Condition("whispered", lambda clip: whispered(clip.samples, dice_of(clip))),
    Condition("offset", lambda clip: np.clip(clip.samples + np.float32(OFFSET), -1.0, 1.0)),
    Condition("blocks lost", dropped),
)
