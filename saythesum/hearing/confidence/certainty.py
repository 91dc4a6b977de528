"""How likely it is that what was heard is what was said, from what the gate measures of a hearing."""

import math
from dataclasses import dataclass, replace

from saythesum.core.meanings import Meaning
from saythesum.hearing.confidence.calibration import Calibration, calibration
from saythesum.ports import Hypothesis

_FURTHEST_BELOW_FREE_NATS, _FURTHEST_ABOVE_NEXT_NATS, _UNLIKELIEST_NATS = 10.0, 6.0, 15.0
"""Beyond these a margin says no more: the search drops what is further off."""


def certainty(below_free_nats: float, above_next_nats: float, log_probability: float) -> float:
    """0 to 1: how far below the free writing, how far above the next meaning, how likely by itself.

    The last tells noise from speech: what a model for sentences writes of noise is less likely still, so that
    anything seems to fit beside it.
    """
    measured = calibration()
    odds = measured.constant + sum(
        weight * margin
        for weight, margin in zip(
            weights(measured), margins_within(below_free_nats, above_next_nats, log_probability), strict=True
        )
    )
    return 1 / (1 + math.exp(-odds))


def weights(measured: Calibration) -> tuple[float, float, float]:
    return measured.a_nat_below_free, measured.a_nat_above_next, measured.an_unlikely_nat


def margins_within(
    below_free_nats: float, above_next_nats: float, log_probability: float
) -> tuple[float, float, float]:
    """The part of each margin that says something."""
    return (
        min(max(below_free_nats, 0.0), _FURTHEST_BELOW_FREE_NATS),
        max(min(above_next_nats, _FURTHEST_ABOVE_NEXT_NATS), -_FURTHEST_ABOVE_NEXT_NATS),
        min(max(-log_probability, 0.0), _UNLIKELIEST_NATS),
    )


NO_RIVAL_NATS = 6.0
"""What stands for the distance to the next meaning where there is none: the search dropped all further off."""


@dataclass(frozen=True, slots=True)
class BestMeaning:
    """Margins in nats."""

    meaning: Meaning | None
    """None: a rival, which is no answer."""
    below_free: float
    above_next: float
    log_probability: float
    ranking: tuple[Hypothesis, ...]

    @property
    def certainty(self) -> float:
        return certainty(self.below_free, self.above_next, self.log_probability)

    def of_an_answer(self) -> "BestMeaning | None":
        """The likeliest answer where a rival is likelier, so much below it. None where no answer was likely at all."""
        answers = (entry for entry in self.ranking if entry.meaning is not None)
        answer = next(answers, None)
        if answer is None or self.meaning is not None:
            return self if answer else None
        return replace(self, meaning=answer.meaning, above_next=-self.above_next)


def best_meaning(ranking: tuple[Hypothesis, ...], free_log_probability: float) -> BestMeaning | None:
    """None where nothing fitted."""
    if not ranking:
        return None
    top, *others = ranking
    above_next = top.log_probability - others[0].log_probability if others else NO_RIVAL_NATS
    return BestMeaning(
        top.meaning, free_log_probability - top.log_probability, above_next, top.log_probability, ranking
    )
