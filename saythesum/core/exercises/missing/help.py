"""What helps with a missing number: where no ten is crossed, the ones that lead from the start to the total."""

from saythesum.core.sums import Bridge, Kind


def ones_of(bridge: Bridge) -> tuple[int, int] | None:
    """The ones of the start and those that they lead to, with a ten for nought where the ten is reached or opened.
    None where they are the question itself, or nothing."""
    is_back = bridge.total < bridge.start
    if bridge.kind is Kind.CROSSING or bridge.start <= 10 or (bridge.kind is Kind.LANDING and is_back):
        return None
    if is_back:
        return (bridge.ones or 10, (bridge.ones or 10) - bridge.amount)
    return (bridge.ones, bridge.ones_total) if bridge.ones else None
