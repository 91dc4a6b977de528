"""How long right answers take, within one way of answering; never shown to the pupil.

The spread matters as much as the middle: Reeve et al. 2018 (164 children, six years) could tell paths of
development apart by it. Only a pupil's own times of one way are compared.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

KEPT = 50
"""So many of the last times are looked at."""


@dataclass(frozen=True, slots=True)
class Pace:
    median_ms: float
    spread_ms: float
    """The median distance from the median: one very long thought does not move it."""
    answers: int


def pace(times_ms: Sequence[int]) -> Pace | None:
    if not times_ms:
        return None
    middle = median(times_ms)
    return Pace(middle, median(abs(time - middle) for time in times_ms), len(times_ms))


FEWEST = 8
TIMES_AS_LONG = 2.0


def is_worked_out(took_ms: int | None, times_ms: Sequence[int]) -> bool:
    """Whether a right answer was rather found than known: it took twice as long as the pupil's own quick ones.

    Own times only: no number of seconds is right for every pupil. It decides what is asked again, and no mark.
    """
    if took_ms is None or len(times_ms) < FEWEST:
        return False
    return took_ms > TIMES_AS_LONG * sorted(times_ms)[len(times_ms) // 4]
