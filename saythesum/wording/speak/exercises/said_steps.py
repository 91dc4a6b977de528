"""In adding: questions for the parts, what says them back, and the parts that the tool does for the pupil."""

from typing import assert_never

from saythesum.core.exercises import bridge_remarks as remarks
from saythesum.core.sums import Bridge, Kind
from saythesum.settings import Length
from saythesum.wording.numbers import words
from saythesum.wording.speak.lengths import begun, by_length, capital, joined


def part_question(message: remarks.PartQuestion, length: Length) -> str:
    match message:
        case remarks.AskNextTen(start=start):
            after = f"ext ten after {words(start)}?"
            return by_length(
                length, f"N{after}", f"What's the n{after}", f"You're at {words(start)}. What's the next ten?"
            )
        case remarks.AskGap():
            return _gap(message, length)
        case remarks.AskBond(ones=ones):
            how_many = f"{begun(ones)} and how many make ten?"
            return by_length(length, f"{begun(ones)} and what makes ten?", how_many, how_many)
        case remarks.AskRest():
            return _rest(message, length)
        case remarks.AskOnes(ones=ones, amount=amount, is_after_tens=is_after_tens):
            both = f"{words(ones)} and {words(amount)}?"
            if is_after_tens or ones + amount >= 10:  # there it is a small question, and no first step
                return capital(both)
            return by_length(length, capital(both), f"Ones first: {both}", f"Look at the ones first: {both}")
        case remarks.AskTotal(asked=asked):
            return _total(asked)
        case remarks.AskTensAndOnes(asked=asked):
            return capital(f"{joined(asked.tens, asked.ones_total)}?")
        case _:
            return _telling(message, length)


def _telling(message: remarks.AskTens | remarks.AskOneMore | remarks.AskTensOfOnes, length: Length) -> str:
    """Questions that tell mistakes apart."""
    match message:
        case remarks.AskTens(start=start, is_either=True):
            either = f"{_of_tens(start // 10)} or {_of_tens(start % 10)}?"
            is_that = f"{begun(start)}: is that {either}"
            return by_length(length, capital(either), is_that, is_that)
        case remarks.AskTens(start=start):
            return f"How many tens in {words(start)}?"
        case remarks.AskOneMore(start=start, is_again=True):
            return f"One more than {words(start)}?"
        case remarks.AskOneMore(start=start):
            return by_length(
                length,
                f"One more than {words(start)}?",
                f"You start on {words(start)}. One more is?",
                f"Let's count on. You start on {words(start)}. One more is?",
            )
        case remarks.AskTensOfOnes(asked=asked, is_again=True):
            return f"How many tens in {words(asked.ones_total)}?"
        case remarks.AskTensOfOnes(asked=asked):
            makes = f"{begun(asked.ones)} and {words(asked.amount)} is {words(asked.ones_total)}."
            return f"{makes} How many tens in that?"
        case _:
            assert_never(message)


def _of_tens(count: int) -> str:
    return f"{words(count)} {'ten' if count == 1 else 'tens'}"


def _gap(ask: remarks.AskGap, length: Length) -> str:
    """A landing sum's next ten is its answer, so it is not named."""
    asked = ask.asked
    amount, ten = words(asked.amount), words(asked.next_ten)
    if ask.is_ten_just_said:
        return "How many to get there?"
    if asked.kind is Kind.LANDING:
        to_ten = "How many to the next ten?"
        from_start = f"How many from {words(asked.start)} to the next ten?"
        return to_ten if ask.is_again else by_length(length, to_ten, from_start, from_start)
    if ask.is_again:
        return f"How many to {ten}?"
    is_long = asked.next_ten % 100 == 0  # "a hundred" is two words
    if ask.is_ten_just_told and (is_long or length == "brief"):
        return "How many get you there?" if length == "brief" else f"How many of the {amount} get you there?"
    return f"How many of the {amount} {'' if is_long else 'get you '}to {ten}?"


def _rest(ask: remarks.AskRest, length: Length) -> str:
    """The amount is named, unless it was just named with the gap."""
    of_amount = f"How many of the {words(ask.amount)} are left?"
    short = "How many are left?" if ask.is_gap_just_said and ask.is_ten_by_pupil else of_amount
    return by_length(length, "How many left?", short, "How many are left?" if ask.is_gap_just_said else of_amount)


def _total(asked: Bridge) -> str:
    match asked.kind:
        case Kind.CROSSING:
            return capital(f"{joined(asked.next_ten, asked.rest)}?")
        case Kind.LANDING:
            return "All used: so?"
        case Kind.WITHIN:
            return capital(f"{joined(asked.tens, asked.ones + asked.amount)}?")


def followed(message: remarks.PartFollowed, length: Length) -> str:
    match message:
        case remarks.TenGiven(ten=ten):
            return f"{begun(ten)}."
        case remarks.GapGiven():
            return _gap_given(message, length)
        case remarks.OnesGiven(value=value):
            return f"{begun(value)}."
        case remarks.TensGiven(tens=tens):
            return f"{begun(tens)} {'ten' if tens == 1 else 'tens'}."
        case _:
            assert_never(message)


def _gap_given(given: remarks.GapGiven, length: Length) -> str:
    asked = given.asked
    gap = words(asked.gap)
    if asked.kind is Kind.LANDING:
        return by_length(length, f"{capital(gap)}.", f"Yes, {gap}.", f"Yes, {gap}.")
    reached = f"{words(asked.start)} and {gap} is {words(asked.next_ten)}"
    used = f"{capital(gap)} of the {words(asked.amount)}"
    are = "is" if asked.gap == 1 else "are"
    if given.is_ten_by_pupil:
        return by_length(length, f"{used}.", f"{used}.", f"{capital(reached)}. {used} {are} used.")
    return by_length(length, f"{capital(gap)}.", f"Yes, {gap}.", f"Yes, {reached}. {used} {are} used.")


def part_done(message: remarks.PartDoneFor, length: Length) -> str:
    doing = "" if length == "brief" else "I'll do this bit. "
    return doing + _done(message, length)


def _done(message: remarks.PartDoneFor, length: Length) -> str:
    if isinstance(message, remarks.DoOneMore):
        return f"One more than {words(message.start)} is {words(message.start + 1)}."
    asked = message.asked
    gap = begun(asked.gap)
    match message:
        case remarks.DoNextTen():
            after_ones = f"After {words(asked.start)}, it's ten."  # "The next ten is ten" says nothing to an ear
            return after_ones if asked.next_ten == 10 else f"The next ten is {words(asked.next_ten)}."
        case remarks.DoGap() if asked.kind is Kind.LANDING:
            takes = f"It takes {words(asked.gap)} to the next ten."
            return by_length(length, f"{gap} to the next ten.", takes, takes)
        case remarks.DoGap():
            reached = f"{begun(asked.start)} and {words(asked.gap)} is {words(asked.next_ten)}"
            with_rest = f"{reached}, and {words(asked.rest)} more."
            return by_length(length, f"{gap} to {words(asked.next_ten)}.", with_rest, with_rest)
        case remarks.DoRest():
            return f"{gap} and {words(asked.rest)} is {words(asked.amount)}."
        case remarks.DoOnes():
            return f"{begun(asked.ones)} and {words(asked.amount)} is {words(asked.ones + asked.amount)}."
