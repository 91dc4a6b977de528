"""How likely it is that what was heard is what was said, from the two margins of the gate."""

import math

_FURTHEST_BELOW_FREE_NATS, _FURTHEST_ABOVE_NEXT_NATS = 8.0, 6.0
_CONSTANT, _A_NAT_BELOW_FREE, _A_NAT_ABOVE_NEXT = 0.0, -0.5, 1.0


def certainty(below_free_nats: float, above_next_nats: float) -> float:
    """0 to 1."""
    below = min(max(below_free_nats, 0.0), _FURTHEST_BELOW_FREE_NATS)
    above = min(above_next_nats, _FURTHEST_ABOVE_NEXT_NATS)
    return 1.0 / (1.0 + math.exp(-(_CONSTANT + _A_NAT_BELOW_FREE * below + _A_NAT_ABOVE_NEXT * above)))
