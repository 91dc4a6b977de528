"""In adding: true things about a wrong whole answer. Never about the pupil, never a scolding, no gushing."""

from typing import TypeAlias, assert_never

from saythesum.core.exercises import bridge_remarks as remarks
from saythesum.core.exercises.comparison import Standing
from saythesum.core.sums import Bridge
from saythesum.settings import Length
from saythesum.wording.numbers import in_tens, words
from saythesum.wording.speak.lengths import begun, by_length, capital, joined


def of_whole(message: remarks.OfWhole, length: Length) -> str:
    match message:
        case remarks.Stands():
            return by_length(length, _stands_briefly(message), _stands(message), _stands(message))
        case remarks.AddingGoesUp(value=value, start=start):
            less = f"{begun(value)} is less than {words(start)}."
            goes_up = f"{less} Adding goes up."
            return by_length(length, f"Less than {words(start)}.", goes_up, goes_up)
        case remarks.TenAndAll() | remarks.TenAndGap() | remarks.ReachedTen():
            return _at_the_ten(message, length)
        case remarks.GapGets(asked=asked):
            return capital(_gap_gets(asked))
        case remarks.OnesMakeUp(asked=asked):
            ones = f"{begun(asked.ones)} and {words(asked.amount)} is {words(asked.ones_total)}."
            return by_length(length, ones, f"{ones} The tens count too.", f"{ones} The tens count too.")
        case remarks.WasAdded():
            return _was_added(message, length)
        case _:
            return _addition(message, length)


def _at_the_ten(message: remarks.TenAndAll | remarks.TenAndGap | remarks.ReachedTen, length: Length) -> str:
    asked = message.asked
    match message:
        case remarks.TenAndAll():
            all_of_it = capital(f"{joined(asked.next_ten, asked.amount)} is {words(asked.next_ten + asked.amount)}")
            full = f"{all_of_it}, that's true. But we start at {words(asked.start)}."
            return by_length(length, "", f"{all_of_it}.", full)
        case remarks.TenAndGap():
            return by_length(length, capital(_gap_gets(asked)), _ten_and_gap(asked), _ten_and_gap_in_full(asked))
        case remarks.ReachedTen():
            reached = f"{begun(asked.start)} and {words(asked.gap)} is {words(asked.next_ten)}."
            return by_length(length, f"{begun(asked.gap)} gets you there.", reached, reached)
        case _:
            assert_never(message)


def _gap_gets(asked: Bridge) -> str:
    return f"{words(asked.gap)} gets you to {words(asked.next_ten)}."


def _ten_and_gap(asked: Bridge) -> str:
    """After a hundred, "a hundred and two is a hundred and two" would be no news."""
    reached = words(asked.next_ten + asked.gap)
    if asked.next_ten % 100 == 0:
        return capital(f"{reached}: {_gap_gets(asked)}")
    return capital(f"{joined(asked.next_ten, asked.gap)} is {reached}. {capital(_gap_gets(asked))}")


def _ten_and_gap_in_full(asked: Bridge) -> str:
    if asked.next_ten % 100:
        return _ten_and_gap(asked)
    gap = words(asked.gap)
    past = f"{words(asked.next_ten + asked.gap)} is {gap} past {words(asked.next_ten)}."
    return capital(f"{past} {capital(gap)} gets you there.")


def _was_added(message: remarks.WasAdded, length: Length) -> str:
    asked = message.asked
    added, amount = words(message.value - asked.start), words(asked.amount)
    makes = f"{begun(asked.start)} and {added} is {words(message.value)}"
    return by_length(
        length,
        f"That's adding {added}.",
        f"{makes}. We're adding {amount}.",
        f"{makes}, that's true. But we're adding {amount}.",
    )


_Addition: TypeAlias = (
    remarks.LessThanTen | remarks.AddingIsSteps | remarks.TensToo | remarks.InTens | remarks.PlaceAgain | remarks.Digits
)


def _addition(message: _Addition, length: Length) -> str:
    """What is added to the sentence that compares the number."""
    match message:
        case remarks.LessThanTen(amount=amount):
            less = f"{begun(amount)} is less than ten."
            return by_length(length, "", less, less)
        case remarks.AddingIsSteps(amount=amount):
            steps = f"{words(amount)} {'step' if amount == 1 else 'steps'}."
            is_steps = f"Adding {words(amount)} is {steps}"
            return by_length(length, f"Go {steps}", is_steps, is_steps)
        case remarks.TensToo():
            return "The tens count too."
        case remarks.InTens(value=value):
            is_so = f"{begun(value)} is {in_tens(value)}."
            return by_length(length, f"{capital(in_tens(value, ', '))}.", is_so, is_so)
        case remarks.PlaceAgain(asked=asked):
            place = f"Row {words(asked.start)}, add {words(asked.amount)}."
            return by_length(length, "", place, place)
        case remarks.Digits(value=value):
            digits = ", ".join(words(int(digit)) for digit in str(value))
            return by_length(length, f"{capital(digits)}.", f"The keys: {digits}.", f"The keys: {digits}.")
        case _:
            assert_never(message)


def _stands_briefly(message: remarks.Stands) -> str:
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
        case Standing.PAST_AMOUNT | Standing.MORE_THAN_TEN_PAST:
            return f"Too far past {start}."
        case Standing.FAR_PAST_START:
            return f"Far past {start}."
        case _:
            assert_never(message.stand.standing)


def _stands(message: remarks.Stands) -> str:
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
        case Standing.PAST_AMOUNT:
            return f"{value} is too far past {start}."
        case Standing.MORE_THAN_TEN_PAST:
            return f"{value} is more than ten past {start}."
        case Standing.FAR_PAST_START:
            return f"{value} is far past {start}."
        case _:
            assert_never(message.stand.standing)
