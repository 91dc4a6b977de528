"""The files this room writes and reads back: WAV, mono, 16 bit, as pyttsx3 and the cache make them."""

import wave
from pathlib import Path

import numpy as np

from saythesum.ports import Sound

FULL_SCALE = 32_768


class DamagedFileError(Exception):
    """The file is cut off, or is none of ours."""


def read_pcm(path: Path) -> Sound:
    """Raises DamagedFileError, or OSError if the file cannot be read."""
    try:
        with wave.open(str(path), "rb") as file:
            described = file.getparams()
            data = file.readframes(described.nframes)
    except (wave.Error, EOFError) as error:
        raise DamagedFileError(str(error)) from error
    if (described.nchannels, described.sampwidth) != (1, 2) or described.framerate <= 0:
        raise DamagedFileError("not mono, 16 bit")
    if len(data) != 2 * described.nframes:
        raise DamagedFileError("cut off")
    samples = np.frombuffer(data, "<i2").astype(np.float32) / np.float32(FULL_SCALE)
    return Sound(samples, described.framerate)


def write_pcm(path: Path, sound: Sound) -> None:
    data = np.clip(np.rint(sound.samples * FULL_SCALE), -FULL_SCALE, FULL_SCALE - 1).astype("<i2")
    with wave.open(str(path), "wb") as file:
        file.setparams((1, 2, sound.rate_hz, len(data), "NONE", ""))
        file.writeframes(data.tobytes())
