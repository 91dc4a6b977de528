"""Questions and help: the sum, its guided parts, what the tool does for the pupil, the worked line."""

from typing import assert_never

from saythesum.core.sums import Kind, Sum
from saythesum.dialogue import messages as say
from saythesum.settings import Length
from saythesum.wording.lengths import begun, by_length, capital, joined
from saythesum.wording.numbers import words


def question(message: say.Question, length: Length) -> str:
    match message:
        case say.AskWhole(asked=asked, is_same_row=True):
            return by_length(length, f"Add {words(asked.amount)}.", _whole(asked), _whole(asked))
        case say.AskWhole(asked=asked):
            return _whole(asked)
        case say.AskNextTen(start=start):
            after = f"ext ten after {words(start)}?"
            return by_length(
                length, f"N{after}", f"What's the n{after}", f"You're at {words(start)}. What's the next ten?"
            )
        case say.AskGap():
            return _gap(message)
        case say.AskRest():
            return _rest(message, length)
        case say.AskOnes(ones=ones, amount=amount):
            both = f"{words(ones)} and {words(amount)}?"
            return by_length(length, capital(both), f"Ones first: {both}", f"Look at the ones first: {both}")
        case say.AskTotal(asked=asked):
            return _total(asked)
        case _:
            assert_never(message)


def _whole(asked: Sum) -> str:
    return f"{begun(asked.start)} add {words(asked.amount)}."


def _gap(ask: say.AskGap) -> str:
    """A landing sum's next ten is its answer, so it is not named."""
    asked = ask.asked
    if ask.is_ten_just_said:
        return "How many to get there?"
    if asked.kind is Kind.LANDING:
        return "How many to the next ten?" if ask.is_again else f"How many from {words(asked.start)} to the next ten?"
    if ask.is_again:
        return f"How many to {words(asked.next_ten)}?"
    return f"How many of the {words(asked.amount)} get you to {words(asked.next_ten)}?"


def _rest(ask: say.AskRest, length: Length) -> str:
    """The amount is named, unless it was just named with the gap."""
    of_amount = f"How many of the {words(ask.amount)} are left?"
    short = "How many are left?" if ask.is_gap_just_said and ask.is_ten_by_pupil else of_amount
    return by_length(length, "How many left?", short, "How many are left?" if ask.is_gap_just_said else of_amount)


def _total(asked: Sum) -> str:
    match asked.kind:
        case Kind.CROSSING:
            return capital(f"{joined(asked.next_ten, asked.rest)}?")
        case Kind.LANDING:
            return "All used: so?"
        case Kind.WITHIN:
            return capital(f"{joined(asked.tens, asked.ones + asked.amount)}?")


def help_line(message: say.Help, length: Length) -> str:
    match message:
        case say.ThatsFine():
            return by_length(length, "", "That's fine.", "That's fine, we'll take it in steps.")
        case say.StepByStep():
            return by_length(length, "", "We'll take it in steps.", "We'll take it in steps.")
        case say.DoNextTen(asked=asked):
            return f"I'll do this bit. The next ten is {words(asked.next_ten)}."
        case say.DoGap(asked=asked):
            return f"I'll do this bit. {_gap_done(asked)}"
        case say.DoRest(asked=asked):
            return f"I'll do this bit. {begun(asked.gap)} and {words(asked.rest)} is {words(asked.amount)}."
        case say.DoOnes(asked=asked):
            ones = asked.ones + asked.amount
            return f"I'll do this bit. {begun(asked.ones)} and {words(asked.amount)} is {words(ones)}."
        case say.Worked(asked=asked):
            return f"{_worked(asked)} Now you: {words(asked.start)} add {words(asked.amount)}?"
        case _:
            assert_never(message)


def _gap_done(asked: Sum) -> str:
    if asked.kind is Kind.LANDING:
        return f"It takes {words(asked.gap)} to the next ten."
    return f"{begun(asked.start)} and {words(asked.gap)} is {words(asked.next_ten)}, and {words(asked.rest)} more."


def _worked(asked: Sum) -> str:
    start, amount, total = words(asked.start), words(asked.amount), words(asked.total)
    match asked.kind:
        case Kind.CROSSING:
            to_the_ten = f"{start} and {words(asked.gap)} is {words(asked.next_ten)}"
            return capital(f"{to_the_ten}, and {words(asked.rest)} more is {total}.")
        case Kind.WITHIN if asked.tens and asked.ones:
            ones = f"{words(asked.ones)} and {amount} is {words(asked.ones + asked.amount)}"
            return capital(f"{ones}, so {start} and {amount} is {total}.")
        case Kind.LANDING | Kind.WITHIN:
            return capital(f"{start} and {amount} is {total}.")
