"""A little of `python -m tests.tools.listening`: recordings of a woman in a Debian package, and two made voices.

Source of the recordings: Debian's asterisk-core-sounds-en-g722. Where it is missing these tests fail and say so.
"""

import numpy as np
import pytest

from saythesum.core.meanings import Awaiting, Number
from saythesum.hearing.confidence.gate import Judged
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.recording import heard_in, spoken_part
from saythesum.ports import LISTENING_RATE_HZ, Samples
from saythesum.wording.numbers import words
from tests.tools.listening.sounds import flite, padded, prompt, womans_number

HER_NUMBERS = (0, 3, 8, 13, 15, 30, 40, 46, 52, 67, 71, 84, 99)
HER_OTHER_PHRASES = (
    "hello-world",
    "vm-goodbye",
    "please-try-again",
    "one-moment-please",
    "digits/h-16",
    "digits/mon-2",
    "digits/day-4",
    "letters/q",
    "tt-weasels",
    "im-sorry",
)


def heard(samples: Samples) -> Judged:
    return heard_in(padded(samples), Awaiting.NUMBER, NeuralRecogniser())[1]


@pytest.mark.parametrize("value", HER_NUMBERS)
def test_a_recorded_woman_says_a_number(value: int) -> None:
    found = heard(womans_number(value)).heard
    assert isinstance(found, Number)
    assert (found.value, found.sure) == (value, True)


@pytest.mark.parametrize("name", HER_OTHER_PHRASES)
def test_a_recorded_woman_says_something_else(name: str) -> None:
    found = heard(prompt(name)).heard
    assert not (isinstance(found, Number) and found.sure)


@pytest.mark.parametrize("voice", ["slt", "rms"])
@pytest.mark.parametrize("value", [5, 12, 38, 60, 93])
def test_a_made_voice_says_a_number(voice: str, value: int) -> None:
    found = heard(flite(voice, words(value))).heard
    assert isinstance(found, Number)
    assert (found.value, found.sure) == (value, True)


def test_a_recording_of_nothing_has_no_spoken_part() -> None:
    assert len(spoken_part(padded(womans_number(5))[:4000])) == 0


def test_a_whole_talk_is_cut_where_the_ear_would_cut_it() -> None:
    """Decoded whole, forty seconds take a gigabyte, and minutes far more."""
    talk = np.concatenate([womans_number(value) for value in range(20, 90)])
    assert len(talk) > 40 * LISTENING_RATE_HZ
    assert len(spoken_part(padded(talk))) == 20 * LISTENING_RATE_HZ
