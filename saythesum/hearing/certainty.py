"""How likely it is that what was heard is what was said, from what the gate measures of a hearing."""

import math

from saythesum.hearing.calibration import Calibration, calibration

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
