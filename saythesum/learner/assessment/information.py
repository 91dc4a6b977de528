"""Which sum would tell most about a pupil's mistakes: for a practice whose purpose is to find out.

The measure is expected information: how much an answer is expected to lower the doubt between what may be
believed. Source: Lindley 1956, "On a measure of the information provided by an experiment".
"""

from collections import defaultdict
from functools import lru_cache
from math import log2

from saythesum.core.exercises.exercise import Exercise
from saythesum.learner.diagnosis import ALL_NAMES, SHOWS, STRAYS, Diagnosis, numbers_shown

_DOUBT_WHETHER_SHOWN = -(SHOWS * log2(SHOWS) + (1 - SHOWS) * log2(1 - SHOWS))


def expected_information(asked: Exercise, diagnosis: Diagnosis) -> float:
    """In bits. An answer that strays tells nothing; two mistakes at once are not looked into."""
    chances: dict[int, float] = defaultdict(float)
    chances[asked.total] = diagnosis.none
    known_doubt = 0.0
    for name, outcome in zip(ALL_NAMES, _outcomes(asked), strict=True):
        share = diagnosis.shares.get(name)
        if share is None:
            continue
        for number, chance in outcome:
            chances[number] += share * chance
        if len(outcome) > 1:
            known_doubt += share * (_DOUBT_WHETHER_SHOWN + SHOWS * log2(len(outcome) - 1))
    whole = sum(chances.values())
    doubt = -sum(chance / whole * log2(chance / whole) for chance in chances.values() if chance)
    return (1 - STRAYS) * (doubt - known_doubt / whole)


@lru_cache(maxsize=1024)
def _outcomes(asked: Exercise) -> tuple[tuple[tuple[int, float], ...], ...]:
    """For each stable mistake, the numbers it may lead to and their chances; the right one first."""
    return tuple(
        ((asked.total, 1 - SHOWS), *((number, SHOWS / len(set(numbers))) for number in set(numbers)))
        if numbers
        else ((asked.total, 1.0),)
        for numbers in numbers_shown(asked)
    )


CONCLUSIVE = 0.95


def is_found_out(diagnosis: Diagnosis) -> bool:
    """Whether more questions would tell little: one belief, or none, is nearly certain."""
    return max(diagnosis.none, *diagnosis.shares.values()) >= CONCLUSIVE
