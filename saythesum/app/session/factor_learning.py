"""Learns how much lower a pupil is heard best, from the answers that were kept, while the practice goes on."""

from collections.abc import Callable, Iterator
from queue import SimpleQueue
from threading import Event as Flag
from threading import Thread

from saythesum.core.meanings import Awaiting
from saythesum.core.records.rows import Answer, By, HeardId, Row
from saythesum.dialogue.turns.events import Event, HeardSoFar, SpeechBegan
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.vocal_tract.factor import FACTORS, Evidence, VocalTract
from saythesum.ports import LISTENING_RATE_HZ, Recogniser, Samples

MOST_SOUNDS = 8
"""Kept in memory until it is known whether they were answers; the oldest goes first."""
LONGEST_S = 4
"""Longer ones are sentences or counts, and cost more than they tell."""
SPEECH_AT_MOST_S = 5
"""An ear that is shut in the middle of speech does not tell of its end."""


class FactorLearning:
    """Works in a thread of its own, and not while the pupil speaks; what it finds holds from the next answer on.

    That thread has no lower priority: where others keep the machine busy, it would then be stopped for long with the
    interpreter in its hands. No sound is written anywhere, and none outlives the practice.
    """

    def __init__(self, so_far: VocalTract, keep: Callable[[VocalTract], None]) -> None:
        """`keep` is called in the thread: when the factor changes, and at the end where anything was learnt."""
        self.learnt = self._kept = so_far
        self._keep = keep
        self._evidence = Evidence()
        self._sounds: dict[HeardId, Samples] = {}
        self._engine: NeuralRecogniser | None = None
        self._is_quiet = Flag()
        self._things: SimpleQueue[tuple[HeardId, Samples] | HeardId | None] = SimpleQueue()
        self._thread = Thread(target=self._run, name="learning", daemon=True)
        self._thread.start()

    def heard(self, event: Event, engine: Recogniser) -> None:
        """By the ear's thread, before the event is posted."""
        if isinstance(event, SpeechBegan):
            self._is_quiet.clear()
        elif isinstance(event, HeardSoFar) and isinstance(engine, NeuralRecogniser):
            self._engine = engine
            self._things.put((event.id, engine.fed()))
            self._is_quiet.set()

    def kept(self, row: Row) -> None:
        """A row is on disk: if it is an answer by voice, what was heard was the pupil."""
        if isinstance(row, Answer) and row.by is By.VOICE and row.heard:
            self._things.put(row.heard)

    def close(self) -> None:
        """The last answer, too, is learnt from: a fraction of a second."""
        self._is_quiet.set()
        self._things.put(None)
        self._thread.join()

    def _run(self) -> None:
        while thing := self._things.get():
            match thing:
                case (id, samples):
                    self._sounds[id] = samples
                    while len(self._sounds) > MOST_SOUNDS:
                        del self._sounds[next(iter(self._sounds))]
                case id:
                    self._learn_from(self._sounds.pop(id, None))
        if self.learnt != self._kept:
            self._keep(self.learnt)

    def _learn_from(self, samples: "Samples | None") -> None:
        if samples is None or self._engine is None or len(samples) > LONGEST_S * LISTENING_RATE_HZ:
            return
        self._evidence = self._evidence.with_answer(self._scores(self._engine, samples))
        self.learnt = self.learnt.after(self._evidence)
        if self.learnt.factor != self._engine.vocal_tract_factor:
            self._engine.vocal_tract_factor = self.learnt.factor
            self._kept = self.learnt
            self._keep(self.learnt)

    def _scores(self, engine: NeuralRecogniser, samples: Samples) -> Iterator[float]:
        for factor in FACTORS:
            self._is_quiet.wait(SPEECH_AT_MOST_S)
            yield from engine.log_probabilities(samples, Awaiting.NUMBER, [factor])
