"""The talk of others behind a recording: several voices at once, none of them the one that answers, and no numbers."""

from functools import cache

import numpy as np
from numpy.typing import NDArray

from saythesum.ports import Samples
from tests.tools.listening.levels import speech_rms
from tests.tools.listening.other_people import timekeepers_other_words
from tests.tools.listening.sounds import flite, womans_other_phrases

TALKERS = 6
_WOMANS_PHRASES = 40
SAYINGS = (
    "The ferry leaves the harbour when the tide is in",
    "My grandmother bakes bread and rolls early in the morning",
    "Can you pass me the blue crayon over there please",
    "We saw a heron standing in the river on our way to school",
    "Somebody has put the chairs back in the wrong place again",
    "The rowing boats are all tied up along the jetty",
    "Has anybody seen my coat, I left it by the window",
    "Put your books away quietly and come and sit on the carpet",
)
_VOICES = ("slt", "rms", "awb", "kal16")


def babble(count: int, without_voice: str, dice: np.random.Generator) -> NDArray[np.float64]:
    """`count` samples. Each talker is as loud as the others and begins somewhere in the middle."""
    present = voices(without=without_voice)
    total = np.zeros(count)
    for place in range(TALKERS):
        talk = _talk()[present[place % len(present)]]
        total += np.take(talk, np.arange(count) + int(dice.integers(len(talk))), mode="wrap")
    return total


def voices(without: str) -> list[str]:
    return [name for name in sorted(_talk()) if name != without]


@cache
def _talk() -> dict[str, Samples]:
    """What each voice says, without pauses between its phrases, at one loudness."""
    spoken: dict[str, list[Samples]] = {voice: [flite(voice, saying) for saying in SAYINGS] for voice in _VOICES}
    spoken["woman"] = [clip.recorded() for clip in womans_other_phrases(_WOMANS_PHRASES)]
    spoken["timekeeper"] = [clip.recorded() for clip in timekeepers_other_words()]
    return {voice: _level(np.concatenate(phrases)) for voice, phrases in spoken.items()}


def _level(samples: Samples) -> Samples:
    levelled: Samples = (samples / speech_rms(samples)).astype(np.float32)
    return levelled
