"""How a wrong answer to a sum compares with the start or the next ten: true of it, false of the right answer.

A sentence made from it helps whatever the mistake was, and cannot hold the right answer: neither the number,
nor `by`, nor the start or the next ten it is compared with is ever the right answer.
"""

from dataclasses import dataclass
from enum import StrEnum

from saythesum.core.sums import Bridge, Kind

FURTHEST_STEPS = 10
"""Further from the start than this, the distance itself is no help: no amount is as large."""
FAR_STEPS = 20
"""From here on a number is far past the start, and not only too far."""


class Standing(StrEnum):
    LESS_THAN_START = "less-than-start"
    AT_START = "at-start"
    BEFORE_TEN = "before-ten"
    """Past the start and short of the next ten. Crossing sums only, like the two that follow."""
    AT_TEN = "at-ten"
    PAST_TEN = "past-ten"
    MORE_THAN_START = "more-than-start"
    """Past the start, in a sum that crosses nothing: there the next ten may be the answer itself."""
    PAST_AMOUNT = "past-amount"
    """More than the amount past the start; `by` would be the right answer, so no distance is given."""
    MORE_THAN_TEN_PAST = "more-than-ten-past"
    FAR_PAST_START = "far-past-start"


NAMING_THE_TEN = frozenset({Standing.BEFORE_TEN, Standing.AT_TEN, Standing.PAST_TEN})
"""Where the next ten is named, there is no need to ask for it."""


@dataclass(frozen=True, slots=True)
class Stand:
    standing: Standing
    by: int
    """How far from the start or the ten that the standing names; 0 where the sentence needs no distance."""


def standing_of(asked: Bridge, value: int) -> Stand:
    """`value` is 0 or more. Raises ValueError for the right answer, of which nothing wrong is true."""
    if value == asked.total:
        raise ValueError(f"{value} is the right answer")
    steps = value - asked.start
    if steps < 0:
        return Stand(Standing.LESS_THAN_START, -steps)
    if steps == 0:
        return Stand(Standing.AT_START, 0)
    if steps >= FAR_STEPS:
        return Stand(Standing.FAR_PAST_START, 0)
    if steps > FURTHEST_STEPS:
        is_ten_free = asked.total != FURTHEST_STEPS  # not where ten is the right answer
        return Stand(Standing.MORE_THAN_TEN_PAST if is_ten_free else Standing.PAST_AMOUNT, 0)
    if asked.kind is Kind.CROSSING:
        return _to_next_ten(value - asked.next_ten)
    if steps == asked.total:
        return Stand(Standing.PAST_AMOUNT, 0)
    return Stand(Standing.MORE_THAN_START, steps)


def _to_next_ten(steps: int) -> Stand:
    if steps < 0:
        return Stand(Standing.BEFORE_TEN, -steps)
    return Stand(Standing.PAST_TEN, steps) if steps else Stand(Standing.AT_TEN, 0)
