"""Made-up sayings: frames of one speaker's word are alike, those of another speaker or another word are not."""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from saythesum.app.word_game.game import Said, Sound
from saythesum.core.meanings import Meaning, Number
from saythesum.hearing.confidence.gate import Judged, Verdict
from saythesum.hearing.embedded.own_words.comparable import QUIET_AFTER, QUIET_BEFORE, standard
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.ports import Frames, Hearing

WORD_FRAMES = 12
CLEAR = Sound(above_room_db=30.0, is_clipped=False)
NONE_YET = OwnWords("a made-up model", 1.0)


@dataclass
class Speaker:
    """Two sayings of a word are alike and never the same."""

    seed: int
    _said: int = 0

    def frames(self, word: int) -> Frames:
        self._said += 1
        shape = (QUIET_BEFORE + WORD_FRAMES + QUIET_AFTER, 288)
        own = np.random.default_rng((self.seed, word)).standard_normal(shape)
        made = own + 0.2 * np.random.default_rng((self.seed, word, self._said)).standard_normal(shape)
        return _as_encoded(made)

    def says(self, word: int, heard: Meaning | None = None, sound: Sound = CLEAR) -> Said:
        """`heard`: what the engine makes of it; without it, it is understood."""
        meaning = heard or Number(word, 0.95)
        return said(meaning, self.frames(word), sound)


def whole(inside: Frames) -> Frames:
    """A kept take as if it had just been heard."""
    return _as_encoded(np.pad(inside, ((QUIET_BEFORE, QUIET_AFTER), (0, 0))))


def _as_encoded(frames: NDArray[np.floating[Any]]) -> Frames:
    return (frames * standard().spread + standard().mean).astype(np.float32)


def said(heard: Meaning, frames: "Frames | None" = None, sound: Sound = CLEAR) -> Said:
    return Said(np.zeros(0, np.float32), Hearing((), "", 0.0, frames=frames), Judged(heard, Verdict.TAKEN, 0.9), sound)
