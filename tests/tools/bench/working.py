"""What the tool's work costs while a pupil practises: in this process, no device."""

import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import numpy as np

from saythesum.core.meanings import Awaiting
from saythesum.dialogue.step import step
from saythesum.dialogue.turns.effects import Effect
from saythesum.dialogue.turns.events import Event, ListenId
from saythesum.hearing.ear import Ear
from saythesum.hearing.embedded.recogniser import NeuralRecogniser, tree
from saythesum.hearing.endpointing.endpointer import FRAME_SAMPLES
from saythesum.ports import LISTENING_RATE_HZ, Samples
from saythesum.sound.resample import resampled
from saythesum.wording.numbers import words
from tests.by_sound import recorded, tool_voice
from tests.talk import Talk, plan_of
from tests.tools.bench.lines import TIMES, Figure
from tests.tools.rows_a_second import rows_a_second

NUMBERS = tuple(range(40, 40 + TIMES))
THINKING_S, END_PAUSE_S = 1.5, 1.3


def listening() -> Iterator[Figure]:
    """Turns as they are: thinking, a number, the end pause; through the ear in blocks, with all that it does."""
    tree(Awaiting.NUMBER)
    heard: list[Event] = []
    shares, cpu_shares = [], []
    for number in NUMBERS:
        sound = _turn(recorded(words(number)))
        ear = Ear(NeuralRecogniser(), heard.append)
        ear.open(ListenId(number), Awaiting.NUMBER, 0)
        began, cpu_began = time.perf_counter(), time.process_time()
        for at in range(0, len(sound), FRAME_SAMPLES):
            ear.feed(sound[at : at + FRAME_SAMPLES])
        seconds = len(sound) / LISTENING_RATE_HZ
        shares.append((time.perf_counter() - began) / seconds)
        cpu_shares.append((time.process_time() - cpu_began) / seconds)
    assert len(heard) >= 2 * TIMES
    yield Figure("listening, all of it: seconds for a second of sound", shares, "", 0.15)
    yield Figure("listening, all of it: processor seconds likewise", cpu_shares, "")


def _turn(spoken: Samples) -> Samples:
    dice = np.random.default_rng(1)
    before, after = (
        dice.standard_normal(int(seconds * LISTENING_RATE_HZ), np.float32) * np.float32(1e-4)
        for seconds in (THINKING_S, END_PAUSE_S)
    )
    return np.concatenate([before, spoken, after])


def phrases() -> Iterator[Figure]:
    new: list[float] = []
    kept: list[float] = []
    with tempfile.TemporaryDirectory() as cache, tool_voice(Path(cache)) as voice:
        voice.render("Ready.")  # the voice's own start is part of the start of the program
        for number in NUMBERS:
            for times in (new, kept):
                began = time.perf_counter()
                voice.render(f"{words(number).capitalize()} add five.")
                times.append((time.perf_counter() - began) * 1000)
    yield Figure("a phrase that was kept", kept, "ms", 1)
    yield Figure("a phrase that is new", new, "ms", 30)


def other_rates() -> Iterator[Figure]:
    """Ten seconds of a recording, brought to the rate that is listened to."""
    for rate_hz in (22_050, 44_100, 48_000):
        sound = np.random.default_rng(1).standard_normal(10 * rate_hz, np.float32)
        took: list[float] = []
        for _ in range(TIMES + 1):
            began = time.perf_counter()
            resampled(sound, from_hz=rate_hz, to_hz=LISTENING_RATE_HZ)
            took.append((time.perf_counter() - began) * 1000)
        yield Figure(f"10 s of sound from {rate_hz / 1000:g} to 16 kHz", took[1:], "ms")


class _TimedTalk(Talk):
    """Each event is stepped once more to be timed: a step changes nothing outside."""

    took_ms: list[float]

    def post(self, event: Event) -> list[Effect]:
        began = time.perf_counter()
        step(self.state, event)
        self.took_ms.append((time.perf_counter() - began) * 1000)
        return super().post(event)


def steps() -> Iterator[Figure]:
    """Of a practice of six cells, two of them with help, by voice."""
    took: list[float] = []
    for _ in range(TIMES):
        talk = _TimedTalk(plan_of((38, 57), (3, 5, 8)))
        talk.took_ms = took
        talk.begin()
        for answer in ("forty-one", "forty-five", "two", "three", "forty-three", "forty-six", "sixty"):
            talk.answer(answer)
        for answer in ("fifty-two", "sixty-two", "I don't know", "sixty", "three", "five", "sixty-five"):
            talk.answer(answer)
        assert talk.finished
    yield Figure("a step of the dialogue", took, "ms", 0.2)


def rows() -> Iterator[Figure]:
    rates = []
    for _ in range(TIMES):
        with tempfile.TemporaryDirectory() as folder:
            rates.append(rows_a_second(Path(folder)))
    yield Figure("rows on disk", rates, "a second", more_is_better=True)
