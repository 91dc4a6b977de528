"""Worked values that others published, or that were worked out from their formula, each with its source."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from fsrs import Card, Rating, Scheduler

from saythesum.learner.tracing import Tracing, stepped


@dataclass(frozen=True, slots=True)
class Worked:
    tracing: Tracing
    answers: str
    """1 right, 0 wrong."""
    beliefs: tuple[float, ...]
    """After each answer, to four places."""
    source: str


TRACED = (
    Worked(
        Tracing(0.4, 0.1, slip=0.3, guess=0.2),
        "011",
        (0.28, 0.6188, 0.8653),
        "the formulas of Corbett and Anderson 1995, worked out by hand; parameters from memory",
    ),
    Worked(
        Tracing(0.5, 0.4, slip=0.2, guess=0.2),
        "0011101101",
        (0.52, 0.5279, 0.8904, 0.9821, 0.9973, 0.9935, 0.999, 0.9999, 0.9996, 0.9999),
        "parameters and answers of a public demonstration of Bayesian knowledge tracing; values worked out by hand",
    ),
    Worked(
        Tracing(0.1, 0.1, slip=0.1, guess=0.3),
        "111111",
        (0.325, 0.6318, 0.8536, 0.9513, 0.9849, 0.9954),
        "the formulas of Corbett and Anderson 1995, worked out by hand",
    ),
)

FSRS_SOURCE = "py-fsrs, tests/test_basic.py at 3abe686: test_review_card and test_memo_state"
FSRS_INTERVALS_DAYS = (0, 2, 11, 46, 163, 498, 0, 0, 2, 4, 7, 12, 21)
FSRS_STABILITY, FSRS_DIFFICULTY = 53.62691, 6.3574867
FSRS_TOLERANCE = 1e-4
RECALL_AFTER_DAYS = {1: 0.9857, 5: 0.9403, 20: 0.8459, 50: 0.7605}
"""Of a stability of ten days: (1 + factor * days / stability) ** -0.1542, worked out by hand from the formula."""
_BEGAN = datetime(2022, 11, 29, 12, 30, tzinfo=UTC)
_GOOD, _AGAIN = Rating.Good, Rating.Again


def beliefs_after(worked: Worked) -> list[float]:
    known, beliefs = worked.tracing.known_at_first, []
    for answer in worked.answers:
        known = stepped(known, worked.tracing, right=answer == "1")
        beliefs.append(round(known, 4))
    return beliefs


def fsrs_intervals_days() -> tuple[int, ...]:
    """Each review on the day it is due."""
    scheduler, card, at = Scheduler(enable_fuzzing=False), Card(card_id=1), _BEGAN
    intervals = []
    for rating in (*[_GOOD] * 6, *[_AGAIN] * 2, *[_GOOD] * 5):
        card, _ = scheduler.review_card(card, rating, at)
        at = card.due
        assert card.last_review is not None
        intervals.append((card.due - card.last_review).days)
    return tuple(intervals)


def fsrs_after(ratings: Sequence[Rating], waits_days: Sequence[int]) -> tuple[float, float]:
    """Stability and difficulty."""
    scheduler, card, at = Scheduler(enable_fuzzing=False), Card(card_id=1), _BEGAN
    for rating, wait in zip(ratings, waits_days, strict=True):
        at += timedelta(days=wait)
        card, _ = scheduler.review_card(card, rating, at)
    assert card.stability is not None and card.difficulty is not None
    return card.stability, card.difficulty


def fsrs_memory() -> tuple[float, float]:
    return fsrs_after((_AGAIN, *[_GOOD] * 5), (0, 0, 1, 3, 8, 21))


def print_published() -> None:
    print("== Published worked values, beside ours")
    for worked in TRACED:
        print(f"tracing {worked.answers}: {list(worked.beliefs)} ours {beliefs_after(worked)} ({worked.source})")
    print(f"intervals {FSRS_INTERVALS_DAYS} ours {fsrs_intervals_days()} ({FSRS_SOURCE})")
    print(f"stability, difficulty {FSRS_STABILITY}, {FSRS_DIFFICULTY} ours {fsrs_memory()} ({FSRS_SOURCE})")
