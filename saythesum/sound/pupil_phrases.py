"""The voice of the made-up pupil: phrases recorded by a script from a synthetic voice."""

import re

import numpy as np

from saythesum.ports import Sound
from saythesum.sound.folders import audio_folder
from saythesum.sound.wav import read_wav

COMMA_MS = 250
"""Silence where a sentence has a comma: "no, sixty-two"."""


def pupil_phrase(text: str) -> Sound | None:
    """None where any of it was never recorded. A comma joins recorded phrases with a short silence.

    Raises SoundFileError where a recording is damaged.
    """
    folder = audio_folder() / "pupil"
    paths = [folder / recording_name(piece) for piece in text.split(",")]
    if not all(path.is_file() for path in paths):
        return None
    return _joined([read_wav(path) for path in paths])


def recording_name(text: str) -> str:
    """The file for a phrase: "I don't know" is in i-dont-know.wav."""
    return "-".join(re.findall(r"[a-z0-9]+", text.lower().replace("'", ""))) + ".wav"


def _joined(sounds: list[Sound]) -> Sound:
    rate_hz = sounds[0].rate_hz
    silence = np.zeros(rate_hz * COMMA_MS // 1000, np.float32)
    pieces = [piece for sound in sounds for piece in (silence, sound.samples)]
    return Sound(np.concatenate(pieces[1:]), rate_hz)
