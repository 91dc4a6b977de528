"""In adding: small questions that tell mistakes apart, and what a pupil who makes a mistake may answer to each.

What each mistake would answer is our own choice, worked out from how the mistake comes about; the learner only asks
which question separates the mistakes that fit, and how far an answer speaks for one of them.
"""

from collections.abc import Callable, Mapping
from typing import TypeAlias

from saythesum.core.exercises import bridge_remarks as remarks
from saythesum.core.exercises.comparison import NAMING_THE_TEN, standing_of
from saythesum.core.exercises.exercise import Remark
from saythesum.core.mistakes.adding import CATALOGUE
from saythesum.core.mistakes.pattern import Occasion
from saythesum.core.sums import Bridge, Kind, Part

STARTS = range(10, 100)
"""Below ten the ones are the sum itself; past a hundred the questions are too long to hold in mind."""

MISCOUNTED_BY = 1
"""A wrong whole answer this near to the right one may come of counting on. Our own choice."""
NEAR = 4
"""So near to the right answer, the ten was passed already."""
FEW = 3
"""So many are counted on with ease. Our own choice."""

DOUBLED = frozenset({"double-not-adjusted"})
CARRIED = frozenset({"ten-written-ones-carried"})
TURNED_ROUND = frozenset({"answer-reversed", "start-reversed"})
BY_THE_TEN = frozenset({"stopped-at-the-ten", "whole-amount-after-bridging", "gap-used-twice"})
"""Kept names of mistakes that say what a small question should be about."""

Foretold: TypeAlias = Callable[[Bridge], tuple[int, ...]]


def small_questions(asked: Bridge) -> tuple[Part, ...]:
    """Those that hold neither the answer nor nothing; of equally telling ones, the earlier is asked."""
    if asked.start not in STARTS:
        return tuple(part for part in asked.parts if part is not Part.TOTAL)
    able = {
        Part.ONES: asked.ones > 0,
        Part.ONE_MORE: asked.amount > 1 and asked.ones > 0,  # from a whole ten nobody has to count
        Part.TENS: True,
        Part.TENS_OF_ONES: asked.kind is not Kind.WITHIN,
        Part.NEXT_TEN: Part.NEXT_TEN in asked.parts,
        Part.GAP: Part.GAP in asked.parts,
        Part.REST: Part.REST in asked.parts,
    }
    return tuple(part for part, is_able in able.items() if is_able)


def suits(asked: Bridge, part: Part, given: int) -> bool:
    """Whether the question is to the point after this wrong whole answer, where several mistakes fit or earlier
    questions were asked before. Our own choice, after readings of replies as a teacher would give them."""
    match part:
        case Part.ONES:
            return _comes_of(DOUBLED, asked, given) or _ones_may_be_wrong(asked, given)
        case Part.TENS:
            return _tens_may_be_wrong(asked, given)
        case Part.TENS_OF_ONES:
            has_ones = given % 10 == asked.total % 10
            has_tens = given >= 10 and given != asked.ones_total
            return has_tens and (has_ones or _is_carried(asked, given))
        case Part.ONE_MORE if given in (asked.start, asked.amount):
            return asked.amount <= FEW or asked.kind is Kind.WITHIN
        case Part.ONE_MORE:
            return abs(given - asked.total) <= MISCOUNTED_BY and not _comes_of(BY_THE_TEN, asked, given)
        case _:
            return True


def _ones_may_be_wrong(asked: Bridge, given: int) -> bool:
    """A number below the tens of the start has other troubles, and so has one that ends as the answer does, unless it
    is the answer with its new ten lost. Who came by way of the ten, or near the answer, goes on by way of the ten."""
    is_on_the_way = asked.kind is Kind.CROSSING and abs(given - asked.total) <= NEAR
    has_ones = given % 10 == asked.total % 10 and given != asked.total - 10
    is_elsewhere = given < asked.tens or _is_turned_round(asked, given) or _is_carried(asked, given)
    return not (has_ones or is_elsewhere or is_on_the_way or _comes_of(BY_THE_TEN, asked, given))


def _tens_may_be_wrong(asked: Bridge, given: int) -> bool:
    tens = given // 10
    if tens in (asked.start // 10, asked.total // 10) or given == asked.amount or _is_carried(asked, given):
        return False
    are_lost = tens < asked.start // 10 and (tens > 0 or given == asked.total % 10)
    return asked.kind is Kind.WITHIN or _is_turned_round(asked, given) or are_lost


def _is_turned_round(asked: Bridge, given: int) -> bool:
    return given >= 10 and _comes_of(TURNED_ROUND, asked, given)


def _is_carried(asked: Bridge, given: int) -> bool:
    return asked.kind is not Kind.WITHIN and _comes_of(CARRIED, asked, given)


def _comes_of(names: frozenset[str], asked: Bridge, given: int) -> bool:
    """Whether one of these mistakes gives the number. The start as the answer says first that nothing was added."""
    fitting = (pattern.name for pattern in CATALOGUE if pattern.fits(Occasion(asked), given))
    return given != asked.start and not names.isdisjoint(fitting)


def answers_foretold(mistake: str, asked: Bridge, part: Part) -> tuple[int, ...]:
    """The wrong answers to a small question that the same mistake may give; none where it does not show there."""
    foretold = _FORETOLD.get(mistake, {}).get(part)
    if foretold is None:
        return ()
    right = asked.answer_to(part)
    return tuple(dict.fromkeys(number for number in foretold(asked) if number >= 0 and number != right))


def before(asked: Bridge, part: Part, given: int) -> tuple[Remark, ...]:
    """What is said of the wrong number before a small question. Where the question itself turns the pupil to what went
    otherwise, nothing is."""
    match part:
        case Part.REST:
            return (_before_rest(asked, given),)
        case Part.TENS if given == asked.ones_total:
            return (remarks.OnesMakeUp(asked),)
        case Part.NEXT_TEN if standing_of(asked, given).standing in NAMING_THE_TEN:
            return ()
        case Part.NEXT_TEN | Part.GAP | Part.TENS:
            return (remarks.Stands(asked, given, standing_of(asked, given)),)
        case _:
            return ()


def taking_up(asked: Bridge, given: int) -> Part | None:
    """The question that goes on from what is right in the number: the ten was reached, or the amount put after it."""
    is_so = Part.REST in small_questions(asked) and given in (asked.next_ten, asked.next_ten + asked.amount)
    return Part.REST if is_so else None


def _before_rest(asked: Bridge, given: int) -> Remark:
    if given == asked.next_ten:
        return remarks.ReachedTen(asked)
    return remarks.TenAndGap(asked) if given == asked.next_ten + asked.gap else remarks.GapGets(asked)


def part_after(asked: Bridge, answered: Part) -> Part | None:
    """From a small question the way goes by tens and ones, or on to the ten; None after a step of the way itself."""
    match answered:
        case Part.TENS if asked.ones:
            return Part.ONES
        case Part.ONE_MORE if Part.GAP in asked.parts:
            return Part.GAP
        case Part.ONE_MORE if asked.ones:
            return Part.ONES
        case Part.TENS | Part.ONE_MORE | Part.ONES | Part.TENS_OF_ONES:
            return Part.TOTAL
        case _:
            return None


_FORETOLD: Mapping[str, Mapping[Part, Foretold]] = {
    "new-ten-lost": {
        Part.NEXT_TEN: lambda asked: (asked.tens,),
        Part.TENS_OF_ONES: lambda asked: (0,),
    },
    "both-digits-written": {Part.TENS_OF_ONES: lambda asked: (asked.ones_total, 0)},
    "ten-written-ones-carried": {Part.TENS_OF_ONES: lambda asked: (asked.ones_total % 10,)},
    "amount-in-the-tens": {Part.ONE_MORE: lambda asked: (asked.start + 10,)},
    "amount-to-both-digits": {Part.ONE_MORE: lambda asked: (asked.start + 11,)},
    "all-digits-totalled": {
        Part.TENS: lambda asked: (asked.tens // 10 + asked.ones,),
        Part.ONE_MORE: lambda asked: (asked.tens // 10 + asked.ones + 1,),
    },
    "one-short": {
        Part.ONE_MORE: lambda asked: (asked.start,),
        Part.ONES: lambda asked: (asked.ones_total - 1,),
        Part.GAP: lambda asked: (asked.gap + 1,),
    },
    "one-over": {
        Part.ONE_MORE: lambda asked: (asked.start + 2,),
        Part.ONES: lambda asked: (asked.ones_total + 1,),
        Part.GAP: lambda asked: (asked.gap - 1,),
    },
    "extra-ten": {
        Part.NEXT_TEN: lambda asked: (asked.next_ten + 10,),
        Part.TENS: lambda asked: (asked.tens // 10 + 1,),
    },
    "stopped-at-the-ten": {Part.REST: lambda asked: (0, asked.amount)},
    "whole-amount-after-bridging": {Part.REST: lambda asked: (asked.amount,)},
    "gap-used-twice": {Part.REST: lambda asked: (asked.gap,)},
    "subtracted": {
        Part.ONES: lambda asked: (abs(asked.ones - asked.amount),),
        Part.NEXT_TEN: lambda asked: (asked.tens,),
    },
    "ones-differenced": {Part.ONES: lambda asked: (abs(asked.ones - asked.amount),)},
    "number-repeated": {Part.ONE_MORE: lambda asked: (asked.start,)},
    "answer-reversed": {Part.TENS: lambda asked: (asked.ones,)},
    "start-reversed": {Part.TENS: lambda asked: (asked.ones,)},
    "double-not-adjusted": {Part.ONES: lambda asked: (2 * asked.ones, 2 * asked.amount)},
    "compensated-the-wrong-way": {Part.ONES: lambda asked: (asked.ones + 20 - asked.amount,)},
    "did-not-compensate": {Part.ONES: lambda asked: (asked.ones + 10,)},
    "multiplied": {Part.ONES: lambda asked: (asked.ones * asked.amount,)},
    "fact-slip": {Part.ONES: lambda asked: (asked.ones_total - 2, asked.ones_total + 2)},
    "teen-or-ty-start": {
        Part.TENS: lambda asked: (asked.ones,),
        Part.ONE_MORE: lambda asked: (10 * asked.ones + 1,),
    },
    "landing-crossed": {Part.GAP: lambda asked: (asked.gap + 1, asked.gap - 1)},
}
"""By the mistakes' kept names. Those left out show in no small question, like a place lost in the grid."""
