"""True things to say about a wrong number: never about the pupil, never with the right answer in them."""

from saythesum.core.mistakes import HelpFrom, fitting
from saythesum.core.standing import NAMING_THE_TEN, Stand, Standing, standing_of
from saythesum.core.sums import Part, Sum
from saythesum.dialogue import messages as say


def about_whole(asked: Sum, given: int, *, is_plain: bool) -> tuple[say.Message, ...]:
    """About a wrong whole answer. Where no one mistake is plain: how the number stands, which holds for all."""
    families = {mistake.help for mistake in fitting(asked, given)}
    if is_plain and len(families) == 1:
        match families.pop():
            case HelpFrom.REST:
                return (say.ReachedTen(asked),)
            case HelpFrom.USED_ALL_AGAIN if asked.next_ten % 100 == 0:
                return (say.Stands(asked, given, Stand(Standing.PAST_TEN, asked.amount)),)
            case HelpFrom.USED_ALL_AGAIN:
                return (say.TenAndAll(asked),)
            case HelpFrom.USED_GAP_AGAIN:
                return (say.TenAndGap(asked),)
            case HelpFrom.ADDING_GOES_UP if given < asked.start:
                return (say.AddingGoesUp(given, asked.start),)
            case _:
                pass
    return (say.Stands(asked, given, standing_of(asked, given)),)


def names_the_ten(telling: tuple[say.Message, ...]) -> bool:
    return any(isinstance(message, say.Stands) and message.stand.standing in NAMING_THE_TEN for message in telling)


def about_part(asked: Sum, part: Part, given: int) -> tuple[say.Message, ...]:
    """About a wrong answer to one guided part; nothing where every true thing would give the answer away."""
    match part:
        case Part.NEXT_TEN:
            return _about_ten(asked, given)
        case Part.GAP:
            return _about_gap(asked, given)
        case Part.REST:
            return _about_rest(asked, given)
        case Part.ONES:
            return (say.OnesAgain(asked.ones, asked.amount),)
        case Part.TOTAL | Part.WHOLE:
            return (say.TotalAgain(asked),)


def _about_ten(asked: Sum, given: int) -> tuple[say.Message, ...]:
    if given % 10:
        return (say.NotATen(given),)
    if given <= asked.start:
        return (say.TenNotAfter(given, asked.start),)
    return (say.TenTooFar(given, asked.start),)


def _about_gap(asked: Sum, given: int) -> tuple[say.Message, ...]:
    if given > 10:
        return (say.MoreThanTen(given),) if asked.total != 10 else ()
    if given == asked.amount:
        return (say.GapIsAll(asked),)
    return (say.GapReaches(asked, given),)


def _about_rest(asked: Sum, given: int) -> tuple[say.Message, ...]:
    if given > asked.amount:
        return (say.MoreThanAll(given, asked.amount),)
    if asked.gap + given == asked.total:
        return ()  # 5 + 6: "five and six is eleven" would say the answer
    return (say.RestMakes(asked, given),)
