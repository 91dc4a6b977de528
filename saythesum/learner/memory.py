"""What a fact's memory is worth days later: the FSRS model (`fsrs`), with days for its clock.

It knows cards that do not touch each other, and was fitted to adults: so it is asked about bonds and ones facts,
never about the way across a ten.
"""

from datetime import UTC, date, datetime, time
from enum import Enum
from functools import lru_cache
from typing import NamedTuple, Self

from fsrs import Card, Rating, Scheduler, State

LONGEST_DAYS = 60
"""No fact stays away for longer than this."""

SCHEDULER = Scheduler(enable_fuzzing=False, learning_steps=(), relearning_steps=(), maximum_interval=LONGEST_DAYS)


class Trace(NamedTuple):
    stability_days: float
    """After so many days it is still recalled nine times in ten."""
    difficulty: float
    """1 to 10."""
    last: date
    """The day of the last answer that counted."""


class Recalled(Enum):
    """How it came to mind."""

    NOT = Rating.Again
    WORKED_OUT = Rating.Hard
    AT_ONCE = Rating.Good


class _ForOneReview(Card):
    """Made for one review, so the scheduler may write in it: its copying takes a quarter of the time of a review."""

    def __copy__(self) -> Self:
        return self


def remembered(trace: Trace | None, on: date, recalled: Recalled) -> Trace:
    """The trace after one answer. One answer a day counts, the first: those after it are warmed up.

    A day before the trace's last changes nothing: a clock that was set back is no forgetting.
    """
    if trace is not None and on <= trace.last:
        return trace
    card, _ = SCHEDULER.review_card(_card(trace, on), recalled.value, _noon(on))
    assert card.stability is not None and card.difficulty is not None
    return Trace(card.stability, card.difficulty, on)


def recall(trace: Trace, on: date) -> float:
    """The chance, 0 to 1, that it comes to mind on this day."""
    return SCHEDULER.get_card_retrievability(_card(trace, on), _noon(on))


def _card(trace: Trace | None, on: date) -> Card:
    """Every field is given, for a card left to itself reads the clock."""
    if trace is None:
        return _ForOneReview(card_id=0, state=State.Learning, due=_noon(on))
    return _ForOneReview(
        card_id=0,
        state=State.Review,
        stability=trace.stability_days,
        difficulty=trace.difficulty,
        due=_noon(trace.last),
        last_review=_noon(trace.last),
    )


@lru_cache(maxsize=1024)
def _noon(day: date) -> datetime:
    return datetime.combine(day, time(12), UTC)
