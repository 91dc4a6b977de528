"""The likeliest meaning of a ranking, and the margins by which the gate judges it."""

from dataclasses import dataclass, replace

from saythesum.dialogue.heard import Understood
from saythesum.hearing.certainty import certainty
from saythesum.ports import Hypothesis

NO_RIVAL_NATS = 6.0
"""What stands for the distance to the next meaning where there is none: the search dropped all further off."""


@dataclass(frozen=True, slots=True)
class BestMeaning:
    """Margins in nats."""

    meaning: Understood | None
    """None: a rival, which is no answer."""
    below_free: float
    above_next: float
    log_probability: float
    ranking: tuple[Hypothesis, ...]

    @property
    def certainty(self) -> float:
        return certainty(self.below_free, self.above_next, self.log_probability)

    def of_an_answer(self) -> "BestMeaning | None":
        """The likeliest answer where a rival is likelier, so much below it. None where no answer was likely at all."""
        answers = (entry for entry in self.ranking if entry.meaning is not None)
        answer = next(answers, None)
        if answer is None or self.meaning is not None:
            return self if answer else None
        return replace(self, meaning=answer.meaning, above_next=-self.above_next)


def best_meaning(ranking: tuple[Hypothesis, ...], free_log_probability: float) -> BestMeaning | None:
    """None where nothing fitted."""
    if not ranking:
        return None
    top, *others = ranking
    above_next = top.log_probability - others[0].log_probability if others else NO_RIVAL_NATS
    return BestMeaning(
        top.meaning, free_log_probability - top.log_probability, above_next, top.log_probability, ranking
    )
