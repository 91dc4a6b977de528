"""Sound as schools have it: what is not understood may be asked for once more; what nobody said is never taken."""

import tracemalloc
from collections.abc import Callable

import numpy as np
import pytest

from saythesum.core.meanings import Awaiting, Number
from saythesum.dialogue.turns.events import Event
from saythesum.hearing.confidence.gate import Judged, Verdict
from saythesum.hearing.ear import Ear
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.recording import heard_in
from saythesum.ports import LISTENING_RATE_HZ, Samples
from saythesum.wording.numbers import words
from tests.by_sound import recorded
from tests.hearing.test_ear import LISTEN
from tests.tools.listening.conditions import CONDITIONS, Condition
from tests.tools.listening.noises import NOISES, Dice, Wave, noise
from tests.tools.listening.sounds import padded, womans_number, womans_numbers

SPOILT = ("babble 10 dB", "clipped", "small room", "whispered", "offset", "blocks lost")
AT_ONCE = ((46, 51), (32, 85), (7, 64), (90, 13), (28, 77), (55, 19), (83, 38), (61, 24))
ENGINE = NeuralRecogniser()


def heard(samples: Samples) -> Judged:
    return heard_in(samples, Awaiting.NUMBER, ENGINE)[1]


def taken(found: Judged) -> int | str | None:
    """The number that would be said back as heard; a word where a command would be."""
    if found.verdict is not Verdict.TAKEN:
        return None
    return found.heard.value if isinstance(found.heard, Number) else "a command"


@pytest.mark.parametrize("condition", [each for each in CONDITIONS if each.name in SPOILT], ids=lambda each: each.name)
def test_a_spoilt_number_is_taken_for_no_other(condition: Condition) -> None:
    for clip in womans_numbers()[4::16]:
        assert taken(heard(condition.of(clip))) in (clip.said, None), clip.said


def test_of_two_people_at_once_hardly_anything_is_taken_that_neither_said() -> None:
    """Together they may well say a third: twenty-eight and seventy-seven come out as two seventy-eight."""
    neither = [pair for pair in AT_ONCE if taken(heard(both(*pair))) not in (*pair, None)]
    assert len(neither) <= 1, neither


def both(hers: int, his: int) -> Samples:
    one, other = padded(womans_number(hers)), padded(recorded(words(his)))
    length = max(len(one), len(other))
    return np.pad(one, (0, length - len(one))) + np.pad(other, (0, length - len(other)))


@pytest.mark.parametrize("make", NOISES, ids=lambda make: make.__name__)
def test_a_noise_is_not_taken(make: Callable[[Dice], Wave]) -> None:
    assert taken(heard(padded(noise(make, seed=11)))) is None


def test_long_silence_is_nothing_and_memory_does_not_grow() -> None:
    told: list[Event] = []
    ear = Ear(ENGINE, told.append)
    ear.open(LISTEN, Awaiting.NUMBER, 0)
    second = (np.random.default_rng(8).standard_normal(LISTENING_RATE_HZ) * 1e-4).astype(np.float32)
    for _ in range(25):  # what is kept of the last 20 s is full
        ear.feed(second)
    tracemalloc.start()
    for _ in range(40):
        ear.feed(second)
    grown, _ = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert told == []
    assert grown < 3 * second.nbytes, "less than the sound that was fed"
