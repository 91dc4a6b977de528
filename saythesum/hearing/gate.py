"""One gate for all engines: what may have been said becomes what was heard, or is not sure, or is refused.

It does not know which answer is expected, so the right one gets no head start.
"""

from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cache

from saythesum.dialogue.heard import Awaiting, Choice, Given, Number, Unclear, Understood, Why
from saythesum.hearing.certainty import certainty
from saythesum.hearing.confusable import are_confusable
from saythesum.ports import Hearing, Hypothesis
from saythesum.wording.phrases import spellings
from saythesum.wording.understood import understood

TAKEN_BELOW_FREE_NATS = 4.0
"""How far below the free writing the best meaning may lie: was it anything of the closed set at all?
Measured by `python -m tests.listening` with this and the next limit: of 960 numbers of eight voices 820 are taken, 11
of them wrongly, and 2 of 80 other phrases. A wrong taking costs far more than asking once more."""
TAKEN_ABOVE_NEXT_NATS = 1.5
"""How far above the second meaning it must lie: which one was it?"""
UNSURE_BELOW_FREE_NATS = 6.0
"""Beyond this something else was said, and asking once more would only puzzle. Measured: all but 11 of the 960
numbers lie nearer, and 4 of the 80 other phrases, ordinals and single letters."""
CLOSE_NATS = 4.0
"""A confusable number this near is possible enough not to hold the one heard against the pupil."""
ALTERNATIVE_NATS = 5.0
MOST_ALTERNATIVES = 5
NO_RIVAL_NATS = 6.0
"""What stands for the distance to the next meaning where there is none: the search dropped all further off."""


class Verdict(StrEnum):
    TAKEN = "taken"
    UNSURE = "unsure"
    REFUSED = "refused"


@dataclass(frozen=True, slots=True)
class Judged:
    heard: Understood
    verdict: Verdict
    certainty: float
    """0 to 1, also in `heard` where that has one; 0 where nothing was understood."""


@dataclass(frozen=True, slots=True)
class _Best:
    """The likeliest meaning of a ranking, and its two margins in nats."""

    meaning: Understood | None
    below_free: float
    above_next: float
    ranking: tuple[Hypothesis, ...]

    @property
    def is_taken(self) -> bool:
        return self.below_free <= TAKEN_BELOW_FREE_NATS and self.above_next >= TAKEN_ABOVE_NEXT_NATS


def judged(hearing: Hearing, awaiting: Awaiting) -> Judged:
    """Single numbers and commands come from the closed set; the free text only gives sentences their meaning."""
    if not hearing.is_speech:
        return _refused(Why.NOTHING)
    written = understood(hearing.free_text, awaiting)
    best = _best(hearing.ranked, hearing.free_log_probability)
    if not _is_plain(hearing.free_text, awaiting):
        match written:
            case Unclear(why=Why.TWO_NUMBERS):
                return _two_numbers(hearing.free_text, awaiting, best)
            case Number():
                return _agreed(written, _best(hearing.inside, _highest(hearing.inside)), best)
            case Given() | Choice() if not (best and best.is_taken):
                return _agreed(written, best and replace(best, below_free=0.0))
    if best and best.below_free <= UNSURE_BELOW_FREE_NATS:
        return _closed(best)
    return _refused(written.why if isinstance(written, Unclear) else Why.OTHER)


def _closed(best: _Best) -> Judged:
    """Where a rival is likeliest, but not clearly, the likeliest answer is not sure rather than refused."""
    if best.meaning is not None:
        return _found(best.meaning, best)
    answers = (entry.meaning for entry in best.ranking if entry.meaning is not None)
    likeliest = next(answers, None)
    if likeliest is None or best.is_taken:
        return _refused(Why.OTHER)
    return _found(likeliest, replace(best, above_next=-best.above_next))


def _two_numbers(text: str, awaiting: Awaiting, best: _Best | None) -> Judged:
    """ "Fourteen, three" may be forty-three: where the closed set says so too, it is one number."""
    as_one = understood(text.replace("teen", "ty"), awaiting)
    if isinstance(as_one, Number) and best and _means(best.meaning, as_one):
        return _found(as_one, best)
    return _refused(Why.TWO_NUMBERS)


def _agreed(written: Understood, *closed: _Best | None) -> Judged:
    """What a sentence means counts where the closed set, of all of it or of its end, comes to the same."""
    for best in closed:
        if best and _means(best.meaning, written):
            return _found(written, best)
    return _found(written, _Best(written, UNSURE_BELOW_FREE_NATS, 0.0, ()))


def _found(meaning: Understood, best: _Best) -> Judged:
    """`meaning` is what the best of a ranking means, with all that a sentence said about it."""
    is_taken = best.is_taken
    certain = certainty(best.below_free, best.above_next)
    match meaning:
        case Number(value=value):
            heard: Understood = replace(
                meaning,
                certainty=certain,
                sure=is_taken,
                close_to=tuple(
                    other for other in _others(value, best.ranking, CLOSE_NATS) if are_confusable(value, other)
                ),
                alternatives=_others(value, best.ranking, ALTERNATIVE_NATS)[:MOST_ALTERNATIVES],
            )
        case Given() | Choice():
            heard = replace(meaning, certainty=certain, sure=is_taken)
        case Unclear(why=why):
            return _refused(why)
    return Judged(heard, Verdict.TAKEN if is_taken else Verdict.UNSURE, certain)


def _refused(why: Why) -> Judged:
    return Judged(Unclear(why), Verdict.REFUSED, 0.0)


def _best(ranking: tuple[Hypothesis, ...], free_log_probability: float) -> _Best | None:
    if not ranking:
        return None
    top, *others = ranking
    above_next = top.log_probability - others[0].log_probability if others else NO_RIVAL_NATS
    return _Best(top.meaning, free_log_probability - top.log_probability, above_next, ranking)


def _highest(ranking: tuple[Hypothesis, ...]) -> float:
    """The end of a sentence is measured against itself: that something was said there is certain."""
    return ranking[0].log_probability if ranking else 0.0


def _means(one: Understood | None, other: Understood) -> bool:
    """Whether both are the same number, command or choice, however it was said."""
    match one, other:
        case Number(value=value), Number():
            return value == other.value
        case Given(command=command), Given():
            return command is other.command
        case Choice(yes=yes), Choice():
            return yes is other.yes
        case _:
            return False


def _others(value: int, ranking: tuple[Hypothesis, ...], within_nats: float) -> tuple[int, ...]:
    """The other numbers this near to the likeliest, likeliest first."""
    nearest = (entry for entry in ranking if entry.log_probability >= ranking[0].log_probability - within_nats)
    values = (entry.meaning.value for entry in nearest if isinstance(entry.meaning, Number))
    return tuple(other for other in values if other != value)


def _is_plain(text: str, awaiting: Awaiting) -> bool:
    """Whether the text is one of the closed set and nothing more: then it adds nothing."""
    return _bare(text) in _plain(awaiting)


@cache
def _plain(awaiting: Awaiting) -> frozenset[str]:
    return frozenset(_bare(spelling.text) for spelling in spellings(awaiting))


def _bare(text: str) -> str:
    return text.strip(" .,?!").lower()
