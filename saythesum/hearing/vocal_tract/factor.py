"""One number a pupil: how much higher the resonances of their mouth lie than those the speech model was taught with.

It is chosen by how likely their answers become when they are heard that much lower, whatever was said. Source of the
idea: L. Lee and R. C. Rose, A frequency warping approach to speaker normalization, IEEE Transactions on Speech and
Audio Processing 6 (1998), 49-60. It describes the size of a mouth, as many people have it, and tells nobody apart.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import sqrt
from statistics import fmean, stdev

FACTORS = (1.0, 1.1, 1.2, 1.3, 1.4, 1.5)
FEWEST_ANSWERS = 5
MOST_ANSWERS = 40
"""The last ones: a child grows, and a microphone is changed."""
CLEAR_ERRORS = 2.5
"""A gain over no factor at all counts when it is this many times its own standard error. Measured with the next limits
by `python -m tests.tools.listening.factor_by_chance` on six people: as they are, five have a factor for 0 to 2 % of
their answers, one heavily accented man for 18 %; raised by 1.35, four for 82 to 90 %, that man for 46, one for 17 %."""
STAYING = 0.6
"""The one in use needs only so much of either limit, and another has to gain STAYING_NATS more: it shall not come and
go."""
STAYING_NATS = 0.05
LEAST_GAIN_NATS = 0.35
"""An answer, on average. A factor that gains less is not worth what it may cost: a recorded woman gains little by 1.3,
in one practice of twelve sums more, and at 1.3 her "fifty" becomes fifteen."""
NO_LESS_NATS = -4.0
"""An answer this unlikely was hardly understood; how much less likely yet it is says nothing about the mouth."""

Scores = tuple[float, ...]
"""An answer's log-probabilities, one for each of FACTORS."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """What the last answers tell."""

    answers: tuple[Scores, ...] = ()

    def with_answer(self, log_probabilities: Iterable[float]) -> "Evidence":
        """One for each of FACTORS."""
        scores = tuple(max(score, NO_LESS_NATS) for score in log_probabilities)
        assert len(scores) == len(FACTORS)
        return Evidence((*self.answers, scores)[-MOST_ANSWERS:])

    def likeliest(self, in_use: int) -> int:
        """Places in FACTORS. The one that makes the answers likelier by most, among those that clearly do; else none.

        Always measured against no factor: a grown-up's gains are small either way, so that one learnt by chance
        would never be left.
        """
        gains = {place: self._clear_gain(place, is_in_use=place == in_use) for place in range(len(FACTORS))}
        return max(gains, key=lambda place: gains[place] + STAYING_NATS * (place == in_use and gains[place] > 0))

    def _clear_gain(self, place: int, *, is_in_use: bool) -> float:
        """Nats an answer, on average, over FACTORS[0]; 0 where it may be chance, or is hardly any."""
        gains = [scores[place] - scores[0] for scores in self.answers]
        gain = fmean(gains)
        limit = max(LEAST_GAIN_NATS, CLEAR_ERRORS * stdev(gains) / sqrt(len(gains)))
        return gain if place and gain > limit * (STAYING if is_in_use else 1.0) else 0.0


@dataclass(frozen=True, slots=True)
class VocalTract:
    """The factor in use, and how many answers it was learnt from; none where it never was."""

    factor: float = 1.0
    answers: int = 0

    def after(self, evidence: Evidence) -> "VocalTract":
        """Where enough answers clearly ask for a factor, that one; else none. With too few, this one."""
        count = len(evidence.answers)
        if count < FEWEST_ANSWERS:
            return self
        in_use = min(range(len(FACTORS)), key=lambda place: abs(FACTORS[place] - self.factor))
        likeliest = evidence.likeliest(in_use)
        return VocalTract(self.factor if likeliest == in_use else FACTORS[likeliest], count)
