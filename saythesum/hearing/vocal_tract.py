"""One number a pupil: how much higher the resonances of their mouth lie than those the speech model was taught with.

It is chosen by how likely their answers become when they are heard that much lower, whatever was said. Source of the
idea: L. Lee and R. C. Rose, A frequency warping approach to speaker normalization, IEEE Transactions on Speech and
Audio Processing 6 (1998), 49-60. It describes the size of a mouth, as many people have it, and tells nobody apart.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

FACTORS = (1.0, 1.1, 1.2, 1.3, 1.4, 1.5)
FEWEST_ANSWERS = 5
LEAST_GAIN_NATS = 0.2
"""An answer, on average: a gain smaller than this may be chance, and the factor in use stays."""
NO_LESS_NATS = -10.0
"""An answer this unlikely was not understood at all; how much less likely yet it is says nothing."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """What some answers tell, added up."""

    totals: tuple[float, ...] = (0.0,) * len(FACTORS)
    """Of the answers' log-probabilities, one for each of FACTORS."""
    answers: int = 0

    def with_answer(self, log_probabilities: Iterable[float]) -> "Evidence":
        """One for each of FACTORS."""
        added = zip(self.totals, log_probabilities, strict=True)
        return Evidence(tuple(total + max(one, NO_LESS_NATS) for total, one in added), self.answers + 1)


@dataclass(frozen=True, slots=True)
class VocalTract:
    """The factor in use, and how many answers it was learnt from; none where it never was."""

    factor: float = 1.0
    answers: int = 0

    def after(self, evidence: Evidence) -> "VocalTract":
        """The likeliest factor where enough answers say so clearly; else this one, which more of them bear out."""
        if evidence.answers < FEWEST_ANSWERS:
            return self
        likeliest = max(range(len(FACTORS)), key=evidence.totals.__getitem__)
        in_use = min(range(len(FACTORS)), key=lambda at: abs(FACTORS[at] - self.factor))
        gain = (evidence.totals[likeliest] - evidence.totals[in_use]) / evidence.answers
        factor = FACTORS[likeliest] if gain >= LEAST_GAIN_NATS else self.factor
        return replace(self, factor=factor, answers=evidence.answers)
