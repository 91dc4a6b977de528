"""Counts of what was heard, and how sure a count of this size makes one."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from tests.tools.listening.hearings import Answer


@dataclass(frozen=True, slots=True)
class Figures:
    count: int
    right: int
    taken: int
    taken_wrongly: int
    ms: float
    """Of one core's time for an answer, on average, whatever else this machine does."""


def figures(heard: Sequence[Answer]) -> Figures:
    return Figures(
        count=len(heard),
        right=sum(answer.is_right for answer in heard),
        taken=sum(answer.is_taken for answer in heard),
        taken_wrongly=sum(answer.is_taken_wrongly for answer in heard),
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
