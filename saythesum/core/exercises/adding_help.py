"""Help with a sum: true things to say about a wrong number, and where the steps begin.

Never about the pupil, never with the right answer in it. Where the total is 10, saying "ten" would give the answer
away; those sums get separate remarks.
"""

from saythesum.core.exercises import bridge_remarks as remarks
from saythesum.core.exercises.comparison import NAMING_THE_TEN, Stand, Standing, standing_of
from saythesum.core.exercises.exercise import Help, Remark
from saythesum.core.exercises.telling_apart import before, small_questions
from saythesum.core.mistakes.pattern import HelpFrom
from saythesum.core.sums import Bridge, Kind, Part

LARGEST_JUMP_MADE = 19
"""A larger number cannot have been meant as a jump, so saying where it leads would not help."""


def compared(asked: Bridge, given: int) -> tuple[Remark, ...]:
    """True of the number, whatever led to it."""
    return (remarks.Stands(asked, given, standing_of(asked, given)),)


def names_the_ten(told: tuple[Remark, ...]) -> bool:
    return any(isinstance(remark, remarks.Stands) and remark.stand.standing in NAMING_THE_TEN for remark in told)


def unexplained(asked: Bridge, given: int) -> tuple[Remark, ...]:
    """Which amount leads to the number, where it can have been meant as a jump; else how the number stands."""
    was_added = _was_added(asked, given) if given - asked.start <= LARGEST_JUMP_MADE else ()
    return was_added or compared(asked, given)


def help_from(begins: HelpFrom, asked: Bridge, given: int) -> Help:
    small = _small_question(begins, asked, given)
    if small is not None:
        return Help(small, before(asked, small, given))
    match begins:
        case HelpFrom.STEPS:
            return Help(first_part(asked, given), compared(asked, given))
        case HelpFrom.GAP:
            part = Part.GAP if Part.GAP in asked.parts else first_part(asked, given)
            return Help(part, compared(asked, given))
        case HelpFrom.COUNT if Part.GAP in asked.parts:
            return Help(Part.GAP, compared(asked, given))
        case HelpFrom.COUNT | HelpFrom.TENS_OF_ONES | HelpFrom.TENS:
            return Help(first_part(asked, given), compared(asked, given))
        case HelpFrom.REST:
            return Help(Part.REST, (remarks.ReachedTen(asked),))
        case HelpFrom.USED_ALL_AGAIN:
            return Help(Part.GAP, (_ten_and_all(asked, given),))
        case HelpFrom.USED_GAP_AGAIN:
            return Help(Part.REST, (remarks.TenAndGap(asked),))
        case HelpFrom.OTHER_AMOUNT if not _was_added(asked, given):
            return Help(first_part(asked, given), compared(asked, given))
        case HelpFrom.OTHER_AMOUNT:
            return Help(Part.WHOLE, _was_added(asked, given))
        case HelpFrom.ADDING_GOES_UP if given < asked.start:
            return Help(Part.WHOLE, (remarks.AddingGoesUp(given, asked.start),))
        case _:
            return Help(Part.WHOLE, fresh_look(begins, asked, given))


def fresh_look(begins: HelpFrom, asked: Bridge, given: int) -> tuple[Remark, ...]:
    """What is said before the whole is asked again."""
    return compared(asked, given) + _added(begins, asked, given)


_SMALL = {
    HelpFrom.COUNT: Part.ONE_MORE,
    HelpFrom.TENS_OF_ONES: Part.TENS_OF_ONES,
    HelpFrom.TENS: Part.TENS,
    HelpFrom.TENS_TOO: Part.TENS,
    HelpFrom.START_TURNED: Part.TENS,
    HelpFrom.NUMBER_IN_TENS: Part.TENS,
}
"""The small question that each begins with, where the sum has it."""


def _small_question(begins: HelpFrom, asked: Bridge, given: int) -> Part | None:
    """A number that is turned round has its tens looked at, not those of the start."""
    part = _SMALL.get(begins)
    is_number_itself = begins is HelpFrom.NUMBER_IN_TENS and given >= 10
    return part if part in small_questions(asked) and not is_number_itself else None


def first_part(asked: Bridge, given: int) -> Part:
    """Where the steps begin. A ten that was just named is not asked for; a sum without steps is looked at again."""
    parts = asked.parts
    if Part.REST in parts and names_the_ten(compared(asked, given)):
        return Part.GAP
    return parts[0] if parts else Part.WHOLE


def _ten_and_all(asked: Bridge, given: int) -> Remark:
    """After a hundred, "a hundred and five is a hundred and five" would be no news."""
    if asked.next_ten % 100 == 0:
        return remarks.Stands(asked, given, Stand(Standing.PAST_TEN, asked.amount))
    return remarks.TenAndAll(asked)


def _was_added(asked: Bridge, given: int) -> tuple[Remark, ...]:
    added = given - asked.start
    is_easy = max(asked.start, given) < 100 or (asked.start < 100 and added % 10 == 0)
    is_said = added > 0 and added != asked.total and is_easy
    return (remarks.WasAdded(asked, given),) if is_said else ()


def _added(begins: HelpFrom, asked: Bridge, given: int) -> tuple[Remark, ...]:
    """What a fresh look adds to how the number stands; past a hundred the numbers alone are enough to hold in mind."""
    if asked.start >= 100:
        return ()
    match begins:
        case HelpFrom.LESS_THAN_TEN if given > asked.start + 10 and asked.total != 10:
            return (remarks.LessThanTen(asked.amount),)
        case HelpFrom.ADDING_IS_STEPS:
            return (remarks.AddingIsSteps(asked.amount),)
        case HelpFrom.TENS_TOO:
            return (remarks.TensToo(),)
        case HelpFrom.NUMBER_IN_TENS if _has_tens(given) and asked.total >= 10:
            return (remarks.InTens(given),)
        case HelpFrom.START_IN_TENS | HelpFrom.START_TURNED if _has_tens(asked.start) and given < 100:
            return (remarks.InTens(asked.start),)
        case HelpFrom.PLACE_AGAIN:
            return (remarks.PlaceAgain(asked),)
        case HelpFrom.DIGITS if given >= 10 and str(asked.total) not in list(str(given)):
            return (remarks.Digits(given),)
        case _:
            return ()


def _has_tens(value: int) -> bool:
    """A number with hundreds would make the sentence too long to hold in mind."""
    return 10 <= value < 100


def about_part(asked: Bridge, part: Part, given: int) -> tuple[Remark, ...]:
    match part:
        case Part.NEXT_TEN:
            return (_about_ten(asked, given),)
        case Part.GAP:
            return _about_gap(asked, given)
        case Part.REST:
            return (_about_rest(asked, given),)
        case Part.ONES:
            return (_about_ones(asked, given),)
        case Part.TENS | Part.TENS_OF_ONES:
            return (_about_tens(asked, given),)
        case Part.ONE_MORE:
            return (_about_one_more(asked, given),)
        case _:
            return _about_total(asked, given)


def is_ones_for_gap(asked: Bridge, part: Part | None, given: int | None) -> bool:
    """The pupil gave the ones of the start for the gap: then the bond is asked, beginning with the number they said."""
    is_told_apart = asked.start >= 10 and given != asked.amount
    return part is Part.GAP and given == asked.ones and is_told_apart


def _about_ten(asked: Bridge, given: int) -> Remark:
    if given % 10:
        return remarks.NotATen(given)
    return remarks.TenNotAfter(given, asked.start) if given <= asked.start else remarks.TenTooFar(given, asked.start)


def _about_gap(asked: Bridge, given: int) -> tuple[Remark, ...]:
    if is_ones_for_gap(asked, Part.GAP, given):
        return (remarks.EndsIn(asked.start),)
    if given == asked.amount:
        return (remarks.GapIsAll(asked),)
    if given <= LARGEST_JUMP_MADE:
        return (remarks.GapReaches(asked, given),)
    return (remarks.MoreThanTen(given),) if asked.total != 10 else ()


def _about_rest(asked: Bridge, given: int) -> Remark:
    if given > asked.amount:
        return remarks.MoreThanAll(given, asked.amount)
    if asked.gap + given == asked.total:
        return remarks.GapIsUsed(asked, given)  # 5 + 6: "five and six is eleven" would say the answer
    return remarks.RestMakes(asked, given)


def _about_tens(asked: Bridge, given: int) -> Remark:
    """ "Thirty" for three tens: it is said back as tens, and asked once more."""
    if 10 * given == asked.total:
        return remarks.TensTooMany(given)
    if given < 10:
        return remarks.TensMake(given)
    return remarks.InTens(given) if given in (asked.tens, 10) else remarks.MoreThanTen(given)


def _about_one_more(asked: Bridge, given: int) -> Remark:
    steps = given - asked.start
    if 1 < steps <= 10:
        return remarks.Stands(asked, given, Stand(Standing.MORE_THAN_START, steps))
    return remarks.Stands(asked, given, standing_of(asked, given))


def _about_ones(asked: Bridge, given: int) -> Remark:
    if asked.kind is Kind.WITHIN and given > 10:
        return remarks.MoreThanTen(given)
    if given > asked.ones + LARGEST_JUMP_MADE:
        return remarks.OnesFar(given, asked.ones)
    return remarks.OnesLess(given, asked.ones) if given < asked.ones else remarks.OnesMake(asked, given)


def _about_total(asked: Bridge, given: int) -> tuple[Remark, ...]:
    if asked.kind is Kind.LANDING:
        return (*compared(asked, given), remarks.GapLands(asked))
    if asked.kind is Kind.CROSSING:
        ten, more = asked.next_ten, asked.rest
    else:
        ten, more = asked.tens, asked.ones + asked.amount
    if given in (ten, more):
        return (remarks.OnePart(given, more if given == ten else ten),)
    return (remarks.PartsMake(ten, more, given),)
