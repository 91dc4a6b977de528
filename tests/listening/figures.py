"""Counts of what was heard, and how sure a count of this size makes one."""

import math
import time
from collections.abc import Iterable
from dataclasses import dataclass

from saythesum.dialogue.heard import Awaiting, Number
from saythesum.hearing.gate import Judged, Verdict
from saythesum.hearing.recording import heard_in
from saythesum.ports import Hearing, Recogniser, Samples
from tests.listening.sounds import Clip


@dataclass(frozen=True, slots=True)
class Answer:
    clip: Clip
    hearing: Hearing
    judged: Judged
    ms: float

    @property
    def best(self) -> int | None:
        """The number that is the likeliest meaning of all, whatever the gate makes of it."""
        meaning = self.hearing.ranked[0].meaning if self.hearing.ranked else None
        return meaning.value if isinstance(meaning, Number) else None

    @property
    def taken(self) -> int | None:
        heard = self.judged.heard
        return heard.value if self.judged.verdict is Verdict.TAKEN and isinstance(heard, Number) else None


@dataclass(frozen=True, slots=True)
class Figures:
    name: str
    count: int
    right: int
    taken: int
    taken_wrongly: int
    ms: float
    """Of one core's time for an answer, on average, whatever else this machine does; finding speech is not counted."""


def answers(clips: Iterable[Clip], engine: Recogniser) -> list[Answer]:
    found = []
    for clip in clips:
        watched = _Watched(engine)
        hearing, verdict = heard_in(clip.samples, Awaiting.NUMBER, watched)
        found.append(Answer(clip, hearing, verdict, watched.took_ms))
    return found


def figures(name: str, heard: list[Answer]) -> Figures:
    return Figures(
        name,
        count=len(heard),
        right=sum(answer.best is not None and answer.best == answer.clip.said for answer in heard),
        taken=sum(answer.taken is not None for answer in heard),
        taken_wrongly=sum(answer.taken is not None and answer.taken != answer.clip.said for answer in heard),
        ms=sum(answer.ms for answer in heard) / max(1, len(heard)),
    )


def wilson(successes: int, count: int) -> tuple[float, float]:
    """The 95 % interval of a share.

    Source: E. B. Wilson, Probable Inference, the Law of Succession, and Statistical Inference, Journal of the
    American Statistical Association 22 (1927), 209-212.
    """
    if not count:
        return 0.0, 1.0
    z = 1.959964
    share = successes / count
    middle = share + z * z / (2 * count)
    reach = z * math.sqrt(share * (1 - share) / count + z * z / (4 * count * count))
    scale = 1 + z * z / count
    return max(0.0, (middle - reach) / scale), min(1.0, (middle + reach) / scale)


class _Watched:
    """An engine with a watch: how long it takes to answer."""

    def __init__(self, engine: Recogniser) -> None:
        self.name = engine.name
        self.took_ms = 0.0
        self._engine = engine

    def open(self, awaiting: Awaiting) -> None:
        self._engine.open(awaiting)

    def feed(self, block: Samples) -> None:
        self._engine.feed(block)

    def so_far(self) -> Hearing:
        return self._engine.so_far()

    def close(self) -> Hearing:
        begin = time.thread_time()
        hearing = self._engine.close()
        self.took_ms += (time.thread_time() - begin) * 1000
        return hearing
