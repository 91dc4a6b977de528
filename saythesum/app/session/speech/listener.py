"""The live ear in its own thread: it reads the microphone all the time and listens only while the ear is open."""

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
from saythesum.ports import LISTENING_RATE_HZ, Captured, Microphone, Recogniser


@dataclass(frozen=True, slots=True)
class ListeningLost:
    sentence: str


@dataclass(frozen=True, slots=True)
class Opening:
    """One opening of the ear, in samples of the run."""

    listen: Listen
    from_sample: int
    speech_from: int
    """No speech is looked for before it."""
    until: int | None


def opening(listen: Listen, now_ms: int, silent_from_ms: int) -> Opening:
    """As `ports.Listener.open` is asked for it."""
    speech_from_ms = max(now_ms, silent_from_ms)
    until = None if listen.for_ms is None else _sample(speech_from_ms + listen.for_ms)
    return Opening(listen, _sample(now_ms), _sample(speech_from_ms), until)


class GatedEar:
    """An ear that gets the sound of its openings and no other. Used by one thread."""

    def __init__(self, ear: Ear) -> None:
        self._ear = ear
        self._from_sample: int | None = None
        """None while it is shut."""

    @property
    def is_open(self) -> bool:
        return self._from_sample is not None

    def open(self, opening: Opening) -> None:
        listen, self._from_sample = opening.listen, opening.from_sample
        self._ear.open(
            listen.id, listen.awaiting, opening.from_sample, speech_from=opening.speech_from, until=opening.until
        )

    def shut(self) -> None:
        self._ear.shut()
        self._from_sample = None

    def hear(self, heard: Captured) -> None:
        if self._from_sample is None:
            return
        new = heard.since(self._from_sample)
        if len(new.samples):
            self._ear.feed(new.samples, new.at_sample)
        self._ear.pass_time(heard.end_sample)


class LiveListener:
    """A `Listener` whose `open` and `shut` return at once."""

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
        self._orders: SimpleQueue[Opening | None] = SimpleQueue()
        """None to shut."""
        self._is_closing = False
        self.is_ready = False
        self.heard_until_ms = 0
        self._thread = Thread(target=self._run, name="ear", daemon=True)
        self._thread.start()

    def open(self, listen: Listen, now_ms: int, *, silent_from_ms: int = 0) -> None:
        self._orders.put(opening(listen, now_ms, silent_from_ms))

    def shut(self) -> None:
        self._orders.put(None)

    def close(self) -> None:
        self._is_closing = True
        self._thread.join()

    def _run(self) -> None:
        try:
            ear = GatedEar(self._ear())
        except ListeningError as error:
            self._post(ListeningLost(str(error)))
            return
        self.is_ready = True
        while not self._is_closing:
            heard = self._microphone.read()
            self._obey(ear)
            ear.hear(heard)
            self.heard_until_ms = heard.end_sample * 1000 // LISTENING_RATE_HZ

    def _ear(self) -> Ear:
        engine, notice = _warmed_up(self._load()), self._notice
        if notice is None:
            return Ear(engine, self._post)

        def post(event: Event) -> None:
            notice(event, engine)
            self._post(event)

        return Ear(engine, post)

    def _obey(self, ear: GatedEar) -> None:
        """The orders that have come, in turn."""
        while True:
            try:
                order = self._orders.get_nowait()
            except Empty:
                return
            if order is None:
                ear.shut()
            else:
                ear.open(order)


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
