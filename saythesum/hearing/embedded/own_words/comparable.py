"""Frames of one saying, made comparable with those of another: without the quiet around it, each of unit length."""

import zipfile
from functools import cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from saythesum.errors import ListeningError
from saythesum.hearing.embedded.second_opinion import FILE_NAME
from saythesum.ports import Frames
from saythesum.settings.shipped_files import models_folder

QUIET_BEFORE, QUIET_AFTER = 5, 16
"""Frames of the lead before speech, and of the pause and the quiet end after it, that are no part of the word."""
FEWEST = 8
"""A fifth of a second: shorter than any number word."""


class Standard(NamedTuple):
    """What the encoder's features are on average, and how far they spread: measured on the sound that the second
    opinion learnt from."""

    mean: NDArray[np.float32]
    spread: NDArray[np.float32]


def comparable(frames: Frames) -> "Frames | None":
    """None where hardly anything was said. Raises ListeningError where the shipped statistics cannot be read."""
    inside = frames[QUIET_BEFORE : len(frames) - QUIET_AFTER]
    if len(inside) < FEWEST:
        return None
    return of_unit_length((inside - standard().mean) / standard().spread)


def of_unit_length(frames: Frames) -> Frames:
    lengths = np.linalg.norm(frames, axis=1, keepdims=True)
    scaled: Frames = (frames / np.maximum(lengths, 1e-9)).astype(np.float32)
    return scaled


@cache
def standard() -> Standard:
    """Raises ListeningError where they are missing or damaged."""
    path = models_folder() / FILE_NAME
    try:
        with np.load(path, allow_pickle=False) as held:
            return Standard(held["mean"], held["spread"])
    except (OSError, ValueError, KeyError, EOFError, zipfile.BadZipFile) as failure:
        raise ListeningError(f"{path} is missing or damaged; right would be to install saythesum again.") from failure
