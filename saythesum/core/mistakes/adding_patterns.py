"""Wrong whole answers that have a reason: the number that a known slip or misconception would give.

One answer never proves a mistake: several patterns often give the same number, and any of them by chance.
So all that fit are named ("could be"). VanLehn 1982 (925 pupils): misconceptions are stable, slips are not.

Starts past a hundred: "the tens" are start // 10 (104 has ten tens), a reversal changes the places of tens
and ones only (143 gives 134, 60 gives 06, which is 6), and "all digits" are each digit of the start.
"""

from saythesum.core.mistakes.pattern import HelpFrom, Mistake
from saythesum.core.sums import Bridge, Kind


def tens_and_ones_swapped(number: int) -> int:
    hundreds, tens, ones = number // 100, number // 10 % 10, number % 10
    return 100 * hundreds + 10 * ones + tens


def _both_written(asked: Bridge) -> tuple[int, ...]:
    """Beside the tens, beside the tens with the new ten added, or beside the whole start."""
    ones = asked.ones + asked.amount
    beside_all = () if ones >= 10 else (10 * asked.start + ones,)
    beside_next = (10 * asked.next_ten + ones,) if ones > 10 else ()
    return (10 * asked.tens + ones, *beside_next, *beside_all)


def _all_digits(number: int) -> int:
    return sum(int(digit) for digit in str(number))


_CROSSING = frozenset({Kind.CROSSING})
_COMMON = "common practice"
_BUGS = "Brown and Burton 1978, Ashlock, Error Patterns in Computation (both from memory)"
_ASHLOCK_MEMORY = "Ashlock, Error Patterns in Computation (from memory)"
_ASHLOCK = "Ashlock, Error Patterns in Computation, as summarised by others"
_COUNTING = "Secada, Fuson and Hall 1983: the second count begins at the next word"
_READING = "Steiner et al. 2021, on writing spoken numbers as digits"

MISTAKES: tuple[Mistake, ...] = (
    Mistake(
        "A1",
        "new-ten-lost",
        lambda asked: (asked.total - 10,),
        HelpFrom.STEPS,
        "The ten made by the ones was forgotten, or the count went round inside the same ten.",
        "You began at {start}. If you count up from there, which ten do you meet first?",
        _BUGS,
    ),
    Mistake(
        "A2",
        "both-digits-written",
        _both_written,
        HelpFrom.TENS_OF_ONES,
        "The sum of the ones was written whole beside the tens.",
        "Build {given} with rods and cubes, then {start}. Could {amount} cubes make all that difference?",
        _ASHLOCK_MEMORY,
    ),
    Mistake(
        "A3",
        "ten-written-ones-carried",
        lambda asked: (10 * (asked.start // 10 + asked.rest) + 1,),
        HelpFrom.TENS_OF_ONES,
        "The wrong digit of the ones' sum was carried.",
        "Put {ones} cubes and {amount} cubes together. Which of them make a whole rod?",
        _ASHLOCK_MEMORY,
    ),
    Mistake(
        "A4",
        "amount-in-the-tens",
        lambda asked: (asked.start + 10 * asked.amount,),
        HelpFrom.OTHER_AMOUNT,
        "The amount was added as tens.",
        "Show me {amount} with your hands. Are those rods or single cubes?",
        _ASHLOCK,
    ),
    Mistake(
        "A5",
        "amount-to-both-digits",
        lambda asked: (10 * (asked.start // 10 + asked.amount) + asked.ones + asked.amount,),
        HelpFrom.OTHER_AMOUNT,
        "The amount was added to the tens and to the ones.",
        "We only have {amount} to give away. Do they go to the tens or to the ones?",
        _ASHLOCK,
    ),
    Mistake(
        "A6",
        "all-digits-totalled",
        lambda asked: (_all_digits(asked.start) + asked.amount,),
        HelpFrom.TENS,
        "Every digit was counted as ones.",
        "Make {start} with rods and cubes. What is each digit worth?",
        _ASHLOCK,
    ),
    Mistake(
        "A7",
        "one-short",
        lambda asked: (asked.total - 1,),
        HelpFrom.COUNT,
        "The start itself was counted as the first step.",
        "Tap the table and say {start}. Now the next word goes with the first finger, until {amount} are up.",
        _COUNTING,
    ),
    Mistake(
        "A8",
        "one-over",
        lambda asked: (asked.total + 1,),
        HelpFrom.COUNT,
        "The count ran on, or left out the ten on the way.",
        "Put {amount} beads aside and count on from {start}, one word a bead, until they are gone.",
        f"{_COUNTING}; leaving out the ten: {_COMMON}",
    ),
    Mistake(
        "A9",
        "extra-ten",
        lambda asked: (asked.total + 10,),
        HelpFrom.STEPS,
        "The new ten was added twice, or a ten was jumped over.",
        "Slide along the number line from {start}. Which ten do you reach first, before any other?",
        _COMMON,
    ),
    Mistake(
        "A10",
        "stopped-at-the-ten",
        lambda asked: (asked.next_ten,),
        HelpFrom.REST,
        "What was left after the ten was forgotten.",
        "{given} is a good place to rest. That took {gap} of the {amount}; how many have you still to add?",
        _COMMON,
        _CROSSING,
    ),
    Mistake(
        "A11",
        "whole-amount-after-bridging",
        lambda asked: (asked.next_ten + asked.amount,),
        HelpFrom.USED_ALL_AGAIN,
        "The whole amount was added again after the jump to the ten.",
        "The jump to the ten already took {gap}. Have you still all {amount} in your hand?",
        _COMMON,
        _CROSSING,
    ),
    Mistake(
        "A12",
        "gap-used-twice",
        lambda asked: (asked.next_ten + asked.gap,),
        HelpFrom.USED_GAP_AGAIN,
        "The gap stayed in mind and was added a second time.",
        "Split {amount} cubes: {gap} go to the ten. How many are in the other heap?",
        _COMMON,
        _CROSSING,
    ),
    Mistake(
        "A13",
        "subtracted",
        lambda asked: (asked.start - asked.amount,),
        HelpFrom.ADDING_GOES_UP,
        "Add was heard or read as take away.",
        "{amount} more people come aboard. Are there more than {start} on the ferry now, or fewer?",
        "the wrong operation, in common lists of errors (from memory)",
    ),
    Mistake(
        "A14",
        "ones-differenced",
        lambda asked: (asked.tens + abs(asked.ones - asked.amount),),
        HelpFrom.ADDING_GOES_UP,
        "The smaller ones were taken from the larger, as in taking away.",
        "Are we putting the {ones} and the {amount} together, or finding how far apart they are?",
        "smaller from larger, known from subtraction (from memory)",
    ),
    Mistake(
        "A15",
        "number-repeated",
        lambda asked: (asked.start, asked.amount),
        HelpFrom.QUESTION_AGAIN,
        "The question was not held in mind.",
        "Here it comes once more, slowly: {start}, and then {amount} more.",
        _COMMON,
    ),
    Mistake(
        "A16",
        "answer-reversed",
        lambda asked: (tens_and_ones_swapped(asked.total),),
        HelpFrom.NUMBER_IN_TENS,
        "The ones were said or typed first.",
        "Tell me your number in parts: how many tens, how many ones?",
        _READING,
    ),
    Mistake(
        "A17",
        "start-reversed",
        lambda asked: (tens_and_ones_swapped(asked.start) + asked.amount, tens_and_ones_swapped(asked.start)),
        HelpFrom.START_TURNED,
        "The digits of the start were heard or read the wrong way round.",
        "Find the number at the side once more. Which of its digits are the tens?",
        _READING,
    ),
)
