"""One gate for all engines: what may have been said becomes what was heard, or is not sure, or is refused.

It does not know which answer is expected, so the right one gets no head start.
"""

from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cache

from saythesum.core.meanings import NUMBER_KINDS, Awaiting, Choice, Command, Given, Meaning, Number, Unclear, WhyUnclear
from saythesum.hearing.confidence.certainty import NO_RIVAL_NATS, BestMeaning, best_answer, best_meaning
from saythesum.hearing.confidence.confusable import are_confusable
from saythesum.ports import Hearing, Hypothesis
from saythesum.wording.understand.phrases import spellings
from saythesum.wording.understand.understood import understood

A_WRONG_TAKING_COSTS = 5.0
"""As much as asking once more so many times: the pupil may let it stand, and is then told "Not yet" for an answer they
did not give."""
SURE_FROM = 1 - 1 / A_WRONG_TAKING_COSTS
"""The certainty from which taking it costs less than asking once more."""
SURE_ABOVE_NEXT_NATS = 2.0
"""Two meanings nearer than this are asked about, however well both fit: which one was it? Measured by
`python -m tests.tools.listening.limits`: clean and hard numbers together cost the least askings here."""
REFUSED_BELOW = 0.2
"""Below this certainty something else was said, and asking once more would only puzzle. Measured by the same: of 2,000
numbers that are right 14 lie below, of 544 hearings of something else that might have been one 422."""
SURE_COMMAND_LIKELY_NATS = 3.0
"""A command has to be this likely by itself: in a room full of voices "I don't know" is what a model for sentences
makes of anything. Measured: one said clearly has 0.1 to 1.2, one out of babble 2.3 and more."""
UNSURE_BELOW_FREE_NATS = 6.0
"""So far below the free writing something else was said, too. Measured: all but 11 of 960 numbers lie nearer."""
CLOSE_NATS = 4.0
"""A confusable number this near is possible enough not to hold the one heard against the pupil."""
ALTERNATIVE_NATS = 5.0
MOST_ALTERNATIVES = 5
SAID_BACK_FIRST = frozenset(
    {
        *(Command.STOP, Command.SKIP, Command.GO_BACK, Command.HELP, Command.DONT_KNOW),
        Command.NOT_WHAT_I_SAID,
    }
)
"""Commands that end something, take back or count as help; to hear it again or to wait does no harm."""


class Verdict(StrEnum):
    TAKEN = "taken"
    UNSURE = "unsure"
    REFUSED = "refused"


@dataclass(frozen=True, slots=True)
class Judged:
    heard: Meaning
    verdict: Verdict
    certainty: float
    """0 to 1, also in `heard` where that has one; 0 where nothing was understood."""


def judged(hearing: Hearing, awaiting: Awaiting) -> Judged:
    """Single numbers and commands come from the closed set; the free text only gives sentences their meaning."""
    if not hearing.is_speech:
        return _refused(WhyUnclear.NOTHING)
    written = understood(hearing.free_text, awaiting)
    best = best_meaning(hearing)
    if not _is_plain(hearing.free_text, awaiting):
        match written:
            case Unclear(why=WhyUnclear.TWO_NUMBERS):
                return _two_numbers(hearing.free_text, awaiting, best)
            case Number() if _is_correction(written) or not (best and best.meaning and _is_taken(best)):
                return _agreed(written, _inside(hearing), best)
            case Given() | Choice() if not (best and _is_taken(best)):
                if isinstance(written, Given) and _stands_by_itself(written, best, hearing):
                    return _by_itself(written, hearing, awaiting)
                return _agreed(written, best and _as_written(best, hearing))
    if best is None or (best.meaning is None and _is_clear(best)):
        return _refused(written.why if isinstance(written, Unclear) else WhyUnclear.OTHER)
    return _closed(best_answer(hearing), written)


def _is_correction(number: Number) -> bool:
    """Then the words around it decide which number counts, and a search that knows none of them may miss it."""
    return number.corrected or number.objecting or number.said_first or number.counting


def _is_taken(best: BestMeaning) -> bool:
    is_likely = not isinstance(best.meaning, Given) or best.log_probability >= -SURE_COMMAND_LIKELY_NATS
    return best.certainty >= SURE_FROM and _is_clear(best) and is_likely


def _is_hopeless(best: BestMeaning) -> bool:
    return best.certainty < REFUSED_BELOW or best.below_free > UNSURE_BELOW_FREE_NATS


def _is_clear(best: BestMeaning) -> bool:
    return best.above_next >= SURE_ABOVE_NEXT_NATS


def _closed(answer: BestMeaning | None, written: Meaning) -> Judged:
    """Where a rival is likeliest, but not clearly, the likeliest answer is not sure rather than refused."""
    if answer is None or answer.meaning is None or _is_hopeless(answer):
        return _refused(written.why if isinstance(written, Unclear) else WhyUnclear.OTHER)
    return _found(answer.meaning, answer)


def _two_numbers(text: str, awaiting: Awaiting, best: BestMeaning | None) -> Judged:
    """ "Fourteen, three" may be forty-three: where the closed set says so too, it is one number."""
    as_one = understood(text.replace("teen", "ty"), awaiting)
    if isinstance(as_one, Number) and best and _means(best.meaning, as_one):
        return _found(as_one, best)
    return _refused(WhyUnclear.TWO_NUMBERS)


def _agreed(written: Meaning, *closed: BestMeaning | None) -> Judged:
    """What a sentence means counts where the closed set, of all of it or of its end, comes to the same.

    The second opinion is not asked: it knows whole answers, and a sentence is something else to it.
    """
    for best in closed:
        if best and _means(best.meaning, written):
            return _found(written, replace(best, doubt=None))
    return _found(written, BestMeaning(written, NO_RIVAL_NATS, -NO_RIVAL_NATS, 0.0, ()))


def _stands_by_itself(written: Given, best: BestMeaning | None, hearing: Hearing) -> bool:
    """A sentence in the pupil's own words, which the closed set lacks, where nothing of that is at all likely."""
    if best and _means(best.meaning, written):
        return False
    return (best is None or _is_hopeless(best)) and _is_taken(_alone(written, hearing))


def _by_itself(written: Given, hearing: Hearing, awaiting: Awaiting) -> Judged:
    """Nothing else agrees with it, so what changes more than the talk is said back before it acts."""
    is_said_back = awaiting in NUMBER_KINDS and written.command in SAID_BACK_FIRST
    return _found(replace(written, alone=is_said_back), _alone(written, hearing))


def _alone(written: Given, hearing: Hearing) -> BestMeaning:
    return BestMeaning(written, 0.0, NO_RIVAL_NATS, hearing.free_log_probability, ())


def _found(meaning: Meaning, best: BestMeaning) -> Judged:
    """`meaning` is what the best of a ranking means, with all that a sentence said about it."""
    is_taken, certain = _is_taken(best), round(best.certainty, 3)
    match meaning:
        case Number(value=value):
            heard: Meaning = replace(
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


def _refused(why: WhyUnclear) -> Judged:
    return Judged(Unclear(why), Verdict.REFUSED, 0.0)


def _inside(hearing: Hearing) -> BestMeaning | None:
    """The end of a sentence is measured against itself: that something was said there is certain."""
    highest = hearing.inside[0].log_probability if hearing.inside else 0.0
    return best_meaning(Hearing(hearing.inside, "", highest))


def _as_written(best: BestMeaning, hearing: Hearing) -> BestMeaning:
    """A command in words of its own is as likely as they are."""
    return replace(best, below_free=0.0, log_probability=hearing.free_log_probability)


def _means(one: Meaning | None, other: Meaning) -> bool:
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
