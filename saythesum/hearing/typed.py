"""The engine without ears: a line of text, through the same gate as everything else."""

from dataclasses import replace

from saythesum.core.meanings import Awaiting, Meaning, Unclear, WhyUnclear
from saythesum.hearing.confidence.gate import judged
from saythesum.ports import Hearing, Hypothesis
from saythesum.wording.understand.understood import understood


def typed(line: str, awaiting: Awaiting) -> Hearing:
    """Certain beyond doubt of what the line says: it is all there is to hear."""
    meaning = understood(line, awaiting, typed=True)
    return Hearing((Hypothesis(meaning, 0.0),), line, 0.0, is_speech=meaning != Unclear(WhyUnclear.NOTHING))


def read(line: str, awaiting: Awaiting) -> Meaning:
    """What a typed line means, by the one gate. It was not heard, so no certainty is kept with it."""
    heard = judged(typed(line, awaiting), awaiting).heard
    return heard if isinstance(heard, Unclear) else replace(heard, certainty=None)
