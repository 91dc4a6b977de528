"""Shares and their intervals, beside published values."""

import pytest

from saythesum.reports.share import Share


@pytest.mark.parametrize(
    ("right", "of", "low", "high"),
    [(81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0000, 0.1611), (1, 29, 0.0061, 0.1718)],
)
def test_the_interval_is_wilsons(right: int, of: int, low: float, high: float) -> None:
    """Source: R. G. Newcombe, Two-sided confidence intervals for the single proportion, Statistics in Medicine 17
    (1998), 857-872, table I, method 3 (from memory)."""
    assert Share(right, of).interval == pytest.approx((low, high), abs=0.00006)


def test_a_percentage_is_said_from_twenty_answers_on() -> None:
    assert (Share(0, 0).said, Share(7, 9).said, Share(19, 19).said) == ("none yet", "7 of 9", "19 of 19")
    assert Share(15, 20).said == "15 of 20 (75 %, between 53 and 89 %)"
    assert not any("%" in Share(right, of).said for of in range(20) for right in range(of + 1))
