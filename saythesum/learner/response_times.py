"""How long right answers take, within one way of answering; never shown to the pupil.

Only a pupil's own times of one way are compared.
"""

from collections.abc import Sequence

KEPT = 50
"""So many of the last times are looked at."""
FEWEST = 8
TIMES_AS_LONG = 2.0


def is_worked_out(took_ms: int | None, times_ms: Sequence[int]) -> bool:
    """Whether a right answer was rather found than known: it took twice as long as the pupil's own quick ones.

    Own times only: no number of seconds is right for every pupil. It decides what is asked again, and no mark.
    """
    if took_ms is None or len(times_ms) < FEWEST:
        return False
    return took_ms > TIMES_AS_LONG * sorted(times_ms)[len(times_ms) // 4]
