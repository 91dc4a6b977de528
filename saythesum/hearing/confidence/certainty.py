"""How likely it is that what was heard is what was said, from what the gate measures of a hearing."""

import math
from dataclasses import dataclass, replace

from saythesum.core.meanings import Meaning
from saythesum.hearing.confidence.calibration import Weights, calibration
from saythesum.ports import Hearing, Hypothesis

_FURTHEST_BELOW_FREE_NATS, _FURTHEST_ABOVE_NEXT_NATS, _UNLIKELIEST_NATS, _FURTHEST_DOUBT_NATS = 10.0, 6.0, 15.0, 8.0
"""Beyond these a margin says no more: the search drops what is further off."""


def certainty(
    below_free_nats: float, above_next_nats: float, log_probability: float, doubt_nats: float | None = None
) -> float:
    """0 to 1: how far below the free writing, how far above the next meaning, how likely by itself; and by how much a
    second opinion prefers something else, where there is one.

    How likely by itself tells noise from speech: what a model for sentences writes of noise is less likely still, so
    that anything seems to fit beside it.
    """
    measured = calibration().alone if doubt_nats is None else calibration().with_second
    margins = margins_within(below_free_nats, above_next_nats, log_probability, doubt_nats or 0.0)
    odds = measured.constant + sum(weight * margin for weight, margin in zip(weights(measured), margins, strict=True))
    return 1 / (1 + math.exp(-odds))


Margins = tuple[float, float, float, float, float]


def weights(measured: Weights) -> Margins:
    return (
        measured.a_nat_below_free,
        measured.a_nat_above_next,
        measured.an_unlikely_nat,
        measured.a_doubtful_nat,
        measured.an_agreeing_nat,
    )


def margins_within(
    below_free_nats: float, above_next_nats: float, log_probability: float, doubt_nats: float
) -> Margins:
    """The part of each margin that says something. Doubt and agreement weigh differently, so they are two."""
    return (
        min(max(below_free_nats, 0.0), _FURTHEST_BELOW_FREE_NATS),
        max(min(above_next_nats, _FURTHEST_ABOVE_NEXT_NATS), -_FURTHEST_ABOVE_NEXT_NATS),
        min(max(-log_probability, 0.0), _UNLIKELIEST_NATS),
        min(max(doubt_nats, 0.0), _FURTHEST_DOUBT_NATS),
        min(max(-doubt_nats, 0.0), _FURTHEST_DOUBT_NATS),
    )


NO_RIVAL_NATS = 6.0
"""What stands for the distance to the next meaning where there is none: the search dropped all further off."""


SECOND_COUNTS = 0.3
"""A nat of the second opinion counts so much beside a nat of the closed set's, when meanings are ranked. Measured on
voices that it had not heard: more tells more numbers apart, and takes more wrongly from raised voices."""
_SECOND_UNLIKELIEST_NATS = 6.0
"""It is not asked how much less likely than this something is."""


@dataclass(frozen=True, slots=True)
class BestMeaning:
    """Margins in nats."""

    meaning: Meaning | None
    """None: a rival, which is no answer."""
    below_free: float
    above_next: float
    log_probability: float
    ranking: tuple[Hypothesis, ...]
    doubt: float | None = None
    """By how much the second opinion prefers something else. None where there is none."""

    @property
    def certainty(self) -> float:
        return certainty(self.below_free, self.above_next, self.log_probability, self.doubt)


def best_meaning(hearing: Hearing) -> BestMeaning | None:
    """The likeliest of the closed set, rivals among it. None where nothing fitted."""
    return _at(0, _ranked_by_both(hearing), hearing)


def best_answer(hearing: Hearing) -> BestMeaning | None:
    """The likeliest that is an answer, even where a rival is likelier, and then so much below it."""
    ranking = _ranked_by_both(hearing)
    answers = (place for place, entry in enumerate(ranking) if entry.meaning is not None)
    return _at(next(answers, len(ranking)), ranking, hearing)


def _ranked_by_both(hearing: Hearing) -> tuple[Hypothesis, ...]:
    second = hearing.second
    if second is None:
        return hearing.ranked
    weighed = [
        replace(entry, log_probability=entry.log_probability + SECOND_COUNTS * _no_less(second.of(entry.meaning)))
        for entry in hearing.ranked
    ]
    return tuple(sorted(weighed, key=lambda entry: entry.log_probability, reverse=True))


def _no_less(log_probability: float) -> float:
    return max(log_probability, -_SECOND_UNLIKELIEST_NATS)


def _at(place: int, ranking: tuple[Hypothesis, ...], hearing: Hearing) -> BestMeaning | None:
    """How likely it is by itself stays the closed set's word: that is what the free writing is compared with."""
    if place >= len(ranking):
        return None
    meaning = ranking[place].meaning
    own = next(entry.log_probability for entry in hearing.ranked if entry.meaning == meaning)
    others = [entry.log_probability for at, entry in enumerate(ranking) if at != place]
    above_next = ranking[place].log_probability - others[0] if others else NO_RIVAL_NATS
    doubt = hearing.second.doubt(meaning) if hearing.second else None
    return BestMeaning(meaning, hearing.free_log_probability - own, above_next, own, ranking, doubt)
