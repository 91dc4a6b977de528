"""The interval against published examples.

Source: R. G. Newcombe, Two-sided confidence intervals for the single proportion, Statistics in Medicine 17 (1998),
857-872, table I, the score method without continuity correction (values from memory).
"""

import pytest

from tests.tools.listening.figures import wilson


@pytest.mark.parametrize(
    ("successes", "count", "low", "high"),
    [(81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0, 0.1611), (1, 29, 0.0061, 0.1718)],
)
def test_wilsons_interval(successes: int, count: int, low: float, high: float) -> None:
    assert list(wilson(successes, count)) == pytest.approx([low, high], abs=5e-5)


def test_nothing_counted_says_nothing() -> None:
    assert wilson(0, 0) == (0.0, 1.0)
