"""Made-up encoder frames: each word a path of its own through the features, each saying of it at another tempo."""

from datetime import date

import numpy as np

from saythesum.hearing.embedded.own_words.comparable import QUIET_AFTER, QUIET_BEFORE, standard
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.embedded.own_words.words_file import none_yet
from saythesum.ports import Frames

DAY = date(2031, 3, 4)


def saying(word: int, take: int = 0, *, unlike: float = 0.3) -> Frames:
    """`unlike`: how much of noise is in it. At 0.3 two of a word are about 0.1 apart, as those of one person are."""
    shape = np.random.default_rng(word).standard_normal((6, 288))
    dice = np.random.default_rng((word, take, 7))
    count = int(dice.integers(20, 28))
    places = np.linspace(0, 5, count)
    path = np.stack([np.interp(places, np.arange(6), feature) for feature in shape.T], axis=1)
    quiet = dice.standard_normal((QUIET_BEFORE + count + QUIET_AFTER, 288)) * unlike
    quiet[QUIET_BEFORE : QUIET_BEFORE + count] += path
    frames: Frames = (quiet * standard().spread + standard().mean).astype(np.float32)
    return frames


def own_words(takes: dict[int, int], *, factor: float = 1.0, on: date = DAY) -> OwnWords:
    """So many takes of each number."""
    own = none_yet(factor)
    for number, count in takes.items():
        for take in range(count):
            came = own.with_take(number, saying(number, take), on=on)
            assert isinstance(came, OwnWords), f"take {take} of {number} is odd"
            own = came
    return own
