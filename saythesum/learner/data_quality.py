"""Kept rows that look wrong. They stay in the records, are left out of what is computed, and `check` names them."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from saythesum.core.exercises.registry import EXERCISES
from saythesum.core.mistakes.adding import NO_ANSWER
from saythesum.core.records.rows import Answer
from saythesum.learner.evidence import is_possible
from saythesum.learner.replay import Kept


class Odd(StrEnum):
    CLOCK_WENT_BACK = "clock-went-back"
    """Kept under an earlier time than the answer before. Memory is worked out forwards only."""
    SAME_TIME = "same-time"
    """Two answers at one instant; their order is the order in which they were kept."""
    UNKNOWN_MISTAKE = "unknown-mistake"
    """A name of a newer version. The number itself is weighed anew, so nothing is lost."""
    IMPOSSIBLE_ANSWER = "impossible-answer"
    """A number that is never awaited, or a mark that does not follow from it."""


@dataclass(frozen=True, slots=True)
class Oddity:
    answer: Answer
    at: datetime
    what: Odd


def oddities(rows: Iterable[Kept]) -> tuple[Oddity, ...]:
    """`rows` of one pupil, in the order in which they were kept, each with its own time."""
    found: list[Oddity] = []
    known = _known_names()
    before: datetime | None = None
    for kept in rows:
        if isinstance(kept.row, Answer):
            found += [Oddity(kept.row, kept.at, what) for what in _oddities_of(kept.row, kept.at, before, known)]
            before = kept.at
    return tuple(found)


def _oddities_of(answer: Answer, at: datetime, before: datetime | None, known: frozenset[str]) -> Iterator[Odd]:
    if before is not None and at < before:
        yield Odd.CLOCK_WENT_BACK
    if at == before:
        yield Odd.SAME_TIME
    if not known.issuperset(answer.could_be):
        yield Odd.UNKNOWN_MISTAKE
    if not is_possible(answer):
        yield Odd.IMPOSSIBLE_ANSWER


def _known_names() -> frozenset[str]:
    names = {NO_ANSWER.name}
    for kind in EXERCISES.values():
        names |= {pattern.name for pattern in kind.patterns} | {mistake.name for mistake in kind.part_mistakes}
    return frozenset(names)
