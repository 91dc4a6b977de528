"""What the gate makes of a meaning that was heard with a given certainty: the gate itself judges, no limit of ours."""

import math
from dataclasses import replace
from functools import lru_cache

from saythesum.core.meanings import Awaiting, Choice, Command, Given, Meaning, Number, Unclear, WhyUnclear
from saythesum.hearing.confidence.calibration import calibration
from saythesum.hearing.confidence.certainty import NO_RIVAL_NATS, weights
from saythesum.hearing.confidence.gate import SURE_ABOVE_NEXT_NATS, UNSURE_BELOW_FREE_NATS, Verdict, judged
from saythesum.ports import Hearing, Hypothesis

CLEAR_NATS = (SURE_ABOVE_NEXT_NATS + 0.5, NO_RIVAL_NATS)
UNCLEAR_NATS = (SURE_ABOVE_NEXT_NATS - 0.1,)
MOST_BELOW_FREE_NATS = UNSURE_BELOW_FREE_NATS - 0.1
EXAMPLES: dict[type, Meaning] = {Number: Number(43), Choice: Choice(True), Given: Given(Command.STOP)}
"""The gate is as sure of every number as of every other, and of every command."""
RIVAL = Number(5)


def judged_at(heard: Meaning, certainty: float, *, is_clear: bool = True) -> Meaning:
    """`heard` with this certainty, and as sure as the gate is of such a hearing. Not clear: a rival is near."""
    if isinstance(heard, Unclear):
        return heard
    verdict = _verdict(EXAMPLES[type(heard)], certainty, is_clear)
    if verdict is Verdict.REFUSED:
        return Unclear(WhyUnclear.OTHER)
    return replace(heard, certainty=certainty, sure=verdict is Verdict.TAKEN)


@lru_cache(maxsize=256)
def _verdict(example: Meaning, certainty: float, is_clear: bool) -> Verdict:
    found = judged(_hearing(example, certainty, is_clear=is_clear), Awaiting.NUMBER)
    assert certainty > 0.99 or found.verdict is Verdict.REFUSED or abs(found.certainty - certainty) < 0.01
    return found.verdict


def _hearing(meaning: Meaning, certainty: float, *, is_clear: bool) -> Hearing:
    """One whose margins measure to this certainty; above 0.99 a hearing as good as there is."""
    below_free, above_next, unlikely = _margins(certainty, CLEAR_NATS if is_clear else UNCLEAR_NATS)
    rival = Hypothesis(RIVAL, -unlikely - above_next)
    return Hearing((Hypothesis(meaning, -unlikely), rival), "", below_free - unlikely)


def _margins(certainty: float, above_next_nats: tuple[float, ...]) -> tuple[float, float, float]:
    """The odds come down from the best first by the distance to the free writing, then by being unlikely."""
    alone = calibration().alone
    a_nat_below, a_nat_above, an_unlikely_nat, *_ = weights(alone)
    odds = math.log(certainty / (1 - certainty)) if certainty < 1 else math.inf
    for above_next in above_next_nats:
        to_lose = alone.constant + a_nat_above * above_next - odds
        if to_lose >= 0:
            below = min(to_lose / -a_nat_below, MOST_BELOW_FREE_NATS)
            return below, above_next, (to_lose + a_nat_below * below) / -an_unlikely_nat
    return 0.0, above_next_nats[-1], 0.0
