"""What helps with a missing number: what a wrong one comes to, and the ones that lead to it where no ten is crossed."""

from saythesum.core.sums import LARGEST_START, Bridge, Kind


def can_be_said(given: int, makes: int, needed: int, missing: int) -> bool:
    """What a wrong number comes to. Past a hundred, where the question is not, it would be too long to hold in mind.
    `missing`: the number that may not be said."""
    is_past_hundred = max(given, makes) >= 100 > needed
    return makes in range(LARGEST_START + 1) and makes != missing and not is_past_hundred


def ones_of(bridge: Bridge) -> tuple[int, int] | None:
    """The ones of the start and those that they lead to, with a ten for nought where the ten is reached or opened.
    None where they are the question itself, or nothing."""
    is_back = bridge.total < bridge.start
    if bridge.kind is Kind.CROSSING or bridge.start <= 10 or (bridge.kind is Kind.LANDING and is_back):
        return None
    if is_back:
        return (bridge.ones or 10, (bridge.ones or 10) - bridge.amount)
    return (bridge.ones, bridge.ones_total) if bridge.ones else None
