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
CLEAR_ERRORS = 1.5
"""A gain counts when it is this many times its own standard error. Chosen on eight voices, clean and raised by 1.35, of
which 9 or 24 answers each were said: with it no voice loses as much as 1 % of its answers when clean; without it, one
whose answers are all unlikely loses 2 to 6 %."""
LEAST_GAIN_NATS = 0.25
"""An answer, on average. Chosen on six people, 24 answers each: raised by 1.35 five of them gain 0.5 to 1.0, and as
they are 0.2 at most. A factor that gains less is not worth what it may cost: a recorded woman gains 0.07 by 1.2, and
at 1.3 her "fifty" becomes fifteen."""
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
        """Places in FACTORS. The one that makes the answers likelier by most, among those that clearly do."""
        gains = {place: self._clear_gain(place, in_use) for place in range(len(FACTORS))}
        return max(gains, key=lambda place: (gains[place], place == in_use))

    def _clear_gain(self, place: int, in_use: int) -> float:
        """Nats an answer, on average; 0 where it may be chance, or is hardly any."""
        gains = [scores[place] - scores[in_use] for scores in self.answers]
        gain = fmean(gains)
        is_clear = gain > max(LEAST_GAIN_NATS, CLEAR_ERRORS * stdev(gains) / sqrt(len(gains)))
        return gain if is_clear else 0.0


@dataclass(frozen=True, slots=True)
class VocalTract:
    """The factor in use, and how many answers it was learnt from; none where it never was."""

    factor: float = 1.0
    answers: int = 0

    def after(self, evidence: Evidence) -> "VocalTract":
        """Where enough answers clearly ask for another factor, that one; else this one, which they bear out."""
        count = len(evidence.answers)
        if count < FEWEST_ANSWERS:
            return self
        in_use = min(range(len(FACTORS)), key=lambda place: abs(FACTORS[place] - self.factor))
        likeliest = evidence.likeliest(in_use)
        return VocalTract(self.factor if likeliest == in_use else FACTORS[likeliest], count)
