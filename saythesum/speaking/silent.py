"""No voice: for practising in plain text, and where time matters but sound does not."""

import numpy as np

from saythesum.ports import LISTENING_RATE_HZ, Sound
from saythesum.settings import Speech


class SilentVoice:
    """Silence, as long as saying the words would take at the set rate."""

    def __init__(self, speech: Speech) -> None:
        self._rate_wpm = speech.rate_wpm

    def render(self, phrase: str) -> Sound:
        words = sum(any(map(str.isalnum, word)) for word in phrase.replace("-", " ").split())
        return Sound(np.zeros(words * 60 * LISTENING_RATE_HZ // self._rate_wpm, np.float32), LISTENING_RATE_HZ)

    def close(self) -> None:
        pass
