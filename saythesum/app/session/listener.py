"""The ear's own thread: it reads the microphone all the time and listens only while the ear is open."""

import gc
from collections.abc import Callable
from dataclasses import dataclass
from queue import Empty, SimpleQueue
from threading import Thread

from saythesum.core.meanings import Awaiting
from saythesum.dialogue.turns.effects import Listen
from saythesum.dialogue.turns.events import Event
from saythesum.errors import ListeningError
from saythesum.hearing.ear import Ear
from saythesum.ports import LISTENING_RATE_HZ, Recogniser
from saythesum.sound.microphone import Captured, Microphone


@dataclass(frozen=True, slots=True)
class ListeningLost:
    sentence: str


@dataclass(frozen=True, slots=True)
class _Open:
    listen: Listen
    from_sample: int
    speech_from: int
    until: int | None


class Listener:
    """`open` and `shut` return at once. Sound from before the ear opened, and after it shut, is forgotten."""

    def __init__(
        self,
        microphone: Microphone,
        load: Callable[[], Recogniser],
        *,
        post: Callable[[Event | ListeningLost], None],
        notice: Callable[[Event, Recogniser], None] | None = None,
    ) -> None:
        """`load` is called in the thread, while the welcome is being spoken; it may raise ListeningError. `notice` is
        called in it with everything heard, before that is posted, while the engine still has its sound.
        """
        self._microphone, self._load, self._post, self._notice = microphone, load, post, notice
        self._orders: SimpleQueue[_Open | None] = SimpleQueue()
        self._is_closing = False
        self.is_ready = False
        """The engine is loaded: it listens when it is asked to."""
        self.heard_until_ms = 0
        """The run's clock at the end of the sound it has listened to, or passed over, so far."""
        self._thread = Thread(target=self._run, name="ear", daemon=True)
        self._thread.start()

    def open(self, listen: Listen, now_ms: int, *, silent_from_ms: int = 0) -> None:
        """`silent_from_ms`: when the tool cannot be heard any more, not even as an echo."""
        speech_from_ms = max(now_ms, silent_from_ms)
        until = None if listen.for_ms is None else _sample(speech_from_ms + listen.for_ms)
        self._orders.put(_Open(listen, _sample(now_ms), _sample(speech_from_ms), until))

    def shut(self) -> None:
        self._orders.put(None)

    def close(self) -> None:
        self._is_closing = True
        self._thread.join()

    def _run(self) -> None:
        try:
            ear = self._ear()
        except ListeningError as error:
            self._post(ListeningLost(str(error)))
            return
        self.is_ready = True
        from_sample: int | None = None
        while not self._is_closing:
            heard = self._microphone.read()
            from_sample = self._obey(ear, from_sample)
            if from_sample is not None:
                _feed(ear, heard, from_sample)
                ear.pass_time(heard.end_sample)
            self.heard_until_ms = heard.end_sample * 1000 // LISTENING_RATE_HZ

    def _ear(self) -> Ear:
        engine, notice = _warmed_up(self._load()), self._notice
        if notice is None:
            return Ear(engine, self._post)

        def post(event: Event) -> None:
            notice(event, engine)
            self._post(event)

        return Ear(engine, post)

    def _obey(self, ear: Ear, from_sample: int | None) -> int | None:
        """The orders that have come, in turn; the sample the ear is open from, None while it is shut."""
        while True:
            try:
                order = self._orders.get_nowait()
            except Empty:
                return from_sample
            if order is None:
                ear.shut()
                from_sample = None
            else:
                listen, from_sample = order.listen, order.from_sample
                ear.open(listen.id, listen.awaiting, from_sample, speech_from=order.speech_from, until=order.until)


def _feed(ear: Ear, heard: Captured, from_sample: int) -> None:
    new = heard.since(from_sample)
    if len(new.samples):
        ear.feed(new.samples, new.at_sample)


def _sample(at_ms: int) -> int:
    return at_ms * LISTENING_RATE_HZ // 1000


def _warmed_up(recogniser: Recogniser) -> Recogniser:
    """Opened for each kind of answer once: what is only made then, in 0.1 s, holds up no real answer.

    All of it stays to the end, so Python need not look through it for what can be thrown away: that would hold up every
    thread, for 20 to 30 ms.
    """
    for awaiting in Awaiting:
        recogniser.open(awaiting)
    gc.freeze()
    return recogniser
