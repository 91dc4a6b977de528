"""Mistakes with amounts of tens, and of tens and ones.

Source of the numbers put side by side and of the smaller taken from the larger: Brown and Burton 1978 and Ashlock,
Error Patterns in Computation (both from memory). The others are those of smaller amounts.
"""

from collections.abc import Callable

from saythesum.core.mistakes.adding_patterns import tens_and_ones_swapped
from saythesum.core.mistakes.anywhere import ANYWHERE
from saythesum.core.mistakes.pattern import HelpFrom, Pattern
from saythesum.core.sums import FartherAmount

_BUGS = "Brown and Burton 1978, Ashlock, Error Patterns in Computation (both from memory)"
_SMALLER = "the mistake with a smaller amount"


def _mistake(  # noqa: PLR0917
    code: str,
    name: str,
    gives: Callable[[FartherAmount], tuple[int, ...]],
    help: HelpFrom,
    cause: str,
    say_next: str,
    source: str = _SMALLER,
) -> Pattern[FartherAmount]:
    return Pattern(code, name, lambda occasion: gives(occasion.asked), help, cause, say_next, source, is_stable=True)


def _done(asked: FartherAmount, amount: int) -> tuple[int, ...]:
    """What comes of another amount."""
    return (asked.start + amount if asked.goes_up else asked.start - amount,)


def _tens_alone(asked: FartherAmount) -> tuple[int, ...]:
    return (asked.after_tens,) if asked.amount % 10 else ()


def _ones_alone(asked: FartherAmount) -> tuple[int, ...]:
    return _done(asked, asked.amount % 10) if asked.amount % 10 else ()


def _tens_as_ones(asked: FartherAmount) -> tuple[int, ...]:
    return _done(asked, asked.amount // 10) if asked.amount % 10 == 0 else ()


def _both_written(asked: FartherAmount) -> tuple[int, ...]:
    """The tens together, and beside them all that the ones come to."""
    ones = asked.start % 10 + asked.amount % 10
    return (10 * (asked.start - asked.start % 10 + asked.tens) + ones,) if ones >= 10 else ()


def _ones_differenced(asked: FartherAmount) -> tuple[int, ...]:
    ones = asked.amount % 10 - asked.start % 10
    return (asked.start - asked.start % 10 - asked.tens + ones,) if ones > 0 else ()


_EVERY_WAY: tuple[Pattern[FartherAmount], ...] = (
    _mistake(
        "A10",
        "tens-alone",
        _tens_alone,
        HelpFrom.REST,
        "The tens of the amount were done, and its ones forgotten.",
        "{given} is where the tens take you. What of {amount} is still to come?",
    ),
    _mistake(
        "A22",
        "ones-alone",
        _ones_alone,
        HelpFrom.STEPS,
        "Only the ones of the amount were done.",
        "Lay {amount} out in rods and cubes. Which of them have you used?",
    ),
    _mistake(
        "A4",
        "tens-as-ones",
        _tens_as_ones,
        HelpFrom.OTHER_AMOUNT,
        "The tens of the amount were taken for ones.",
        "Show me {amount}. Are those rods or single cubes?",
        "place values mixed: Ashlock, Error Patterns in Computation, as summarised by others",
    ),
    _mistake(
        "A17",
        "amount-reversed",
        lambda asked: _done(asked, tens_and_ones_swapped(asked.amount)),
        HelpFrom.OTHER_AMOUNT,
        "The digits of the amount were heard or read the wrong way round.",
        "Find the number at the top once more. Which of its digits are the tens?",
    ),
    _mistake(
        "A15",
        "number-repeated",
        lambda asked: (asked.start, asked.amount),
        HelpFrom.QUESTION_AGAIN,
        "The question was not held in mind.",
        "Here it comes once more, slowly: {start}, and then {amount}.",
    ),
    _mistake(
        "A16",
        "answer-reversed",
        lambda asked: (tens_and_ones_swapped(asked.total),),
        HelpFrom.QUESTION_AGAIN,
        "The ones were said or typed first.",
        "Tell me your number in parts: how many tens, how many ones?",
    ),
    _mistake(
        "A17",
        "start-reversed",
        lambda asked: (tens_and_ones_swapped(asked.start) + asked.total - asked.start,),
        HelpFrom.QUESTION_AGAIN,
        "The digits of the start were heard or read the wrong way round.",
        "Find the number at the side once more. Which of its digits are the tens?",
    ),
)

_SLIP: Pattern[FartherAmount] = Pattern(
    "A23",
    "fact-slip",
    lambda occasion: (occasion.asked.total - 2, occasion.asked.total + 2),
    HelpFrom.STEPS,
    "A neighbouring fact came to mind.",
    "Let us walk it: {start}, the tens first, then the ones.",
    gives_way=True,
)


def _by(steps: int) -> Callable[[FartherAmount], tuple[int, ...]]:
    return lambda asked: (asked.total + steps,)


FARTHER_ADDED: tuple[Pattern[FartherAmount], ...] = (
    *_EVERY_WAY,
    _mistake(
        "A1",
        "new-ten-lost",
        _by(-10),
        HelpFrom.STEPS,
        "The ten made by the ones was forgotten, or a ten of the amount.",
        "How many rods have you, and do the cubes make another?",
        _BUGS,
    ),
    _mistake(
        "A9",
        "extra-ten",
        _by(10),
        HelpFrom.STEPS,
        "A ten was added twice.",
        "Go along in tens from {start}, one finger for each. How many tens were there to add?",
    ),
    _mistake(
        "A2",
        "both-digits-written",
        _both_written,
        HelpFrom.STEPS,
        "The sum of the ones was written whole beside the tens.",
        "Build {given} with rods and cubes. Can {start} and {amount} make so much?",
        _BUGS,
    ),
    _mistake(
        "A13",
        "subtracted",
        lambda asked: (asked.start - asked.amount,),
        HelpFrom.QUESTION_AGAIN,
        "Add was heard or read as take away.",
        "{amount} more people come aboard. Are there more than {start} now, or fewer?",
    ),
    _mistake(
        "A7",
        "one-short",
        _by(-1),
        HelpFrom.STEPS,
        "The first step was counted on the number itself.",
        "Do the tens, then count the ones on your fingers from the next word.",
    ),
    _mistake(
        "A8",
        "one-over",
        _by(1),
        HelpFrom.STEPS,
        "The count of the ones ran on.",
        "Do the tens, then put the ones up on your fingers, one word for each.",
    ),
    _SLIP,
    *ANYWHERE,
)

FARTHER_TAKEN: tuple[Pattern[FartherAmount], ...] = (
    *_EVERY_WAY,
    _mistake(
        "A14",
        "ones-differenced",
        _ones_differenced,
        HelpFrom.STEPS,
        "The smaller ones were taken from the larger, whichever way round they stood.",
        "Which number do we take from? Are there cubes enough, or must we open a rod?",
        "smaller from larger: Brown and Burton 1978, VanLehn 1982 (from memory)",
    ),
    _mistake(
        "A1",
        "ten-not-taken",
        _by(10),
        HelpFrom.STEPS,
        "A ten was opened for its ones and still counted whole, or a ten of the amount was forgotten.",
        "Count your rods once more. Was one of them opened?",
        _BUGS,
    ),
    _mistake(
        "A9",
        "extra-ten-taken",
        _by(-10),
        HelpFrom.STEPS,
        "A ten was taken twice.",
        "Go back in tens from {start}, one finger for each. How many tens were there to take?",
    ),
    _mistake(
        "A13",
        "added",
        lambda asked: (asked.start + asked.amount,),
        HelpFrom.QUESTION_AGAIN,
        "Take away was heard or read as add.",
        "{amount} people leave the ferry. Are there more than {start} now, or fewer?",
    ),
    _mistake(
        "A7",
        "start-counted",
        _by(1),
        HelpFrom.STEPS,
        "The first step back was counted on the number itself.",
        "Do the tens, then count the ones back on your fingers from the next word.",
    ),
    _mistake(
        "A8",
        "one-too-many",
        _by(-1),
        HelpFrom.STEPS,
        "The count back ran on.",
        "Do the tens, then put the ones up on your fingers, one word back for each.",
    ),
    _SLIP,
    *ANYWHERE,
)
