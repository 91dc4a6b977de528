"""How figures are printed: one line each, every seed, quartiles beside means."""

from collections.abc import Iterable, Sequence
from statistics import mean, quantiles

SEEDS = (1, 2, 3)


def each(shares: Iterable[float]) -> str:
    return "seeds " + ", ".join(f"{share:.1%}" for share in shares)


def spread(runs: Sequence[Sequence[float]]) -> str:
    """Of all pupils the quartiles, of each seed the mean."""
    low, middle, high = quantiles([one for run in runs for one in run], n=4)
    means = ", ".join(f"{mean(run):.1f}" for run in runs)
    return f"quartiles {low:.1f} {middle:.1f} {high:.1f}; mean of each seed {means}"
