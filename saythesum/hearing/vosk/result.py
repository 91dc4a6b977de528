"""What Vosk wrote about a stretch of speech, as a hearing that the one gate can judge."""

import json
import math
from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from saythesum.core.meanings import Meaning, Number, Unclear
from saythesum.hearing.vosk.model import UNKNOWN
from saythesum.ports import Hearing, Hypothesis

NOTHING_HEARD = Hearing((), "", 0.0, is_speech=False)


@dataclass(frozen=True, slots=True)
class Alternative:
    text: str
    score_nats: float
    """The logarithm of a likelihood. Only differences within one result mean anything."""


def alternatives_in(result: str) -> tuple[Alternative, ...]:
    """Likeliest first. `result` is the engine's JSON; what it calls confidence is a logarithm."""
    written = json.loads(result).get("alternatives", [])
    return tuple(Alternative(entry["text"].strip(), float(entry["confidence"])) for entry in written)


def hearing_of(
    alternatives: Sequence[Alternative], lattice_beam_nats: float, meaning: Callable[[str], Meaning]
) -> Hearing:
    """Each meaning with the logarithm of its probability, given that one of the alternatives is what was said.

    So a meaning of probability p against one rival has a margin of ln(p / (1 - p)) nats: the gate's 2 stand for
    p = 0.88, and p = 0.98 is 4 nats. Whatever lay beyond the lattice beam was dropped by the engine unseen; a rival
    just there stands for it, so no margin is larger than the beam. There is no free hearing to compare with: whether
    it was an answer at all is said by the rivals and the model's word for the unknown, and the free text's
    logarithm is that of certainty.
    """
    if not alternatives or not alternatives[0].text:
        return NOTHING_HEARD
    best = alternatives[0].score_nats
    weights: dict[Meaning | None, float] = defaultdict(float)
    for alternative in alternatives:
        weight = math.exp(alternative.score_nats - best)
        meant = _meanings(alternative.text, meaning)
        for one in meant:
            weights[one] += weight / len(meant)
    weights[None] += math.exp(-lattice_beam_nats)
    total = sum(weights.values())
    likeliest_first = sorted(weights.items(), key=lambda entry: entry[1], reverse=True)
    ranked = tuple(Hypothesis(meant, math.log(weight / total)) for meant, weight in likeliest_first if weight)
    return Hearing(ranked, alternatives[0].text, 0.0)


def _meanings(text: str, meaning: Callable[[str], Meaning]) -> tuple[Meaning | None, ...]:
    """One, or None for no answer.

    An answer among words that the model does not know may be it or its opposite ("not forty"): half of each, so
    that it is asked for once more.
    """
    known = " ".join(word for word in text.split() if word != UNKNOWN)
    match meaning(known):
        case Unclear():
            return (None,)
        case Number(value=value):
            meant: Meaning = Number(value)  # however it was said: "five two" and "fifty two" are one
        case other:
            meant = other
    return (meant,) if known == text else (meant, None)
