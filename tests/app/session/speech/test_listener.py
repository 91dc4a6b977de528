"""The ear's own thread: only what is said while the ear is open is listened to."""

from collections.abc import Callable, Iterator
from queue import SimpleQueue

import numpy as np
import pytest

from saythesum.app.session.speech.listener import ListeningLost, LiveListener
from saythesum.core.meanings import Awaiting
from saythesum.dialogue.turns.effects import Ear, Listen, Purpose
from saythesum.dialogue.turns.events import Event, HeardSoFar, ListenId, SpeechBegan
from saythesum.errors import ListeningError
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.ports import LISTENING_RATE_HZ, Recogniser, Samples
from tests.by_sound import recorded
from tests.fakes.sound_devices import FedMicrophone

BLOCK = LISTENING_RATE_HZ // 10
News = SimpleQueue[Event | ListeningLost]
QUIET_S = 0.6


class Room:
    """Lets time pass before the microphone, in blocks of 100 ms as devices give them."""

    def __init__(self, microphone: FedMicrophone) -> None:
        self._microphone = microphone
        self._dice = np.random.default_rng(1)
        self.at_sample = 0

    def hears(self, sound: Samples) -> None:
        whole = np.concatenate([sound, np.zeros(-len(sound) % BLOCK, np.float32)])
        noisy = (whole + self._dice.standard_normal(len(whole), np.float32) * 1e-4).astype(np.float32)
        for at in range(0, len(noisy), BLOCK):
            self._microphone.feed(self.at_sample + at, noisy[at : at + BLOCK])
        self.at_sample += len(noisy)

    def is_quiet(self) -> None:
        self.hears(np.zeros(int(QUIET_S * LISTENING_RATE_HZ), np.float32))

    @property
    def now_ms(self) -> int:
        return self.at_sample * 1000 // LISTENING_RATE_HZ


@pytest.fixture
def news() -> News:
    return SimpleQueue()


@pytest.fixture
def microphone() -> FedMicrophone:
    return FedMicrophone()


@pytest.fixture
def room(microphone: FedMicrophone) -> Room:
    return Room(microphone)


Starts = Callable[[Callable[[], Recogniser]], LiveListener]


@pytest.fixture
def starts(microphone: FedMicrophone, news: News) -> Iterator[Starts]:
    listeners: list[LiveListener] = []

    def start(load: Callable[[], Recogniser]) -> LiveListener:
        listeners.append(LiveListener(microphone, load, post=news.put))
        return listeners[-1]

    yield start
    for listener in listeners:
        listener.close()


def open_for(number: int) -> Listen:
    return Listen(ListenId(number), Awaiting.NUMBER, Ear.OPEN, Purpose.ANSWER)


def next_heard(news: News) -> HeardSoFar:
    while True:
        told = news.get(timeout=30)
        assert not isinstance(told, ListeningLost)
        if isinstance(told, HeardSoFar):
            return told


def test_what_was_heard_is_noticed_before_it_is_posted(microphone: FedMicrophone, room: Room, news: News) -> None:
    happened: list[object] = []

    def notice(event: Event, engine: Recogniser) -> None:
        assert isinstance(engine, NeuralRecogniser)
        if isinstance(event, HeardSoFar):
            assert LISTENING_RATE_HZ // 2 < len(engine.fed()) < 2 * LISTENING_RATE_HZ
        happened.append(("noticed", type(event)))

    def post(event: Event | ListeningLost) -> None:
        happened.append(event)
        news.put(event)

    listener = LiveListener(microphone, NeuralRecogniser, post=post, notice=notice)
    listener.open(open_for(1), 0)
    room.hears(recorded("fifty-two"))
    room.is_quiet()
    heard = next_heard(news)
    listener.close()
    began, posted_began, ended, posted_end = happened
    assert (began, ended) == (("noticed", SpeechBegan), ("noticed", HeardSoFar))
    assert isinstance(posted_began, SpeechBegan)
    assert posted_end == heard


def test_an_engine_that_is_missing_is_told(starts: Starts, news: News) -> None:
    def missing() -> Recogniser:
        raise ListeningError("The speech model has been eaten; bake another one.")

    starts(missing)
    assert news.get(timeout=30) == ListeningLost("The speech model has been eaten; bake another one.")
