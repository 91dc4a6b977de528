"""Learns how much lower a pupil is heard best, from the answers that were kept, while the practice goes on."""

import os
import sys
import threading
from collections.abc import Callable
from contextlib import suppress
from queue import SimpleQueue

from saythesum.core.rows import Answer, By, HeardId, Row
from saythesum.dialogue.events import HeardSoFar
from saythesum.dialogue.heard import Awaiting
from saythesum.hearing.neural import NeuralRecogniser
from saythesum.hearing.vocal_tract import FACTORS, Evidence, VocalTract
from saythesum.ports import LISTENING_RATE_HZ, Recogniser, Samples

MOST_SOUNDS = 8
"""Kept in memory until it is known whether they were answers; the oldest goes first."""
LONGEST_S = 4
"""Longer ones are sentences or counts, and cost more than they tell."""
LOWEST_PRIORITY = 19


class FactorLearning:
    """Works in a thread of its own that everything else goes before; what it finds holds from the next answer on.

    No sound is written anywhere, and none outlives the practice.
    """

    def __init__(self, so_far: VocalTract, keep: Callable[[VocalTract], None]) -> None:
        """`keep` is called in the thread: when the factor changes, and at the end where anything was learnt."""
        self.learnt = self._kept = so_far
        self._keep = keep
        self._evidence = Evidence()
        self._sounds: dict[HeardId, Samples] = {}
        self._engine: NeuralRecogniser | None = None
        self._things: SimpleQueue[tuple[HeardId, Samples] | HeardId | None] = SimpleQueue()
        self._thread = threading.Thread(target=self._run, name="learning", daemon=True)
        self._thread.start()

    def heard(self, event: HeardSoFar, engine: Recogniser) -> None:
        """By the ear's thread, before the event is posted."""
        if isinstance(engine, NeuralRecogniser):
            self._engine = engine
            self._things.put((event.id, engine.fed()))

    def kept(self, row: Row) -> None:
        """A row is on disk: if it is an answer by voice, what was heard was the pupil."""
        if isinstance(row, Answer) and row.by is By.VOICE and row.heard:
            self._things.put(row.heard)

    def close(self) -> None:
        """The last answer, too, is learnt from: a fraction of a second."""
        self._things.put(None)
        self._thread.join()

    def _run(self) -> None:
        _go_last()
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

    def _learn_from(self, samples: Samples | None) -> None:
        if samples is None or self._engine is None or len(samples) > LONGEST_S * LISTENING_RATE_HZ:
            return
        scores = self._engine.log_probabilities(samples, Awaiting.NUMBER, FACTORS)
        self._evidence = self._evidence.with_answer(scores)
        self.learnt = self.learnt.after(self._evidence)
        if self.learnt.factor != self._engine.vocal_tract_factor:
            self._engine.vocal_tract_factor = self.learnt.factor
            self._kept = self.learnt
            self._keep(self.learnt)


def _go_last() -> None:
    """Where the system lets a thread give way to all others."""
    if sys.platform == "linux":
        with suppress(OSError):
            os.setpriority(os.PRIO_PROCESS, threading.get_native_id(), LOWEST_PRIORITY)
