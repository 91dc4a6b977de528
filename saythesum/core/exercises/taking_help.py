"""Help with taking away: true things to say about a wrong number, and where the steps begin.

Never about the pupil. No sentence holds the right answer, so a number or a distance that is the same as the answer is
left out, and what is said in its place is less exact.
"""

from collections.abc import Callable, Mapping

from saythesum.core.exercises import bridge_remarks as anywhere
from saythesum.core.exercises import taking_remarks as remarks
from saythesum.core.exercises.exercise import Help, Remark
from saythesum.core.exercises.taking_remarks import Back
from saythesum.core.mistakes.pattern import HelpFrom
from saythesum.core.sums import Bridge, Kind, Part

FURTHEST_STEPS = 10
FAR_STEPS = 20
LARGEST_JUMP_MADE = 19
_NAMING_THE_TEN = frozenset({Back.ABOVE_TEN, Back.AT_TEN, Back.BELOW_TEN})


def compared(asked: Bridge, given: int) -> tuple[Remark, ...]:
    """True of the number, whatever led to it, and false of the right one."""
    back, by = _stand(asked, given)
    return (remarks.StandsBack(asked, given, back, by),)


def _stand(asked: Bridge, given: int) -> tuple[Back, int]:
    steps, ten, total = asked.start - given, asked.next_ten, asked.total
    if steps < 0:
        return Back.ABOVE_START, 0
    if steps == 0:
        return Back.AT_START, 0
    if asked.kind is Kind.CROSSING:
        by = abs(given - ten)
        if given >= ten:
            return (Back.ABOVE_TEN, by) if by else (Back.AT_TEN, 0)
        if by <= FURTHEST_STEPS and by != total:
            return Back.BELOW_TEN, by
    if steps >= FAR_STEPS:
        return Back.FAR_BELOW, 0
    if steps > FURTHEST_STEPS and total != FURTHEST_STEPS:
        return Back.MORE_THAN_TEN_BELOW, 0
    if steps <= FURTHEST_STEPS and steps != total:
        return Back.BELOW_START, steps
    return (Back.TOO_MANY if given > total else Back.TOO_FEW), 0


def names_the_ten(told: tuple[Remark, ...]) -> bool:
    return any(isinstance(remark, remarks.StandsBack) and remark.back in _NAMING_THE_TEN for remark in told)


def first_part(asked: Bridge, given: int) -> Part:
    """Where the steps begin. A ten that was just named is not asked for."""
    parts = asked.parts
    if not parts:
        return Part.WHOLE
    is_named = parts[0] is Part.TEN_BEFORE and names_the_ten(compared(asked, given))
    return parts[1] if is_named else parts[0]


def help_from(begins: HelpFrom, asked: Bridge, given: int) -> Help:
    is_through = Part.GAP in asked.parts
    match begins:
        case HelpFrom.STEPS:
            return Help(first_part(asked, given), _with_way(asked, given))
        case HelpFrom.GAP:
            return Help(Part.GAP if is_through else first_part(asked, given), compared(asked, given))
        case HelpFrom.REST if is_through:
            return Help(Part.REST, (remarks.ReachedTenBack(asked),))
        case HelpFrom.USED_ALL_AGAIN if is_through:
            return Help(Part.GAP, (remarks.TenLessAll(asked),))
        case HelpFrom.USED_GAP_AGAIN if is_through:
            return Help(Part.REST, (remarks.TenLessGap(asked),))
        case HelpFrom.REST | HelpFrom.USED_ALL_AGAIN | HelpFrom.USED_GAP_AGAIN:
            return Help(first_part(asked, given), compared(asked, given))
        case HelpFrom.OTHER_AMOUNT:
            return Help(Part.WHOLE, _was_taken(asked, given))
        case HelpFrom.LESS_THAN_TEN if given < asked.start - 10 and asked.total != 10:
            past_ten = remarks.StandsBack(asked, given, Back.MORE_THAN_TEN_BELOW)
            return Help(Part.WHOLE, (past_ten, anywhere.LessThanTen(asked.amount)))
        case HelpFrom.TAKING_GOES_DOWN:
            return Help(Part.WHOLE, _with_way(asked, given))
        case _:
            return Help(Part.WHOLE, compared(asked, given) + _added(begins, asked, given))


def fresh_look(begins: HelpFrom, asked: Bridge, given: int) -> tuple[Remark, ...]:
    help = help_from(begins, asked, given)
    return help.remarks if help.part is Part.WHOLE else compared(asked, given)


def before_telling(asked: Bridge, part: Part, given: int) -> tuple[Remark, ...]:
    """What is said of the wrong number before a question that tells mistakes apart."""
    if part is not Part.REST:
        return compared(asked, given)
    if given == asked.next_ten - asked.gap:
        return (remarks.TenLessGap(asked),)
    return (remarks.ReachedTenBack(asked),)  # true of any number, and where the rest is taken from


def taking_up(asked: Bridge, given: int) -> Part | None:
    """The question that goes on from what is right in the number: the ten was reached."""
    is_so = Part.REST in asked.parts and given in (asked.next_ten, asked.next_ten - asked.amount)
    return Part.REST if is_so else None


def foretold(mistake: str, asked: Bridge, part: Part) -> tuple[int, ...]:
    """The wrong answers to a step that the same mistake may give; none where it does not show there."""
    gives = _FORETOLD.get((mistake, part))
    if gives is None or part not in asked.parts:
        return ()
    right = asked.answer_to(part)
    return tuple(dict.fromkeys(number for number in gives(asked) if number >= 0 and number != right))


_FORETOLD: Mapping[tuple[str, Part], Callable[[Bridge], tuple[int, ...]]] = {
    ("ten-not-taken", Part.TEN_BEFORE): lambda asked: (asked.next_ten + 10,),
    ("extra-ten-taken", Part.TEN_BEFORE): lambda asked: (asked.next_ten - 10,),
    ("added", Part.TEN_BEFORE): lambda asked: (asked.next_ten + 10,),
    ("added", Part.GAP): lambda asked: (10 - asked.ones,),
    ("added", Part.ONES): lambda asked: (asked.ones + asked.amount,),
    ("number-repeated", Part.TEN_BEFORE): lambda asked: (asked.start,),
    ("number-repeated", Part.ONES): lambda asked: (asked.ones, asked.amount),
    ("start-reversed", Part.TEN_BEFORE): lambda asked: (10 * asked.ones,),
    ("teen-or-ty-start", Part.TEN_BEFORE): lambda asked: (10 * asked.ones,),
    ("start-counted", Part.GAP): lambda asked: (asked.gap + 1,),
    ("start-counted", Part.ONES): lambda asked: (asked.ones_total + 1,),
    ("one-too-many", Part.GAP): lambda asked: (asked.gap - 1,),
    ("one-too-many", Part.ONES): lambda asked: (asked.ones_total - 1,),
    ("stopped-at-the-ten", Part.REST): lambda asked: (0, asked.amount),
    ("whole-amount-after-bridging", Part.REST): lambda asked: (asked.amount,),
    ("first-jump-twice", Part.REST): lambda asked: (asked.gap,),
    ("did-not-compensate", Part.FROM_TEN): lambda asked: (asked.next_ten - 10,),
    ("fact-slip", Part.FROM_TEN): lambda asked: tuple(asked.next_ten - asked.amount + slip for slip in (-2, 2)),
    ("fact-slip", Part.REST): lambda asked: (asked.rest - 2, asked.rest + 2),
}
"""By a mistake's kept name, and where it shows. Our own choice, worked out from how the mistake comes about; those left
out show in no step."""


def _with_way(asked: Bridge, given: int) -> tuple[Remark, ...]:
    goes_down = (remarks.TakingGoesDown(),) if given > asked.start and asked.start < 100 else ()
    return (*compared(asked, given), *goes_down)


def _was_taken(asked: Bridge, given: int) -> tuple[Remark, ...]:
    taken = asked.start - given
    is_said = taken > 0 and taken != asked.total and asked.start < 100
    return (remarks.WasTaken(asked, given),) if is_said else compared(asked, given)


def _added(begins: HelpFrom, asked: Bridge, given: int) -> tuple[Remark, ...]:
    """What a fresh look adds to how the number stands; past a hundred the numbers alone are enough to hold in mind."""
    if asked.start >= 100:
        return ()
    match begins:
        case HelpFrom.TENS if asked.total >= 10:
            return (remarks.TensStayToo(),)
        case HelpFrom.NUMBER_IN_TENS if 10 <= given < 100 and asked.total >= 10:
            return (anywhere.InTens(given),)
        case HelpFrom.START_IN_TENS if asked.total > 10:
            return (anywhere.InTens(asked.start),)
        case HelpFrom.PLACE_AGAIN:
            return (remarks.PlaceBackAgain(asked),)
        case HelpFrom.DIGITS if given >= 10 and str(asked.total) not in list(str(given)):
            return (anywhere.Digits(given),)
        case _:
            return ()


def about_part(asked: Bridge, part: Part, given: int, to_join: tuple[int, int] | None) -> tuple[Remark, ...]:
    match part:
        case Part.TEN_BEFORE:
            return (_about_ten(asked, given),)
        case Part.GAP:
            return _about_gap(asked, given)
        case Part.REST:
            return _about_rest(asked, given)
        case Part.ONES:
            return _taken_from(asked, asked.ones or 10, asked.amount, given)
        case Part.FROM_TEN:
            return _taken_from(asked, asked.next_ten, asked.amount, given)
        case _ if to_join:
            return _about_joining(asked, *to_join, given)
        case _ if asked.kind is Kind.LANDING:
            return (*compared(asked, given), remarks.GapReachesBack(asked))
        case _:
            return _about_total(asked, given)


def _about_ten(asked: Bridge, given: int) -> Remark:
    if given % 10:
        return anywhere.NotATen(given)
    if given > asked.start:
        return remarks.TenNotBefore(given, asked.start)
    return remarks.TenTooFarBack(given, asked.start)


def _about_gap(asked: Bridge, given: int) -> tuple[Remark, ...]:
    if given == asked.amount:
        return (remarks.GapBackIsAll(asked),)
    if given <= min(LARGEST_JUMP_MADE, asked.start):
        return (remarks.GapLeadsTo(asked, given),)
    return (anywhere.MoreThanTen(given) if asked.total != 10 else remarks.NotWhatStays(given, is_too_many=True),)


def _about_rest(asked: Bridge, given: int) -> tuple[Remark, ...]:
    if given > asked.amount:
        return (anywhere.MoreThanAll(given, asked.amount),)
    if asked.gap + given == asked.total:
        return (remarks.NotWhatStays(given, given > asked.rest),)
    return (remarks.AmountMakes(asked, given),)


def _taken_from(asked: Bridge, whole: int, amount: int, given: int) -> tuple[Remark, ...]:
    """A wrong answer to `whole` take away `amount`."""
    taken = whole - given
    if asked.total in (taken, given):
        return (remarks.NotWhatStays(given, given > whole - amount),)
    if taken <= 0:
        return (remarks.TakenFromAbove(whole, given),)
    if taken > LARGEST_JUMP_MADE:
        return (remarks.TakenFarBelow(whole, given),)
    return (remarks.TakenFrom(whole, amount, given),)


def _about_joining(asked: Bridge, one: int, other: int, given: int) -> tuple[Remark, ...]:
    if given in (one, other):
        return (anywhere.OnePart(given, other if given == one else one),)
    if given - one == asked.total:
        return (remarks.NotWhatStays(given, is_too_many=True),)
    return (anywhere.PartsMake(one, other, given),)


def _about_total(asked: Bridge, given: int) -> tuple[Remark, ...]:
    if given == asked.rest:
        return (remarks.IsTheRest(given),)
    if given == asked.next_ten + asked.rest:
        return (remarks.WrongWay(asked),)
    return _taken_from(asked, asked.next_ten, asked.rest, given)
