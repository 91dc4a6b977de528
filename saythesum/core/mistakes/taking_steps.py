"""The mirrors of the guided mistakes for taking away back across a ten, through the ten and from it.

Through it, the first jump is the ones of the start, no bond; the second is taken from the ten.
"""

from saythesum.core.mistakes.pattern import PartMistake
from saythesum.core.sums import Bridge, Part

_AT_GAP = frozenset({Part.GAP})
_AT_REST = frozenset({Part.REST})
_AT_TOTAL = frozenset({Part.TOTAL})

_AHEAD: PartMistake[Bridge] = PartMistake(
    "G13",
    "whole-answer-early",
    frozenset({Part.TEN_BEFORE, Part.GAP, Part.REST, Part.FROM_TEN, Part.ONES}),
    lambda asked: (asked.total,),
    "The pupil is ahead of the steps.",
    "You are there already. How did you do it?",
    is_wrong=False,
)

TAKE_PART_MISTAKES: tuple[PartMistake[Bridge], ...] = (
    PartMistake(
        "G1",
        "gap-off-by-one",
        _AT_GAP,
        lambda asked: (asked.ones - 1, asked.ones + 1),
        "The ones of the start were not read off, but counted.",
        "Say {start} slowly. What comes after its tens?",
    ),
    PartMistake(
        "G2",
        "gap-to-the-ten-above",
        _AT_GAP,
        lambda asked: (10 - asked.ones,),
        "The jump up to the next ten was given, as in adding.",
        "That leads up from {start}. Which way do we go to take away?",
    ),
    PartMistake(
        "G3",
        "gap-of-the-amount",
        _AT_GAP,
        lambda asked: (10 - asked.amount,),
        "The partner to ten of the amount: right for taking from the ten, another way.",
        "That is a good number for later. How far is it from {start} back to its ten?",
    ),
    PartMistake(
        "G4",
        "next-ten-for-gap",
        _AT_GAP,
        lambda asked: (asked.next_ten,),
        "The ten itself was named: right thinking, one step on.",
        "That is the place. How many steps back is it from {start}?",
        is_wrong=False,
    ),
    PartMistake(
        "G5",
        "gap-to-a-later-ten",
        _AT_GAP,
        lambda asked: (asked.ones + 10,),
        "The first ten on the way back was left out.",
        "You passed a ten on the way. Stop at the first one below {start}.",
    ),
    PartMistake(
        "G6",
        "gap-as-amount",
        _AT_GAP,
        lambda asked: (asked.amount,),
        "The amount was not split.",
        "{amount} is all we take. How many of them bring us to the ten?",
    ),
    PartMistake(
        "G7",
        "rest-as-gap",
        _AT_REST,
        lambda asked: (asked.ones,),
        "The first jump was said again; the same habit makes it twice.",
        "Those {ones} have gone already. Look at the others of the {amount}.",
    ),
    PartMistake(
        "G8",
        "rest-as-amount",
        _AT_REST,
        lambda asked: (asked.amount,),
        "Nothing was taken off for the first jump.",
        "We had {amount} to take and {ones} have gone. Are there as many as before?",
    ),
    PartMistake(
        "G9",
        "rest-off-by-one",
        _AT_REST,
        lambda asked: (asked.rest - 1, asked.rest + 1),
        "Splitting the amount is not secure yet.",
        "Put out {amount} cubes and take {ones} away. Count the ones that stay.",
    ),
    PartMistake(
        "G10",
        "rest-from-ten",
        _AT_REST,
        lambda asked: (10 - asked.ones, 10 - asked.amount),
        "Ten was split, out of habit, and not the amount.",
        "That would split ten. We are splitting {amount}, and {ones} have gone.",
    ),
    PartMistake(
        "G11",
        "total-unjoined",
        _AT_TOTAL,
        lambda asked: (asked.next_ten, asked.rest),
        "The ten or the rest was said, and not what the one leaves of the other.",
        "{given} is one of the two. What is left of the ten when the others go?",
    ),
    PartMistake(
        "G12",
        "total-joined-as-digits",
        _AT_TOTAL,
        lambda asked: (10 * asked.next_ten + asked.rest,),
        "The ten and the rest were written one after the other.",
        "Put the ten in rods and take the cubes from it. What number is that?",
    ),
    PartMistake(
        "A14",
        "rest-put-on",
        _AT_TOTAL,
        lambda asked: (asked.next_ten + asked.rest,),
        "The rest was added to the ten: the same number as the smaller ones taken from the larger.",
        "People are leaving the ferry. Are there more than at the ten now, or fewer?",
    ),
    _AHEAD,
)

FROM_TEN_PART_MISTAKES: tuple[PartMistake[Bridge], ...] = (
    PartMistake(
        "G1",
        "bond-off-by-one",
        frozenset({Part.FROM_TEN}),
        lambda asked: (asked.next_ten - asked.amount - 1, asked.next_ten - asked.amount + 1),
        "The bond to ten is not secure yet.",
        "Hold up ten fingers and fold {amount} down. How many are still up?",
    ),
    PartMistake(
        "G11",
        "total-unjoined",
        _AT_TOTAL,
        lambda asked: (asked.next_ten - asked.amount, asked.ones),
        "Only one of the two pieces was said.",
        "{given} is one piece of it. What does it make with the other piece?",
    ),
    PartMistake(
        "A19",
        "ones-taken-again",
        _AT_TOTAL,
        lambda asked: (asked.next_ten - asked.amount - asked.ones,),
        "The ones of the start were taken off, where they come back.",
        "We put {ones} cubes aside at first. Do they go away, or do they come back?",
    ),
    _AHEAD,
)
"""From the ten: all of the amount is taken from it, and the ones of the start come back."""
