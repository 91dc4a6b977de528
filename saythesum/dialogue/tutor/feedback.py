"""True things to say about a wrong number: never about the pupil, never with the right answer in them."""

from dataclasses import dataclass

from saythesum.core.comparison import NAMING_THE_TEN, Stand, Standing, standing_of
from saythesum.core.mistakes.adding import deciding
from saythesum.core.mistakes.adding_patterns import HelpFrom
from saythesum.core.records.rows import Answer
from saythesum.core.sums import Part, Sum, parts_of
from saythesum.dialogue import messages as say


@dataclass(frozen=True, slots=True)
class FirstHelp:
    """What a wrong whole answer is met with."""

    part: Part
    """Where help begins; at the whole sum it is a fresh look at the same question."""
    telling: tuple[say.Message, ...]
    """True of the number, and of every pattern that fits it."""


def first_help(answer: Answer) -> FirstHelp:
    """The help that all patterns behind the answer share; where they share none, or none fits, a fresh look."""
    helps = {_help(pattern.help, answer.sum, answer.given) for pattern in deciding(answer.could_be)}
    if len(helps) == 1 and not answer.close_to:
        return helps.pop()
    return FirstHelp(Part.WHOLE, how_it_stands(answer.sum, answer.given))


def how_it_stands(asked: Sum, given: int) -> tuple[say.Message, ...]:
    """Holds whatever led to the number."""
    return (say.Stands(asked, given, standing_of(asked, given)),)


def first_step(answer: Answer) -> Part:
    """Where the steps begin after a wrong whole answer; only for sums that have steps."""
    help = first_help(answer)
    return help.part if help.part is not Part.WHOLE else _first_part(answer.sum, answer.given)


def names_the_ten(telling: tuple[say.Message, ...]) -> bool:
    return any(isinstance(message, say.Stands) and message.stand.standing in NAMING_THE_TEN for message in telling)


def _help(begins: HelpFrom, asked: Sum, given: int) -> FirstHelp:
    match begins:
        case HelpFrom.STEPS:
            return FirstHelp(_first_part(asked, given), how_it_stands(asked, given))
        case HelpFrom.GAP:
            part = Part.GAP if Part.GAP in parts_of(asked) else _first_part(asked, given)
            return FirstHelp(part, how_it_stands(asked, given))
        case HelpFrom.REST:
            return FirstHelp(Part.REST, (say.ReachedTen(asked),))
        case HelpFrom.USED_ALL_AGAIN:
            return FirstHelp(Part.GAP, (_ten_and_all(asked, given),))
        case HelpFrom.USED_GAP_AGAIN:
            return FirstHelp(Part.REST, (say.TenAndGap(asked),))
        case HelpFrom.OTHER_AMOUNT:
            return FirstHelp(Part.WHOLE, _was_added(asked, given))
        case HelpFrom.ADDING_GOES_UP if given < asked.start:
            return FirstHelp(Part.WHOLE, (say.AddingGoesUp(given, asked.start),))
        case _:
            return FirstHelp(Part.WHOLE, how_it_stands(asked, given) + _beside(begins, asked, given))


def _first_part(asked: Sum, given: int) -> Part:
    """Where the steps begin: no need to ask for a ten that was just named. A sum without steps is looked at again."""
    parts = parts_of(asked)
    if Part.REST in parts and names_the_ten(how_it_stands(asked, given)):
        return Part.GAP
    return parts[0] if parts else Part.WHOLE


def _ten_and_all(asked: Sum, given: int) -> say.Message:
    """After a hundred, "a hundred and five is a hundred and five" would be no news."""
    if asked.next_ten % 100 == 0:
        return say.Stands(asked, given, Stand(Standing.PAST_TEN, asked.amount))
    return say.TenAndAll(asked)


def _was_added(asked: Sum, given: int) -> tuple[say.Message, ...]:
    added = given - asked.start
    is_said = added > 0 and added != asked.total and asked.start < 100
    return (say.WasAdded(asked, given),) if is_said else how_it_stands(asked, given)


def _beside(begins: HelpFrom, asked: Sum, given: int) -> tuple[say.Message, ...]:
    """What a fresh look adds to how the number stands; past a hundred the numbers alone are enough to hold in mind."""
    if asked.start >= 100:
        return ()
    match begins:
        case HelpFrom.LESS_THAN_TEN if given > asked.start + 10 and asked.total != 10:
            return (say.LessThanTen(asked.amount),)
        case HelpFrom.ADDING_IS_STEPS:
            return (say.AddingIsSteps(asked.amount),)
        case HelpFrom.TENS_TOO:
            return (say.TensToo(),)
        case HelpFrom.NUMBER_IN_TENS if _has_tens(given) and asked.total >= 10:
            return (say.InTens(given),)
        case HelpFrom.START_IN_TENS if _has_tens(asked.start) and given < 100:
            return (say.InTens(asked.start),)
        case HelpFrom.PLACE_AGAIN:
            return (say.PlaceAgain(asked),)
        case HelpFrom.DIGITS if given >= 10 and str(asked.total) not in list(str(given)):
            return (say.Digits(given),)
        case _:
            return ()


def _has_tens(value: int) -> bool:
    """And no hundreds: with them the sentence would be too long to hold in mind."""
    return 10 <= value < 100
