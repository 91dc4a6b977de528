"""The engine without ears: a line of text, through the same gate as everything else."""

from saythesum.dialogue.heard import Awaiting, Unclear, Why
from saythesum.ports import Hearing, Hypothesis
from saythesum.wording.understood import understood


def typed(line: str, awaiting: Awaiting) -> Hearing:
    """Certain beyond doubt of what the line says: it is all there is to hear."""
    meaning = understood(line, awaiting, typed=True)
    return Hearing((Hypothesis(meaning, 0.0),), line, 0.0, is_speech=meaning != Unclear(Why.NOTHING))
