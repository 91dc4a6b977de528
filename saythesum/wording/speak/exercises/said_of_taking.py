"""In taking away: true things about a wrong answer to the whole, or to one guided part."""

from typing import assert_never

from saythesum.core.exercises import taking_remarks as remarks
from saythesum.core.exercises.taking_help import FAR_STEPS
from saythesum.core.exercises.taking_remarks import Back
from saythesum.core.sums import Kind
from saythesum.settings import Length
from saythesum.wording.numbers import words
from saythesum.wording.speak.exercises.said_taking import makes
from saythesum.wording.speak.lengths import begun, by_length, capital, joined


def of_whole_back(message: remarks.OfWholeBack, length: Length) -> str:
    match message:
        case remarks.StandsBack():
            return by_length(length, _stands_briefly(message), *[_stands(message)] * 2)
        case remarks.TakingGoesDown():
            return by_length(length, "", *["Taking away goes down."] * 2)
        case remarks.ReachedTenBack(asked=asked):
            gets = f"{begun(asked.gap)} gets you there."
            return by_length(length, gets, *[makes(asked.start, asked.gap)] * 2)
        case remarks.TenLessAll(asked=asked):
            all_of_it = makes(asked.next_ten, asked.amount)
            full = f"{all_of_it.removesuffix('.')}, that's true. But we start at {words(asked.start)}."
            return by_length(length, "", all_of_it, full)
        case remarks.TenLessGap(asked=asked):
            gets = f"{begun(asked.gap)} gets you to {words(asked.next_ten)}."
            return by_length(length, gets, *[f"{makes(asked.next_ten, asked.gap)} {gets}"] * 2)
        case remarks.WasTaken(asked=asked, value=value):
            taken = f"{makes(asked.start, asked.start - value)} {_taking(asked.amount)}"
            return by_length(length, f"That's taking away {words(asked.start - value)}.", taken, taken)
        case remarks.TensStayToo():
            return by_length(length, "Tens count too.", *["The tens count too."] * 2)
        case remarks.PlaceBackAgain(asked=asked):
            place = f"Row {words(asked.start)}, take away {words(asked.amount)}."
            return by_length(length, "", place, place)
        case _:
            assert_never(message)


def _taking(amount: int) -> str:
    return f"We're taking away {words(amount)}."


def _stands_briefly(message: remarks.StandsBack) -> str:
    """Without the number, which was said back a moment ago."""
    start = words(message.asked.start)
    match message.back:
        case Back.AT_START:
            return "That's the start."
        case Back.BELOW_START:
            return f"Less than {start}."
        case Back.MORE_THAN_TEN_BELOW | Back.FAR_BELOW:
            return f"Far below {start}." if message.asked.start - message.value >= FAR_STEPS else "Too far."
        case Back.TOO_MANY | Back.TOO_FEW:
            return "Too many." if message.back is Back.TOO_MANY else "Too few."
        case _:
            return capital(_stands(message).removeprefix(f"{begun(message.value)} is "))


def _stands(message: remarks.StandsBack) -> str:
    value, by = begun(message.value), words(message.by)
    start, ten = words(message.asked.start), words(message.asked.next_ten)
    match message.back:
        case Back.ABOVE_START:
            return f"{value} is more than {start}."
        case Back.AT_START:
            return f"{value} is where we start."
        case Back.ABOVE_TEN:
            return f"{value} is {by} past {ten}."
        case Back.AT_TEN:
            return f"{value} is the ten before {start}."
        case Back.BELOW_TEN:
            return f"{value} is {by} less than {ten}."
        case Back.BELOW_START:
            return f"{value} is {by} less than {start}."
        case Back.MORE_THAN_TEN_BELOW:
            return f"{value} is more than ten below {start}."
        case Back.FAR_BELOW:
            return f"{value} is far below {start}."
        case Back.TOO_MANY:
            return f"{value} is too many to stay."
        case Back.TOO_FEW:
            return f"{value} is too few to stay."
        case _:
            assert_never(message.back)


def of_part_back(message: remarks.OfPartBack, length: Length) -> str:
    match message:
        case remarks.TenNotBefore(value=value, start=start):
            return f"{begun(value)} comes after {words(start)}."
        case remarks.TenTooFarBack(value=value, start=start):
            too_far = f"{begun(value)} is more than ten below {words(start)}."
            return by_length(length, f"{begun(value)} is too far.", too_far, too_far)
        case remarks.GapLeadsTo() | remarks.GapBackIsAll() | remarks.GapReachesBack():
            return _of_gap(message, length)
        case remarks.AmountMakes(asked=asked, value=value):
            both = f"{begun(asked.gap)} and {words(value)} is {words(asked.gap + value)}."
            return by_length(length, both, *[f"{both} {_taking(asked.amount)}"] * 2)
        case _:
            return _of_last(message, length)


def _of_gap(message: remarks.GapLeadsTo | remarks.GapBackIsAll | remarks.GapReachesBack, length: Length) -> str:
    asked = message.asked
    ten = "the ten" if asked.kind is Kind.LANDING else words(asked.next_ten)
    match message:
        case remarks.GapLeadsTo(value=value):
            reached = asked.start - value
            side = "past" if reached < asked.next_ten else "before"
            return by_length(
                length, f"That makes {words(reached)}.", *[f"{makes(asked.start, value)} That's {side} {ten}."] * 2
            )
        case remarks.GapBackIsAll():
            past = f"goes past {ten}."
            all_of_it = f"{begun(asked.amount)} is all of it. That {past}"
            return by_length(length, f"{begun(asked.amount)} {past}", all_of_it, all_of_it)
        case remarks.GapReachesBack():
            return by_length(length, "", *[f"{begun(asked.gap)} gets you to the ten."] * 2)
        case _:
            assert_never(message)


_OfLast = (
    remarks.TakenFrom
    | remarks.TakenFromAbove
    | remarks.TakenFarBelow
    | remarks.IsTheRest
    | remarks.WrongWay
    | remarks.NotWhatStays
)


def _of_last(message: _OfLast, length: Length) -> str:
    match message:
        case remarks.TakenFrom(whole=whole, amount=amount, value=value):
            return by_length(
                length,
                f"That's taking away {words(whole - value)}.",
                *[f"{makes(whole, whole - value)} {_taking(amount)}"] * 2,
            )
        case remarks.TakenFromAbove(whole=whole, value=value):
            if value == whole:
                return by_length(length, "Nothing is taken there.", *[f"{begun(value)} is with nothing taken."] * 2)
            more = f"ore than {words(whole)}."
            return by_length(length, f"M{more}", *[f"{begun(value)} is m{more}"] * 2)
        case remarks.TakenFarBelow(whole=whole, value=value):
            far = f"ar below {words(whole)}."
            return by_length(length, f"F{far}", *[f"{begun(value)} is f{far}"] * 2)
        case remarks.IsTheRest(value=value):
            return f"{begun(value)} is what we take."
        case remarks.WrongWay(asked=asked):
            put_on = f"{capital(joined(asked.next_ten, asked.rest))} is {words(asked.next_ten + asked.rest)}."
            if asked.next_ten % 100 == 0:
                put_on = f"{begun(asked.next_ten + asked.rest)} is more than {words(asked.next_ten)}."
            return by_length(length, "Taking away goes down.", *[f"{put_on} Taking away goes down."] * 2)
        case remarks.NotWhatStays(value=value, is_too_many=is_too_many):
            return f"{begun(value)} is too {'many' if is_too_many else 'few'}."
        case _:
            assert_never(message)
