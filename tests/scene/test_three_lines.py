"""The number line drawn, said and sounded is one and the same, for every start and amount, up and back."""

import re
from itertools import pairwise

import numpy as np
import pytest

from saythesum.app.session.speech.line_cue import line_cue
from saythesum.app.session.speech.line_sound import LOWEST_HZ, STRIDE_MS, line_sound
from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.taking import Difference
from saythesum.ports import LISTENING_RATE_HZ
from saythesum.scene.line_heard import SPAN_SEMITONES, line_heard
from saythesum.scene.number_line import whole_line
from saythesum.speaking.loudness import HIGHEST_PEAK, SPEECH_RMS, active_rms
from saythesum.wording.numbers import words
from saythesum.wording.speak.exercises.said_on_line import along_the_line

NUMBERS = {words(number): number for number in range(1100)}
EVERY: list[Exercise] = [
    *(Sum(start, amount) for start in range(1000) for amount in range(1, 10)),
    *(Difference(start, amount) for start in range(1000) for amount in range(1, min(start, 9) + 1)),
]


def stops_drawn(asked: Exercise) -> list[int]:
    line = whole_line(asked)
    stops = [line.start, *(jump.lands_at for jump in line.jumps if jump.lands_at is not None)]
    for (begins, ends), jump in zip(pairwise(stops), line.jumps, strict=True):
        assert jump.by == abs(ends - begins)
        assert jump.to == ends
        assert line.first <= ends <= line.last
    return stops


def stops_said(asked: Exercise) -> list[int]:
    """Read off the sentence alone, and the start."""
    stops = [asked.start]
    for jump in along_the_line(asked).removesuffix(".").lower().split(", "):
        way = re.search(r" (back to|to|past|below) ", jump)
        assert way is not None
        by, beside = NUMBERS[jump[: way.start()]], jump[way.end() :]
        if way[1] in ("to", "back to"):
            assert abs(NUMBERS[beside] - stops[-1]) == by
            stops.append(NUMBERS[beside])
        else:
            assert beside == "it" or NUMBERS[beside] == stops[-1]
            stops.append(stops[-1] + by if way[1] == "past" else stops[-1] - by)
    return stops


def test_drawn_said_and_sounded_have_the_same_stops() -> None:
    assert len(EVERY) == 9000 + 8955
    for asked in EVERY:
        drawn = stops_drawn(asked)
        notes = line_heard(whole_line(asked))
        assert drawn[-1] == asked.total
        assert stops_said(asked) == drawn
        assert [note.number for note in notes if note.is_stop] == drawn


def test_the_sounded_line_goes_in_equal_strides_and_up_with_the_numbers() -> None:
    for asked in EVERY:
        notes = line_heard(whole_line(asked))
        way = 1 if asked.total > asked.start else -1
        assert [note.number for note in notes] == list(range(asked.start, asked.total + way, way))
        assert all(note.is_ten == (note.number % 10 == 0) for note in notes)
        assert all((high.semitones - low.semitones) * way > 0 for low, high in pairwise(notes))
        assert all(0 <= note.semitones <= SPAN_SEMITONES for note in notes)


@pytest.mark.parametrize("asked", [Sum(47, 5), Sum(57, 3), Difference(52, 5), Sum(996, 8)])
def test_what_is_heard_has_these_pitches_and_is_as_loud_as_speech(asked: Exercise) -> None:
    """The strongest frequency of each stride, found by a Fourier transform of the sound itself."""
    line = whole_line(asked)
    sound = line_sound(line_cue(line))
    assert sound is not None
    stride = STRIDE_MS * LISTENING_RATE_HZ // 1000
    notes = line_heard(line)
    assert len(sound.samples) == len(notes) * stride
    for place, note in enumerate(notes):
        piece = sound.samples[place * stride : (place + 1) * stride]
        strength = np.abs(np.fft.rfft(piece, LISTENING_RATE_HZ))
        assert strength.argmax() == pytest.approx(LOWEST_HZ * 2 ** (note.semitones / 12), rel=0.02)
    is_at_the_peak = float(np.abs(sound.samples).max()) == pytest.approx(HIGHEST_PEAK, rel=0.01)
    assert is_at_the_peak or active_rms(sound) == pytest.approx(SPEECH_RMS, rel=0.1)


def test_an_ordinary_cue_is_no_line() -> None:
    assert line_sound("ten-reached") is None


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        (Sum(47, 5), "Three to fifty, two past it."),
        (Sum(57, 3), "Three to sixty."),
        (Sum(32, 5), "Five past thirty-two."),
        (Difference(52, 5), "Two back to fifty, three below it."),
        (Difference(34, 4), "Four back to thirty."),
        (Sum(95, 8), "Five to a hundred, three past it."),
    ],
)
def test_it_is_said_in_few_words(asked: Exercise, sentence: str) -> None:
    assert along_the_line(asked) == sentence
