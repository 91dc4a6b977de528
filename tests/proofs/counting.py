"""Counting aloud: every start, every prefix of a count to the answer, gaps from 0.5 to 3 seconds."""

from collections.abc import Iterator
from dataclasses import dataclass

from saythesum.core.exercises.adding import Sum
from saythesum.core.meanings import Number
from tests.proofs.all_help import STARTS
from tests.talk import Talk, plan_of

GAPS_MS = (500, 1000, 2000, 3000)
AMOUNT = 9
"""The longest count; every shorter one is a prefix of it."""


@dataclass(frozen=True, slots=True)
class Count:
    asked: Sum
    first: int
    last: int
    gap_ms: int


def counts() -> Iterator[Count]:
    """From the start, or from the number after it."""
    for start in STARTS:
        for gap_ms in GAPS_MS:
            for last in range(start + 1, start + AMOUNT + 1):
                yield Count(Sum(start, AMOUNT), start, last, gap_ms)
                yield Count(Sum(start, AMOUNT), start + 1, last, gap_ms)


def counted(count: Count) -> tuple[Talk, int]:
    """The practice after the count, and how much was said while it went on."""
    talk = Talk(plan_of((count.asked.start,), (count.asked.amount,)))
    talk.begin()
    before = len(talk.said)
    for value in range(count.first, count.last + 1):
        talk.hear(Number(value), after_ms=count.gap_ms if value > count.first else 0)
    during = len(talk.said) - before
    talk.wait()
    talk.wait()
    return talk, during
