"""Verdicts, and true things about a wrong number. Never about the pupil, never a scolding, no gushing."""

from typing import assert_never

from saythesum.core.standing import Standing
from saythesum.core.sums import Kind, Sum
from saythesum.dialogue import messages as say
from saythesum.settings import Length
from saythesum.wording.lengths import begun, by_length, capital, joined
from saythesum.wording.numbers import words


def verdict(message: say.Verdict, length: Length) -> str:
    match message:
        case say.Right():
            return by_length(length, "Yes.", f"Yes. {_two_jumps(message)}".strip(), f"Yes. {_in_full(message)}")
        case say.NotYet():
            return "Not yet."
        case say.TenGiven(ten=ten):
            return f"{begun(ten)}."
        case say.GapGiven():
            return _gap_given(message, length)
        case say.OnesGiven(value=value):
            return f"{begun(value)}."
        case say.LeftForAnotherDay():
            return "We'll have that one another day."
        case _:
            assert_never(message)


def _two_jumps(right: say.Right) -> str:
    asked = right.asked
    if not right.is_by_steps or asked.kind is not Kind.CROSSING:
        return ""
    return capital(f"{words(asked.gap)}, then {words(asked.rest)}.")


def _in_full(right: say.Right) -> str:
    asked = right.asked
    if asked.kind is Kind.LANDING:
        return "Right on the ten, nothing left over."
    return _two_jumps(right) or f"{begun(asked.start)} add {words(asked.amount)} is {words(asked.total)}."


def _gap_given(given: say.GapGiven, length: Length) -> str:
    asked = given.asked
    gap = words(asked.gap)
    if asked.kind is Kind.LANDING:
        return by_length(length, f"{capital(gap)}.", f"Yes, {gap}.", f"Yes, {gap}.")
    reached = f"{words(asked.start)} and {gap} is {words(asked.next_ten)}"
    used = f"{capital(gap)} of the {words(asked.amount)}"
    if given.is_ten_by_pupil:
        return by_length(length, f"{used}.", f"{used}.", f"{capital(reached)}. {used} are used.")
    return by_length(length, f"{capital(gap)}.", f"Yes, {gap}.", f"Yes, {reached}. {used} are used.")


def of_whole(message: say.OfWhole, length: Length) -> str:
    match message:
        case say.Stands():
            return by_length(length, _stands_briefly(message), _stands(message), _stands(message))
        case say.AddingGoesUp(value=value, start=start):
            less = f"{begun(value)} is less than {words(start)}."
            goes_up = f"{less} Adding goes up."
            return by_length(length, f"Less than {words(start)}.", goes_up, goes_up)
        case say.TenAndAll(asked=asked):
            all_of_it = capital(f"{joined(asked.next_ten, asked.amount)} is {words(asked.next_ten + asked.amount)}")
            full = f"{all_of_it}, that's true. But we start at {words(asked.start)}."
            return by_length(length, "", f"{all_of_it}.", full)
        case say.TenAndGap(asked=asked):
            return by_length(length, capital(_gap_got(asked)), _ten_and_gap(asked), _ten_and_gap(asked))
        case say.ReachedTen(asked=asked):
            reached = f"{begun(asked.start)} and {words(asked.gap)} is {words(asked.next_ten)}."
            return by_length(length, f"{begun(asked.gap)} got you there.", reached, reached)
        case _:
            assert_never(message)


def _gap_got(asked: Sum) -> str:
    return f"{words(asked.gap)} got you to {words(asked.next_ten)}."


def _ten_and_gap(asked: Sum) -> str:
    """After a hundred, "a hundred and two is a hundred and two" would be no news."""
    reached = words(asked.next_ten + asked.gap)
    if asked.next_ten % 100 == 0:
        return capital(f"{reached}: {_gap_got(asked)}")
    return capital(f"{joined(asked.next_ten, asked.gap)} is {reached}. {capital(_gap_got(asked))}")


def _stands_briefly(message: say.Stands) -> str:
    """Without the number, which was said back a moment ago."""
    by, start, ten = words(message.stand.by), words(message.asked.start), words(message.asked.next_ten)
    match message.stand.standing:
        case Standing.LESS_THAN_START:
            return f"Less than {start}."
        case Standing.AT_START:
            return "That's the start."
        case Standing.BEFORE_TEN:
            return capital(f"{by} before {ten}.")
        case Standing.AT_TEN:
            return "That's the next ten."
        case Standing.PAST_TEN:
            return capital(f"{by} past {ten}.")
        case Standing.MORE_THAN_START:
            return capital(f"{by} more than {start}.")
        case Standing.FAR_PAST_START | Standing.TOO_FAR:
            return f"Too far past {start}."


def _stands(message: say.Stands) -> str:
    value, by = begun(message.value), words(message.stand.by)
    start, ten = words(message.asked.start), words(message.asked.next_ten)
    match message.stand.standing:
        case Standing.LESS_THAN_START:
            return f"{value} is less than {start}."
        case Standing.AT_START:
            return f"{value} is where we start."
        case Standing.BEFORE_TEN:
            return f"{value} is {by} before {ten}."
        case Standing.AT_TEN:
            return f"{value} is the next ten."
        case Standing.PAST_TEN:
            return f"{value} is {by} past {ten}."
        case Standing.MORE_THAN_START:
            return f"{value} is {by} more than {start}."
        case Standing.FAR_PAST_START | Standing.TOO_FAR:
            return f"{value} is too far past {start}."


def of_part(message: say.OfPart, length: Length) -> str:
    match message:
        case say.NotATen(value=value):
            return f"{begun(value)} is not a ten."
        case say.TenNotAfter(value=value, start=start):
            return f"{begun(value)} comes before {words(start)}."
        case say.TenTooFar(value=value, start=start):
            too_far = f"{begun(value)} is more than ten past {words(start)}."
            return by_length(length, f"{begun(value)} is too far.", too_far, too_far)
        case say.GapReaches():
            return _gap_reaches(message, length)
        case say.GapIsAll(asked=asked):
            past = f"goes past {words(asked.next_ten)}."
            all_of_it = f"{begun(asked.amount)} is all of it. That {past}"
            return by_length(length, f"{begun(asked.amount)} {past}", all_of_it, all_of_it)
        case say.MoreThanTen(value=value):
            return f"{begun(value)} is more than ten."
        case say.RestMakes(asked=asked, value=value):
            makes = f"{begun(asked.gap)} and {words(value)} is {words(asked.gap + value)}."
            return f"{makes} We're adding {words(asked.amount)}."
        case say.MoreThanAll(value=value, amount=amount):
            return f"{begun(value)} is more than {words(amount)}."
        case say.OnesAgain(ones=ones, amount=amount):
            return f"Start at {words(ones)}, then {words(amount)} more."
        case say.TotalAgain(asked=asked):
            return _total_again(asked, length)
        case _:
            assert_never(message)


def _gap_reaches(message: say.GapReaches, length: Length) -> str:
    asked = message.asked
    reached = asked.start + message.value
    reaches = f"{begun(asked.start)} and {words(message.value)} is {words(reached)}."
    ten = "the next ten" if asked.kind is Kind.LANDING else words(asked.next_ten)
    side = "past" if reached > asked.next_ten else "before"
    with_side = f"{reaches} That's {side} {ten}."
    return by_length(length, f"That makes {words(reached)}.", with_side, with_side)


def _total_again(asked: Sum, length: Length) -> str:
    """Brief wording leaves it to the question, which says the same."""
    match asked.kind:
        case Kind.CROSSING:
            at, more = asked.next_ten, asked.rest
        case Kind.LANDING:
            more_to_ten = f"{begun(asked.start)}, and {words(asked.gap)} more"
            return by_length(
                length, f"{more_to_ten}.", f"{more_to_ten} to the next ten.", f"{more_to_ten} to the next ten."
            )
        case Kind.WITHIN:
            at, more = asked.tens, asked.ones + asked.amount
    again = f"You're at {words(at)}, with {words(more)} more to add."
    return by_length(length, "", again, again)
