"""A share of answers, said with its numbers, and as a percentage only where there are enough of them."""

from dataclasses import dataclass
from math import sqrt

FEWEST_FOR_PERCENT = 20
"""Below it one answer more or less changes the percentage by more than five. Source: common practice in single-case
reports (from memory); the interval says the same at any number."""
_Z = 1.959964
"""Of the normal distribution, for 95 %."""


@dataclass(frozen=True, slots=True)
class Share:
    right: int
    of: int

    @property
    def counted(self) -> str:
        return f"{self.right} of {self.of}"

    @property
    def said(self) -> str:
        if not self.of:
            return "none yet"
        if self.of < FEWEST_FOR_PERCENT:
            return self.counted
        percent, low, high = (round(100 * one) for one in (self.right / self.of, *self.interval))
        return f"{self.counted} ({percent} %, between {low} and {high} %)"

    @property
    def interval(self) -> tuple[float, float]:
        """Within which the pupil's own rate lies, by 95 %. Source: E. B. Wilson, Probable inference, the law of
        succession, and statistical inference, Journal of the American Statistical Association 22 (1927), 209-212."""
        share, n = self.right / self.of, self.of
        middle = share + _Z**2 / (2 * n)
        half = _Z * sqrt(share * (1 - share) / n + _Z**2 / (4 * n**2))
        return max(0.0, (middle - half) / (1 + _Z**2 / n)), min(1.0, (middle + half) / (1 + _Z**2 / n))
