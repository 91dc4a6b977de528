"""What listening learns of a pupil while they practise: in a thread of its own, and not while they speak."""

from collections.abc import Sequence
from dataclasses import dataclass
from queue import SimpleQueue
from threading import Event as Flag
from threading import Thread
from typing import Protocol

from saythesum.core.meanings import Awaiting
from saythesum.core.records.rows import Row
from saythesum.dialogue.turns.events import Event, HeardSoFar, SpeechBegan
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.ports import Frames, Recogniser, Samples

SPEECH_AT_MOST_S = 5
"""An ear that is shut in the middle of speech does not tell of its end."""


@dataclass(frozen=True, slots=True, eq=False)
class Heard:
    """One hearing, with what it was made of while the engine still had it."""

    event: HeardSoFar
    awaiting: Awaiting
    sound: Samples
    frames: "Frames | None"
    """Of the sound, lowered by `factor`."""
    factor: float


class Quiet(Protocol):
    def wait(self) -> None:
        """Until the pupil is silent; not for ever."""


class Learner(Protocol):
    """Called in the thread alone."""

    def learn(self, thing: Heard | Row, engine: NeuralRecogniser, quiet: Quiet) -> None:
        """Hearings and kept rows come in the order in which they came about."""

    def close(self) -> None:
        """Nothing more comes."""


class LearningBeside:
    """That thread has no lower priority: where others keep the machine busy, it would then be stopped for long with the
    interpreter in its hands. No sound is written anywhere, and none outlives the practice.
    """

    def __init__(self, learners: Sequence[Learner]) -> None:
        self._learners = learners
        self._engine: NeuralRecogniser | None = None
        self._is_quiet = Flag()
        self._things: SimpleQueue[Heard | Row | None] = SimpleQueue()
        self._thread = Thread(target=self._run, name="learning", daemon=True)
        self._thread.start()

    def heard(self, event: Event, engine: Recogniser) -> None:
        """By the ear's thread, before the event is posted."""
        if isinstance(event, SpeechBegan):
            self._is_quiet.clear()
        elif isinstance(event, HeardSoFar) and isinstance(engine, NeuralRecogniser):
            self._engine = engine
            frames, factor = engine.so_far().frames, engine.vocal_tract_factor
            self._things.put(Heard(event, engine.awaiting, engine.fed(), frames, factor))
            self._is_quiet.set()

    def kept(self, row: Row) -> None:
        """A row is on disk."""
        self._things.put(row)

    def wait(self) -> None:
        self._is_quiet.wait(SPEECH_AT_MOST_S)

    def close(self) -> None:
        """The last answer, too, is learnt from: a fraction of a second."""
        self._is_quiet.set()
        self._things.put(None)
        self._thread.join()

    def _run(self) -> None:
        while thing := self._things.get():
            if self._engine:
                for learner in self._learners:
                    learner.learn(thing, self._engine, self)
        for learner in self._learners:
            learner.close()
