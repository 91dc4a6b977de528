"""How likely it is that what was heard is what was said, from the two margins of the gate."""

import math

_FURTHEST_BELOW_FREE_NATS, _FURTHEST_ABOVE_NEXT_NATS = 10.0, 6.0
"""Beyond these a margin says no more: the search drops what is further off."""
_CONSTANT, _A_NAT_BELOW_FREE, _A_NAT_ABOVE_NEXT = 0.62, -0.23, 0.68
"""Source: `python -m tests.listening.calibrate`, on 966 numbers of eight voices. Each judged by a fit to the others, it
is 0.023 off on average: fair from 0.7 up, too humble below."""


def certainty(below_free_nats: float, above_next_nats: float) -> float:
    """0 to 1. For what is printed and kept; what is taken is decided by the margins themselves."""
    below, above = margins_within(below_free_nats, above_next_nats)
    return 1 / (1 + math.exp(-(_CONSTANT + _A_NAT_BELOW_FREE * below + _A_NAT_ABOVE_NEXT * above)))


def margins_within(below_free_nats: float, above_next_nats: float) -> tuple[float, float]:
    """The part of each margin that says something."""
    below = min(max(below_free_nats, 0.0), _FURTHEST_BELOW_FREE_NATS)
    return below, min(above_next_nats, _FURTHEST_ABOVE_NEXT_NATS)
