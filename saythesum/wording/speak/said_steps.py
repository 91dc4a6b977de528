"""Questions and help: the sum, its guided parts, what the tool does for the pupil, the worked line."""

from typing import assert_never

from saythesum.core.sums import Kind, Sum
from saythesum.dialogue import messages as say
from saythesum.settings import Length
from saythesum.wording.numbers import words
from saythesum.wording.speak.lengths import begun, by_length, capital, joined


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
            return _gap(message, length)
        case say.AskBond(ones=ones):
            how_many = f"{begun(ones)} and how many make ten?"
            return by_length(length, f"{begun(ones)} and what makes ten?", how_many, how_many)
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


def _gap(ask: say.AskGap, length: Length) -> str:
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
        case say.ThatsFine(has_steps=False):
            return by_length(length, "", "That's fine.", "That's fine.")
        case say.ThatsFine():
            return by_length(length, "", "That's fine.", "That's fine, we'll take it in steps.")
        case say.StepByStep():
            return by_length(length, "", "We'll take it in steps.", "We'll take it in steps.")
        case say.LookAgain():
            return by_length(length, "", "", "Let's look again.")
        case say.DoNextTen() | say.DoGap() | say.DoRest() | say.DoOnes():
            doing = "" if length == "brief" else "I'll do this bit. "
            return doing + _done(message, length)
        case say.Worked(asked=asked):
            question = f"Now you: {words(asked.start)} add {words(asked.amount)}?"
            return f"{_worked(asked, length)} {by_length(length, 'Now you.', question, question)}"
        case _:
            assert_never(message)


def _done(message: say.DoNextTen | say.DoGap | say.DoRest | say.DoOnes, length: Length) -> str:
    asked = message.asked
    gap = begun(asked.gap)
    match message:
        case say.DoNextTen():
            after_ones = f"After {words(asked.start)}, it's ten."  # "The next ten is ten" says nothing to an ear
            return after_ones if asked.next_ten == 10 else f"The next ten is {words(asked.next_ten)}."
        case say.DoGap() if asked.kind is Kind.LANDING:
            takes = f"It takes {words(asked.gap)} to the next ten."
            return by_length(length, f"{gap} to the next ten.", takes, takes)
        case say.DoGap():
            reached = f"{begun(asked.start)} and {words(asked.gap)} is {words(asked.next_ten)}"
            with_rest = f"{reached}, and {words(asked.rest)} more."
            return by_length(length, f"{gap} to {words(asked.next_ten)}.", with_rest, with_rest)
        case say.DoRest():
            return f"{gap} and {words(asked.rest)} is {words(asked.amount)}."
        case say.DoOnes():
            return f"{begun(asked.ones)} and {words(asked.amount)} is {words(asked.ones + asked.amount)}."


def _worked(asked: Sum, length: Length) -> str:
    start, amount, total = words(asked.start), words(asked.amount), words(asked.total)
    match asked.kind:
        case Kind.CROSSING:
            ten, rest = words(asked.next_ten), words(asked.rest)
            both = capital(f"{start} and {words(asked.gap)} is {ten}. {capital(rest)} more is {total}.")
            return by_length(length, capital(f"{ten}, then {rest}: {total}."), both, both)
        case Kind.WITHIN if asked.tens and asked.ones and length != "brief":
            ones = f"{words(asked.ones)} and {amount} is {words(asked.ones + asked.amount)}"
            return capital(f"{ones}, so {start} and {amount} is {total}.")
        case Kind.WITHIN if asked.start and asked.start % 100 == 0:
            return capital(f"{start}, then {amount} more: {total}.")
        case Kind.LANDING | Kind.WITHIN:
            return capital(f"{start} and {amount} is {total}.")
