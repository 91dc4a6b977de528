"""The mirrors of the mistakes for taking away back across a ten.

Source of the steps: NCETM topic 1.11, teaching point 6 (subtracting through ten): back to the ten first, by the
ones of the start, then what is left of the amount. A lost place in the grid, the answer before and a slip of a key
are the same in both ways; a double has no mirror.
"""

from saythesum.core.mistakes.adding import LEAST_TO_ROUND, misheard_teen_or_ty
from saythesum.core.mistakes.adding_patterns import tens_and_ones_swapped
from saythesum.core.mistakes.anywhere import ANYWHERE
from saythesum.core.mistakes.pattern import HelpFrom, Mistake, Pattern, as_pattern
from saythesum.core.sums import Bridge, Kind

_CROSSING = frozenset({Kind.CROSSING})
_MIRRORED = "the mistake in adding, with its signs changed"


def _rounded(asked: Bridge, too_much: int) -> tuple[int, ...]:
    return (asked.start - 10 - too_much,) if asked.amount >= LEAST_TO_ROUND else ()


def _crossed_from_the_ten(asked: Bridge) -> tuple[int, ...]:
    return tuple(asked.next_ten - left for left in range(1, 10)) if asked.kind is Kind.LANDING else ()


TAKE_MISTAKES: tuple[Mistake, ...] = (
    Mistake(
        "A14",
        "ones-differenced",
        lambda asked: (asked.next_ten + abs(asked.amount - asked.ones),),
        HelpFrom.STEPS,
        "The smaller ones were taken from the larger, whichever way round they stood.",
        "Which number do we take from? Can we take {amount} cubes from {ones} cubes, or must we open a rod?",
        "smaller from larger: Brown and Burton 1978, VanLehn 1982 (from memory)",
        _CROSSING,
    ),
    Mistake(
        "A1",
        "ten-not-taken",
        lambda asked: (asked.total + 10,),
        HelpFrom.STEPS,
        "A ten was opened for its ones and still counted whole.",
        "You began at {start}. Walking back {amount}, which ten do you pass?",
        "borrow without taking the ten: Brown and Burton 1978 (from memory)",
    ),
    Mistake(
        "A9",
        "extra-ten-taken",
        lambda asked: (asked.total - 10,),
        HelpFrom.STEPS,
        "One ten too many was taken, or a ten was jumped over.",
        "Slide back along the number line from {start}. Which ten do you reach first?",
        _MIRRORED,
    ),
    Mistake(
        "A10",
        "stopped-at-the-ten",
        lambda asked: (asked.next_ten,),
        HelpFrom.REST,
        "What was left of the amount after the ten was forgotten.",
        "{given} is a good place to rest. That took {ones} of the {amount}; how many have you still to take?",
        _MIRRORED,
        _CROSSING,
    ),
    Mistake(
        "A11",
        "whole-amount-after-bridging",
        lambda asked: (asked.next_ten - asked.amount,),
        HelpFrom.USED_ALL_AGAIN,
        "The whole amount was taken again after the jump to the ten.",
        "The jump to the ten already took {ones}. Have you still all {amount} to take?",
        _MIRRORED,
        _CROSSING,
    ),
    Mistake(
        "A12",
        "first-jump-twice",
        lambda asked: (asked.next_ten - asked.ones,),
        HelpFrom.USED_GAP_AGAIN,
        "The jump to the ten was made a second time.",
        "{ones} brought us to the ten. {ones} and what make {amount}?",
        _MIRRORED,
        _CROSSING,
    ),
    Mistake(
        "A7",
        "start-counted",
        lambda asked: (asked.total + 1,),
        HelpFrom.GAP,
        "The start itself was counted as the first step back.",
        "Tap the table and say {start}. The next word back goes with the first finger.",
        "Secada, Fuson and Hall 1983, for counting on",
    ),
    Mistake(
        "A8",
        "one-too-many",
        lambda asked: (asked.total - 1,),
        HelpFrom.GAP,
        "The count back ran on, or left out the ten on the way.",
        "Put {amount} beads aside and count back from {start}, one word a bead, until they are gone.",
        _MIRRORED,
    ),
    Mistake(
        "A13",
        "added",
        lambda asked: (asked.start + asked.amount,),
        HelpFrom.TAKING_GOES_DOWN,
        "Take away was heard or read as add.",
        "{amount} people leave the ferry. Are there more than {start} now, or fewer?",
        _MIRRORED,
    ),
    Mistake(
        "A15",
        "number-repeated",
        lambda asked: (asked.start, asked.amount),
        HelpFrom.QUESTION_AGAIN,
        "The question was not held in mind.",
        "Here it comes once more, slowly: {start}, and {amount} fewer.",
        _MIRRORED,
    ),
    Mistake(
        "A16",
        "answer-reversed",
        lambda asked: (tens_and_ones_swapped(asked.total),),
        HelpFrom.NUMBER_IN_TENS,
        "The ones were said or typed first.",
        "Tell me your number in parts: how many tens, how many ones?",
        _MIRRORED,
    ),
    Mistake(
        "A17",
        "start-reversed",
        lambda asked: (tens_and_ones_swapped(asked.start) - asked.amount,),
        HelpFrom.START_IN_TENS,
        "The digits of the start were heard or read the wrong way round.",
        "Find the number at the side once more. Which of its digits are the tens?",
        _MIRRORED,
    ),
    Mistake(
        "A19",
        "compensated-the-wrong-way",
        lambda asked: _rounded(asked, 10 - asked.amount),
        HelpFrom.LESS_THAN_TEN,
        "Ten was taken in place of the amount, and the difference taken too where it should be put back.",
        "You went back a whole ten. Is that more than {amount}, or less? So which way do we step?",
        _MIRRORED,
    ),
    Mistake(
        "A20",
        "did-not-compensate",
        lambda asked: _rounded(asked, 0),
        HelpFrom.OTHER_AMOUNT,
        "Ten was taken in place of the amount, and nothing put right.",
        "You went back a whole ten. We only take {amount}; were there too many steps?",
        _MIRRORED,
    ),
    Mistake(
        "A22",
        "ones-only",
        lambda asked: (asked.total % 10,),
        HelpFrom.TENS,
        "The tens were lost on the way.",
        "{given} tells me the ones. Where have the tens of {start} gone?",
        _MIRRORED,
    ),
    Mistake(
        "A26",
        "teen-or-ty-start",
        lambda asked: tuple(start - asked.amount for start in misheard_teen_or_ty(asked.start)),
        HelpFrom.START_IN_TENS,
        "The start was heard as its teen, or as its tens.",
        "Listen to the end of it: {start}. Say its digits one by one.",
        _MIRRORED,
    ),
    Mistake(
        "A27",
        "landing-crossed",
        _crossed_from_the_ten,
        HelpFrom.GAP,
        "Something more was taken from the ten, though nothing is left to take.",
        "{ones} were to go and {amount} are gone. How many are still to go?",
        _MIRRORED,
    ),
)

FACT_SLIP: Pattern[Bridge] = Pattern(
    "A23",
    "fact-slip",
    lambda occasion: (occasion.asked.total - 2, occasion.asked.total + 2),
    HelpFrom.GAP,
    "A neighbouring fact came to mind.",
    "Close. Let us walk it: {start}, then back to the ten, then the others.",
    _MIRRORED,
    gives_way=True,
)

TAKE_CATALOGUE: tuple[Pattern[Bridge], ...] = (*map(as_pattern, TAKE_MISTAKES), FACT_SLIP, *ANYWHERE)
