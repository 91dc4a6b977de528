"""The mirrors of the mistakes for taking away back across a ten.

Source of the steps: NCETM topic 1.11, teaching point 6 (subtracting through ten): back to the ten first, by the
ones of the start, then what is left of the amount. A lost place in the grid, the answer before and a slip of a key
are the same in both ways; a double has no mirror.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

from saythesum.core.mistakes.adding import LEAST_TO_ROUND, misheard_teen_or_ty
from saythesum.core.mistakes.adding_patterns import tens_and_ones_swapped
from saythesum.core.sums import LARGEST_AMOUNT, LARGEST_START
from saythesum.errors import CallerError


@dataclass(frozen=True, slots=True)
class Difference:
    """`start` 0 to 999 take away `amount` 1 to 9, never below nought."""

    start: int
    amount: int

    def __post_init__(self) -> None:
        if not 0 <= self.start <= LARGEST_START:
            raise CallerError(f"The start {self.start} is not a whole number from 0 to {LARGEST_START}.")
        if not 1 <= self.amount <= min(LARGEST_AMOUNT, self.start):
            highest = min(LARGEST_AMOUNT, self.start)
            raise CallerError(f"The amount {self.amount} taken from {self.start} is not from 1 to {highest}.")

    @property
    def total(self) -> int:
        """What stays."""
        return self.start - self.amount

    @property
    def ones(self) -> int:
        return self.start % 10

    @property
    def ten(self) -> int:
        """The ten that is met on the way back; of a start that is a ten itself, that start."""
        return self.start - self.ones

    @property
    def rest(self) -> int:
        """What is left of the amount at the ten; nought or less where nothing is crossed."""
        return self.amount - self.ones

    @property
    def is_crossing(self) -> bool:
        return self.rest > 0 and self.ones > 0

    @property
    def is_landing(self) -> bool:
        """What stays is the ten."""
        return self.rest == 0


TakeFormula: TypeAlias = Callable[[Difference], tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class TakeMistake:
    name: str
    mirrors: str
    """The code of the mistake in adding that it mirrors."""
    gives: TakeFormula
    cause: str
    say_next: str
    """For the adult. Its fields are start, amount, ones and given."""
    source: str = "the mistake in adding, with its signs changed"
    crossing_only: bool = False

    def fits(self, asked: Difference, given: int) -> bool:
        if self.crossing_only and not asked.is_crossing:
            return False
        return given >= 0 and given != asked.total and given in self.gives(asked)

    def advice(self, asked: Difference, given: int) -> str:
        return self.say_next.format(start=asked.start, amount=asked.amount, ones=asked.ones, given=given)


def fitting_take(asked: Difference, given: int) -> tuple[TakeMistake, ...]:
    """Every mistake that gives `given`, 0 or more; none where it is right."""
    return tuple(mistake for mistake in TAKE_MISTAKES if mistake.fits(asked, given))


def _rounded(asked: Difference, too_much: int) -> tuple[int, ...]:
    return (asked.start - 10 - too_much,) if asked.amount >= LEAST_TO_ROUND else ()


def _crossed_from_the_ten(asked: Difference) -> tuple[int, ...]:
    return tuple(asked.ten - left for left in range(1, 10)) if asked.is_landing else ()


TAKE_MISTAKES: tuple[TakeMistake, ...] = (
    TakeMistake(
        "ones-differenced",
        "A14",
        lambda asked: (asked.ten + abs(asked.amount - asked.ones),),
        "The smaller ones were taken from the larger, whichever way round they stood.",
        "Which number do we take from? Can we take {amount} cubes from {ones} cubes, or must we open a rod?",
        "smaller from larger: Brown and Burton 1978, VanLehn 1982 (from memory)",
        crossing_only=True,
    ),
    TakeMistake(
        "ten-not-taken",
        "A1",
        lambda asked: (asked.total + 10,),
        "A ten was opened for its ones and still counted whole.",
        "You began at {start}. Walking back {amount}, which ten do you pass?",
        "borrow without taking the ten: Brown and Burton 1978 (from memory)",
    ),
    TakeMistake(
        "extra-ten-taken",
        "A9",
        lambda asked: (asked.total - 10,),
        "One ten too many was taken, or a ten was jumped over.",
        "Slide back along the number line from {start}. Which ten do you reach first?",
    ),
    TakeMistake(
        "stopped-at-the-ten",
        "A10",
        lambda asked: (asked.ten,),
        "What was left of the amount after the ten was forgotten.",
        "{given} is a good place to rest. That took {ones} of the {amount}; how many have you still to take?",
        crossing_only=True,
    ),
    TakeMistake(
        "whole-amount-after-bridging",
        "A11",
        lambda asked: (asked.ten - asked.amount,),
        "The whole amount was taken again after the jump to the ten.",
        "The jump to the ten already took {ones}. Have you still all {amount} to take?",
        crossing_only=True,
    ),
    TakeMistake(
        "first-jump-twice",
        "A12",
        lambda asked: (asked.ten - asked.ones,),
        "The jump to the ten was made a second time.",
        "{ones} brought us to the ten. {ones} and what make {amount}?",
        crossing_only=True,
    ),
    TakeMistake(
        "start-counted",
        "A7",
        lambda asked: (asked.total + 1,),
        "The start itself was counted as the first step back.",
        "Tap the table and say {start}. The next word back goes with the first finger.",
        "Secada, Fuson and Hall 1983, for counting on",
    ),
    TakeMistake(
        "one-too-many",
        "A8",
        lambda asked: (asked.total - 1,),
        "The count back ran on, or left out the ten on the way.",
        "Put {amount} beads aside and count back from {start}, one word a bead, until they are gone.",
    ),
    TakeMistake(
        "added",
        "A13",
        lambda asked: (asked.start + asked.amount,),
        "Take away was heard or read as add.",
        "{amount} people leave the ferry. Are there more than {start} now, or fewer?",
    ),
    TakeMistake(
        "number-repeated",
        "A15",
        lambda asked: (asked.start, asked.amount),
        "The question was not held in mind.",
        "Here it comes once more, slowly: {start}, and {amount} fewer.",
    ),
    TakeMistake(
        "answer-reversed",
        "A16",
        lambda asked: (tens_and_ones_swapped(asked.total),),
        "The ones were said or typed first.",
        "Tell me your number in parts: how many tens, how many ones?",
    ),
    TakeMistake(
        "start-reversed",
        "A17",
        lambda asked: (tens_and_ones_swapped(asked.start) - asked.amount,),
        "The digits of the start were heard or read the wrong way round.",
        "Find the number at the side once more. Which of its digits are the tens?",
    ),
    TakeMistake(
        "compensated-the-wrong-way",
        "A19",
        lambda asked: _rounded(asked, 10 - asked.amount),
        "Ten was taken in place of the amount, and the difference taken too where it should be put back.",
        "You went back a whole ten. Is that more than {amount}, or less? So which way do we step?",
    ),
    TakeMistake(
        "did-not-compensate",
        "A20",
        lambda asked: _rounded(asked, 0),
        "Ten was taken in place of the amount, and nothing put right.",
        "You went back a whole ten. We only take {amount}; were there too many steps?",
    ),
    TakeMistake(
        "ones-only",
        "A22",
        lambda asked: (asked.total % 10,),
        "The tens were lost on the way.",
        "{given} tells me the ones. Where have the tens of {start} gone?",
    ),
    TakeMistake(
        "fact-slip",
        "A23",
        lambda asked: (asked.total - 2, asked.total + 2),
        "A neighbouring fact came to mind.",
        "Close. Let us walk it: {start}, then back to the ten, then the others.",
    ),
    TakeMistake(
        "teen-or-ty-start",
        "A26",
        lambda asked: tuple(start - asked.amount for start in misheard_teen_or_ty(asked.start)),
        "The start was heard as its teen, or as its tens.",
        "Listen to the end of it: {start}. Say its digits one by one.",
    ),
    TakeMistake(
        "landing-crossed",
        "A27",
        _crossed_from_the_ten,
        "Something more was taken from the ten, though nothing is left to take.",
        "{ones} were to go and {amount} are gone. How many are still to go?",
    ),
)
