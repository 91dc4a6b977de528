"""A minute of number words: which of this speaker's words this microphone and this engine tell apart.

Its findings are sentences for the adult. Only the pupil's vocal-tract factor is kept.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from saythesum.core.meanings import Awaiting, Number
from saythesum.hearing.confidence.gate import Judged
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.recording import heard_in, spoken_part
from saythesum.hearing.vocal_tract.factor import FACTORS, Evidence, VocalTract
from saythesum.ports import Recogniser, Samples
from saythesum.wording.numbers import words

ASKED = (30, 14, 5, 60, 9, 40, 13, 80, 50, 3, 15, 70)
"""Tens, the teens that sound like them, and the ones most often mixed up; none beside the one it is mixed up with."""
ABOUT = "This is a check of the microphone and the listening, not of the pupil."
ALL_UNDERSTOOD = "All words were understood: speaking will do."
TOO_LITTLE = "That is too little to practise by voice: use keys today, or try again nearer to the microphone."

Ask = Callable[[str], Samples]
"""Says the sentence, and returns what the microphone heard after it."""


@dataclass(frozen=True, slots=True)
class WordHeard:
    asked: int
    judged: Judged

    @property
    def is_understood(self) -> bool:
        heard = self.judged.heard
        return isinstance(heard, Number) and heard.sure and heard.value == self.asked

    @property
    def mixed_with(self) -> int | None:
        """What it was taken for, or could not be distinguished from."""
        match self.judged.heard:
            case Number(value=value) if value != self.asked:
                return value
            case Number(sure=False, alternatives=(other, *_)):
                return other
            case _:
                return None


def words_asked(ask: Ask) -> list[tuple[int, Samples]]:
    return [(value, spoken_part(ask(f"Say {words(value)}."))) for value in ASKED]


def learnt_from(said: Sequence[tuple[int, Samples]], engine: NeuralRecogniser, before: VocalTract) -> VocalTract:
    """Chosen by how likely the recordings become with it; which words were asked for plays no part."""
    evidence = Evidence()
    for _, samples in said:
        if len(samples):
            evidence = evidence.with_answer(engine.log_probabilities(samples, Awaiting.NUMBER, FACTORS))
    return before.after(evidence)


def words_heard(said: Sequence[tuple[int, Samples]], engine: Recogniser) -> list[WordHeard]:
    return [WordHeard(asked, heard_in(samples, Awaiting.NUMBER, engine)[1]) for asked, samples in said]


def found_in(heard: Sequence[WordHeard]) -> list[str]:
    """What the adult should know, a sentence each."""
    understood = sum(word.is_understood for word in heard)
    if understood == len(heard):
        return [ALL_UNDERSTOOD]
    found = [f"Understood: {understood} of {len(heard)} words."]
    missed = [word for word in heard if not word.is_understood]
    pairs = {frozenset((word.asked, word.mixed_with)) for word in missed if word.mixed_with is not None}
    if pairs:
        mixed = "; ".join(" and ".join(map(words, pair)) for pair in sorted(map(sorted, pairs)))
        found.append(f"It mixes {mixed}. Prefer keys for those.")
    unclear = [words(word.asked) for word in missed if word.mixed_with is None]
    if unclear:
        found.append(f"It could not make out {', '.join(unclear)}. Prefer keys for those.")
    if 2 * understood < len(heard):
        found.append(TOO_LITTLE)
    return found
