"""Mistakes with a missing number: where the amount is looked for, and where the start is.

Source of the numbers put together: Behr, Erlwanger and Nichols 1980 and Falkner, Levi and Carpenter 1999, on the equals
sign read as a call to work something out (from memory). The others are those of the sum that leads to the number.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from saythesum.core.mistakes.adding import CATALOGUE
from saythesum.core.mistakes.anywhere import ANYWHERE, KEY_SLIP, PREVIOUS_ANSWER
from saythesum.core.mistakes.pattern import HelpFrom, Occasion, PartMistake, Pattern, filled_in
from saythesum.core.mistakes.taking import TAKE_CATALOGUE
from saythesum.core.sums import HiddenAmount, HiddenStart, Kind, Part

_EQUALS = "Behr, Erlwanger and Nichols 1980; Falkner, Levi and Carpenter 1999 (from memory)"
_MIRRORED = "the mistake in adding, looked at from the total"


SAID_BEFORE = replace(PREVIOUS_ANSWER, say_next="That was the last one. Shall we rest, or hear the new one?")
ANYWHERE_IN_A_LIST = (SAID_BEFORE, KEY_SLIP)
"""Missing numbers stand in no grid whose cells could be mixed up."""


def _where_crossing(asked: HiddenAmount, number: int) -> tuple[int, ...]:
    return (number,) if asked.bridge.kind is Kind.CROSSING else ()


MISSING_AMOUNT: tuple[Pattern[HiddenAmount], ...] = (
    Pattern(
        "A15",
        "number-repeated",
        lambda occasion: (occasion.asked.result, occasion.asked.start),
        HelpFrom.QUESTION_AGAIN,
        "A number of the question was said again.",
        "You have {start}, and it is to be {result}. What is still needed?",
        _MIRRORED,
        is_stable=True,
    ),
    Pattern(
        "A13",
        "numbers-put-together",
        lambda occasion: (occasion.asked.start + occasion.asked.result,),
        HelpFrom.QUESTION_AGAIN,
        "The two numbers that are said were added, whatever the question asks.",
        "Show me {start} with beads, and {result} beside it. How do you get from one to the other?",
        _EQUALS,
        is_stable=True,
    ),
    Pattern(
        "A10",
        "stopped-at-the-ten",
        lambda occasion: _where_crossing(occasion.asked, occasion.asked.bridge.gap),
        HelpFrom.REST,
        "The jump to the ten was said, and what comes after it was forgotten.",
        "{given} is the first jump. Are you at {result} yet?",
        _MIRRORED,
        is_stable=True,
    ),
    Pattern(
        "A12",
        "rest-alone",
        lambda occasion: _where_crossing(occasion.asked, occasion.asked.bridge.rest),
        HelpFrom.GAP,
        "The second jump was said without the first.",
        "{given} is the last jump. Where did it begin, and how did you get there from {start}?",
        _MIRRORED,
        is_stable=True,
    ),
    Pattern(
        "A8",
        "start-counted",
        lambda occasion: (occasion.asked.amount + 1,),
        HelpFrom.GAP,
        "The start itself was counted as the first step, or the count ran on.",
        "Tap the table and say {start}. The next word goes with the first finger.",
        "Secada, Fuson and Hall 1983, for counting on",
        is_stable=True,
    ),
    Pattern(
        "A7",
        "one-short",
        lambda occasion: (occasion.asked.amount - 1,),
        HelpFrom.GAP,
        "The last step was not counted, or the ten on the way was left out.",
        "Count again from {start}, and put a finger up for {result} as well.",
        "Secada, Fuson and Hall 1983, for counting on",
        is_stable=True,
    ),
    Pattern(
        "A9",
        "extra-ten",
        lambda occasion: (occasion.asked.amount + 10,),
        HelpFrom.STEPS,
        "A ten too many was gone.",
        "Slide along the number line from {start} to {result}. Which tens do you pass?",
        _MIRRORED,
        is_stable=True,
    ),
    Pattern(
        "A14",
        "ones-differenced",
        lambda occasion: (abs(occasion.asked.bridge.ones - occasion.asked.result % 10),),
        HelpFrom.STEPS,
        "The smaller ones were taken from the larger, and the tens left aside.",
        "Look at the tens, too: how far is it from {start} to the ten beside it?",
        "smaller from larger, known from subtraction (from memory)",
        is_stable=True,
    ),
    Pattern(
        "A23",
        "fact-slip",
        lambda occasion: (occasion.asked.amount - 2, occasion.asked.amount + 2),
        HelpFrom.GAP,
        "A neighbouring fact came to mind.",
        "Let us walk it: {start}, then to the ten, then on to {result}.",
        _MIRRORED,
        gives_way=True,
    ),
    *ANYWHERE_IN_A_LIST,
)

_AT_GAP, _AT_REST, _AT_TOTAL = frozenset({Part.GAP}), frozenset({Part.REST}), frozenset({Part.TOTAL})

MISSING_AMOUNT_PARTS: tuple[PartMistake[HiddenAmount], ...] = (
    PartMistake(
        "G1",
        "gap-off-by-one",
        _AT_GAP,
        lambda asked: (asked.bridge.gap - 1, asked.bridge.gap + 1),
        "The bond to ten is not secure yet.",
        "Walk it with two fingers from {start}, one step at a time, to the ten.",
    ),
    PartMistake(
        "G2",
        "gap-as-ones-digit",
        _AT_GAP,
        lambda asked: (asked.bridge.ones,),
        "The ones digit was read off instead of its partner to ten.",
        "Yes, {start} ends in that. What goes with it to make ten?",
    ),
    PartMistake(
        "G4",
        "next-ten-for-gap",
        _AT_GAP,
        lambda asked: (asked.bridge.next_ten,),
        "The ten itself was named: right thinking, one step on.",
        "That is the place. How many steps is it from {start}?",
        is_wrong=False,
    ),
    PartMistake(
        "G7",
        "rest-as-gap",
        _AT_REST,
        lambda asked: (asked.bridge.gap,),
        "The first jump was said again.",
        "That jump brought you to the ten. How far is it from there to {result}?",
    ),
    PartMistake(
        "G9",
        "rest-off-by-one",
        _AT_REST,
        lambda asked: (asked.bridge.rest - 1, asked.bridge.rest + 1),
        "The step past the ten was counted one off.",
        "Stand on the ten and walk to {result}, one step at a time.",
    ),
    PartMistake(
        "G11",
        "total-unjoined",
        _AT_TOTAL,
        lambda asked: (asked.bridge.gap, asked.bridge.rest),
        "Only one of the two jumps was said.",
        "{given} is one jump. How many steps are both of them?",
    ),
    PartMistake(
        "G13",
        "whole-answer-early",
        frozenset({Part.NEXT_TEN, Part.TEN_BEFORE, Part.GAP, Part.REST}),
        lambda asked: (asked.amount,),
        "The pupil is ahead of the steps.",
        "You are there already. How did you do it?",
        is_wrong=False,
    ),
)


@dataclass(frozen=True, slots=True)
class _OnTheWayBack(Pattern[HiddenStart]):
    """A mistake of the way back to the start; its advice has that way's numbers, which never hold the start."""

    def advice(self, asked: HiddenStart, given: int) -> str:
        return filled_in(self.say_next, asked.inverse, given)


def _of_inverse(occasion: Occasion[HiddenStart]) -> Occasion[Any]:
    return Occasion(occasion.asked.inverse, occasion.is_typed, occasion.beside, occasion.before)


def _mirrored(pattern: Pattern[Any]) -> Pattern[HiddenStart]:
    return _OnTheWayBack(
        pattern.code,
        pattern.name,
        lambda occasion: pattern.gives(_of_inverse(occasion)),
        pattern.help,
        pattern.cause,
        pattern.say_next,
        pattern.source,
        pattern.is_stable,
        pattern.gives_way,
    )


def _not_undone(name_of_inverse: str, catalogue: Iterable[Pattern[Any]]) -> tuple[Pattern[HiddenStart], ...]:
    """`name_of_inverse`: the mistake of doing the way back the other way round, which is here not to go back."""
    own = (pattern for pattern in catalogue if pattern not in ANYWHERE and pattern.name != name_of_inverse)
    return (NOT_UNDONE, *map(_mirrored, own), *ANYWHERE_IN_A_LIST)


NOT_UNDONE: Pattern[HiddenStart] = Pattern(
    "A13",
    "not-undone",
    lambda occasion: (2 * occasion.asked.result - occasion.asked.start,),
    HelpFrom.QUESTION_AGAIN,
    "What is done to the missing number was done to the number that it makes.",
    "{amount} came in or went, and then there were {result}. How many were there before?",
    _EQUALS,
    is_stable=True,
)
"""? + 5 = 52 answered with 57: as far from 52 as the missing number, on its other side."""

MISSING_START_ADDED = _not_undone("added", TAKE_CATALOGUE)
MISSING_START_TAKEN = _not_undone("subtracted", CATALOGUE)
