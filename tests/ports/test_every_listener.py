"""What every listener must do: the one with a thread at a microphone, and the one of a rehearsal."""

from collections.abc import Callable, Iterator
from queue import Empty, SimpleQueue
from typing import TypeVar

import numpy as np
import pytest

from saythesum.app.rehearsal.computed_sound import SampleClock, TrackListener
from saythesum.app.session.speech.listener import ListeningLost, LiveListener
from saythesum.core.meanings import Awaiting, Number
from saythesum.dialogue.turns.effects import Ear as EarKind
from saythesum.dialogue.turns.effects import Listen, Purpose
from saythesum.dialogue.turns.events import Event, HeardSoFar, ListenId, NobodySpoke, SpeechBegan
from saythesum.hearing.ear import Ear
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.ports import LISTENING_RATE_HZ, Captured, Listener, Samples
from tests.by_sound import recorded
from tests.fakes.sound_devices import FedMicrophone

BLOCK = LISTENING_RATE_HZ // 10
QUIET_MS = 600
Kind = TypeVar("Kind")
Heard = SimpleQueue[Event | ListeningLost]


class AtMicrophone:
    def __init__(self, news: Heard) -> None:
        self._microphone = FedMicrophone()
        self.listener: Listener = LiveListener(self._microphone, NeuralRecogniser, post=news.put)

    def hears_block(self, at_sample: int, block: Samples) -> None:
        self._microphone.feed(at_sample, block)


class InRehearsal:
    def __init__(self, news: Heard) -> None:
        self._listener = TrackListener(Ear(NeuralRecogniser(), news.put), SampleClock(), lambda _: None)
        self.listener: Listener = self._listener

    def hears_block(self, at_sample: int, block: Samples) -> None:
        self._listener.hear(Captured(at_sample, block))


class Time:
    """Passes before the listener, in blocks of 100 ms as devices give them."""

    def __init__(self, make: Callable[[Heard], AtMicrophone | InRehearsal]) -> None:
        self._news: Heard = SimpleQueue()
        self._room = make(self._news)
        self.listener = self._room.listener
        self._dice = np.random.default_rng(1)
        self._at_sample = 0

    def hears(self, sound: Samples) -> None:
        whole = np.concatenate([sound, np.zeros(-len(sound) % BLOCK, np.float32)])
        noisy = (whole + self._dice.standard_normal(len(whole), np.float32) * 1e-4).astype(np.float32)
        for at in range(0, len(noisy), BLOCK):
            self._room.hears_block(self._at_sample + at, noisy[at : at + BLOCK])
        self._at_sample += len(noisy)

    def is_quiet(self, ms: int = QUIET_MS) -> None:
        self.hears(np.zeros(ms * LISTENING_RATE_HZ // 1000, np.float32))

    @property
    def now_ms(self) -> int:
        return self._at_sample * 1000 // LISTENING_RATE_HZ

    def next(self, kind: type[Kind]) -> Kind:
        while True:
            told = self._news.get(timeout=60)
            assert not isinstance(told, ListeningLost)
            if isinstance(told, kind):
                return told

    def all_else(self) -> list[Event | ListeningLost]:
        """What has been posted and not been looked at."""
        found = []
        while True:
            try:
                found.append(self._news.get_nowait())
            except Empty:
                return found


@pytest.fixture(params=[AtMicrophone, InRehearsal])
def time(request: pytest.FixtureRequest) -> Iterator[Time]:
    time = Time(request.param)
    yield time
    time.listener.close()


def answer(number: int) -> Listen:
    return Listen(ListenId(number), Awaiting.NUMBER, EarKind.OPEN, Purpose.ANSWER)


def between(number: int, for_ms: int) -> Listen:
    return Listen(ListenId(number), Awaiting.NUMBER, EarKind.OPEN, Purpose.BETWEEN_SENTENCES, for_ms)


def value_of(heard: HeardSoFar) -> int:
    assert isinstance(heard.heard, Number)
    return heard.heard.value


def test_an_answer_is_heard_with_the_times_of_the_run(time: Time) -> None:
    time.is_quiet()
    time.listener.open(answer(7), time.now_ms)
    time.is_quiet()
    before_ms = time.now_ms
    time.hears(recorded("fifty-two"))
    after_ms = time.now_ms
    time.is_quiet()
    assert time.next(SpeechBegan).listen == 7
    heard = time.next(HeardSoFar)
    assert (value_of(heard), heard.listen) == (52, 7)
    assert before_ms <= heard.began_ms < heard.ended_ms <= after_ms + 100


def test_what_was_said_before_the_ear_opened_is_forgotten(time: Time) -> None:
    """Also where the microphone gives it only afterwards."""
    time.hears(recorded("forty-seven"))
    time.is_quiet()
    time.listener.open(answer(1), time.now_ms)
    time.hears(recorded("fifty-two"))
    time.is_quiet()
    assert value_of(time.next(HeardSoFar)) == 52
    assert not any(isinstance(told, HeardSoFar) for told in time.all_else())


def test_what_is_said_after_the_ear_shut_is_forgotten(time: Time) -> None:
    time.listener.open(answer(1), time.now_ms)
    time.listener.shut()
    time.hears(recorded("forty-seven"))
    time.is_quiet()
    time.listener.open(answer(2), time.now_ms)
    time.hears(recorded("fifty-two"))
    time.is_quiet()
    heard = time.next(HeardSoFar)
    assert (value_of(heard), heard.listen) == (52, 2)


def test_what_may_be_the_tools_echo_is_not_looked_at(time: Time) -> None:
    time.is_quiet()
    said = recorded("forty-seven")
    echo_ms = len(said) * 1000 // LISTENING_RATE_HZ + 200
    time.listener.open(answer(1), time.now_ms, silent_from_ms=time.now_ms + echo_ms)
    time.hears(said)
    time.is_quiet()
    time.hears(recorded("fifty-two"))
    time.is_quiet()
    assert value_of(time.next(HeardSoFar)) == 52


def test_between_two_sentences_it_shuts_by_itself_where_nobody_speaks(time: Time) -> None:
    time.is_quiet()
    time.listener.open(between(3, 400), time.now_ms)
    opened_ms = time.now_ms
    time.is_quiet()
    nobody = time.next(NobodySpoke)
    assert nobody.listen == 3
    assert opened_ms + 400 <= nobody.at_ms <= opened_ms + 500
    time.hears(recorded("forty-seven"))
    time.is_quiet()
    time.listener.open(answer(4), time.now_ms)
    time.hears(recorded("fifty-two"))
    time.is_quiet()
    assert value_of(time.next(HeardSoFar)) == 52


def test_between_two_sentences_it_stays_open_for_whoever_speaks(time: Time) -> None:
    time.is_quiet()
    time.listener.open(between(3, 400), time.now_ms)
    time.hears(recorded("fifty-two"))
    time.is_quiet()
    assert value_of(time.next(HeardSoFar)) == 52
    assert not any(isinstance(told, NobodySpoke) for told in time.all_else())


def test_it_tells_how_far_it_has_got(time: Time) -> None:
    """Also in sound that it passes over."""
    time.is_quiet()
    time.listener.open(answer(1), time.now_ms)
    time.hears(recorded("fifty-two"))
    time.is_quiet()
    time.next(HeardSoFar)
    assert time.listener.is_ready
    assert QUIET_MS < time.listener.heard_until_ms <= time.now_ms
