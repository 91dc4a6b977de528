"""True things to say about a wrong answer to one guided part: it is said back, and where it would lead.

Nothing here holds the right answer of the sum. "Ten" is one where the sum is ten, so such sums have their own ways.
"""

from saythesum.core.sums import Kind, Part, Sum
from saythesum.dialogue import messages as say
from saythesum.dialogue.tutor.feedback import how_it_stands

LARGEST_JUMP_MADE = 19
"""A larger number was no jump: where it would lead is no help."""


def about_part(asked: Sum, part: Part, given: int) -> tuple[say.Message, ...]:
    match part:
        case Part.NEXT_TEN:
            return (_about_ten(asked, given),)
        case Part.GAP:
            return _about_gap(asked, given)
        case Part.REST:
            return (_about_rest(asked, given),)
        case Part.ONES:
            return (_about_ones(asked, given),)
        case Part.TOTAL | Part.WHOLE:
            return _about_total(asked, given)


def is_ones_for_gap(asked: Sum, part: Part, given: int) -> bool:
    """The ones of the start for the gap: then the bond is asked, beginning from what was said."""
    is_told_apart = asked.start >= 10 and given != asked.amount
    return part is Part.GAP and given == asked.ones and is_told_apart


def _about_ten(asked: Sum, given: int) -> say.Message:
    if given % 10:
        return say.NotATen(given)
    return say.TenNotAfter(given, asked.start) if given <= asked.start else say.TenTooFar(given, asked.start)


def _about_gap(asked: Sum, given: int) -> tuple[say.Message, ...]:
    if is_ones_for_gap(asked, Part.GAP, given):
        return (say.EndsIn(asked.start),)
    if given == asked.amount:
        return (say.GapIsAll(asked),)
    if given <= LARGEST_JUMP_MADE:
        return (say.GapReaches(asked, given),)
    return (say.MoreThanTen(given),) if asked.total != 10 else ()


def _about_rest(asked: Sum, given: int) -> say.Message:
    if given > asked.amount:
        return say.MoreThanAll(given, asked.amount)
    if asked.gap + given == asked.total:
        return say.GapIsUsed(asked, given)  # 5 + 6: "five and six is eleven" would say the answer
    return say.RestMakes(asked, given)


def _about_ones(asked: Sum, given: int) -> say.Message:
    if given > 10:
        return say.MoreThanTen(given)
    return say.OnesLess(given, asked.ones) if given < asked.ones else say.OnesMake(asked, given)


def _about_total(asked: Sum, given: int) -> tuple[say.Message, ...]:
    if asked.kind is Kind.LANDING:
        return (*how_it_stands(asked, given), say.GapLands(asked))
    if asked.kind is Kind.CROSSING:
        ten, more = asked.next_ten, asked.rest
    else:
        ten, more = asked.tens, asked.ones + asked.amount
    if given in (ten, more):
        return (say.OnePart(given, more if given == ten else ten),)
    return (say.PartsMake(ten, more, given),)
