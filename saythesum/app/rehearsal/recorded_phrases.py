"""The voice of the made-up pupil: phrases recorded by a script from a synthetic voice."""

import re

import numpy as np

from saythesum.ports import LISTENING_RATE_HZ, Samples, Sound
from saythesum.settings.shipped_files import audio_folder
from saythesum.sound.resample import for_listening
from saythesum.sound.wav import read_wav

COMMA_MS = 250
"""Silence where a sentence has a comma: "no, sixty-two"."""


def pupil_phrase(text: str) -> Sound | None:
    """None unless every part of it was recorded.

    A comma joins recorded phrases with a short silence. Every number to 1099 in words is there; those above 100 are
    joined after their "and". Raises SoundFileError where a recording is damaged.
    """
    pieces = [_recorded(piece) for piece in text.split(",")]
    if not all(pieces):
        return None
    silence = np.zeros(LISTENING_RATE_HZ * COMMA_MS // 1000, np.float32)
    return Sound(np.concatenate([part for piece in pieces for part in (silence, *piece)][1:]), LISTENING_RATE_HZ)


def _recorded(piece: str) -> list[Samples]:
    """One recording, or the two that make a number; empty where there are none."""
    folder = audio_folder() / "pupil"
    begun, _, rest = piece.partition(" and ")
    for parts in ([piece], [f"{begun} and", rest]):
        paths = [folder / recording_name(part) for part in parts]
        if all(path.is_file() for path in paths):
            return [for_listening(read_wav(path)) for path in paths]
    return []


def recording_name(text: str) -> str:
    """The file for a phrase: "I don't know" is in i-dont-know.wav."""
    return "-".join(re.findall(r"[a-z0-9]+", text.lower().replace("'", ""))) + ".wav"
