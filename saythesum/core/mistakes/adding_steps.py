"""Wrong answers to one guided step, with their reasons, and two answers that are not mistakes."""

from saythesum.core.mistakes.pattern import PartMistake
from saythesum.core.sums import Bridge, Kind, Part


def _to_join(asked: Bridge) -> tuple[int, int]:
    """The ten and the ones that the total is made of: 40 and 3 for 38 add 5, 30 and 7 for 32 add 5."""
    if asked.kind is Kind.CROSSING:
        return asked.next_ten, asked.rest
    return asked.tens, asked.ones_total


def _unjoined(asked: Bridge) -> tuple[int, ...]:
    """When the sum is a ten already, there is nothing to join."""
    return () if asked.kind is Kind.LANDING else _to_join(asked)


def _joined_as_digits(asked: Bridge) -> tuple[int, ...]:
    if asked.kind is Kind.LANDING:
        return ()
    ten, ones = _to_join(asked)
    return (10 * ten + ones,)


_AT_GAP = frozenset({Part.GAP})
_AT_REST = frozenset({Part.REST})
_AT_TOTAL = frozenset({Part.TOTAL})
_BEFORE_TOTAL = frozenset({Part.NEXT_TEN, Part.GAP, Part.REST, Part.ONES})

PART_MISTAKES: tuple[PartMistake[Bridge], ...] = (
    PartMistake(
        "G1",
        "gap-off-by-one",
        _AT_GAP,
        lambda asked: (asked.gap - 1, asked.gap + 1),
        "The bond to ten is not secure yet.",
        "Hold up {ones} fingers. How many are still down?",
    ),
    PartMistake(
        "G2",
        "gap-as-ones-digit",
        _AT_GAP,
        lambda asked: (asked.ones,),
        "The ones digit was read off instead of its partner to ten.",
        "Yes, {start} ends in {ones}. What goes with it to make ten?",
    ),
    PartMistake(
        "G3",
        "gap-of-the-amount",
        _AT_GAP,
        lambda asked: (10 - asked.amount,),
        "The partner to ten of the amount: a good idea about the other number.",
        "That would fill up the {amount}. Let us fill up the {start} this time.",
    ),
    PartMistake(
        "G4",
        "next-ten-for-gap",
        _AT_GAP,
        lambda asked: (asked.next_ten,),
        "The ten itself was named: right thinking, one step on.",
        "That is the place. How many steps is it from {start}?",
        is_wrong=False,
    ),
    PartMistake(
        "G5",
        "gap-to-a-later-ten",
        _AT_GAP,
        lambda asked: (asked.gap + 10,),
        "The first ten on the way was left out.",
        "You passed a ten on the way. Stop at the first one after {start}.",
    ),
    PartMistake(
        "G6",
        "gap-as-amount",
        _AT_GAP,
        lambda asked: (asked.amount,),
        "The amount was not split.",
        "{amount} is all we have. How many of them does the ten need?",
    ),
    PartMistake(
        "G7",
        "rest-as-gap",
        _AT_REST,
        lambda asked: (asked.gap,),
        "The gap was said again; the same habit makes gap-used-twice.",
        "Those {gap} are on board already. Look at the others of the {amount}.",
    ),
    PartMistake(
        "G8",
        "rest-as-amount",
        _AT_REST,
        lambda asked: (asked.amount,),
        "Nothing was taken off for the jump; the same habit makes whole-amount-after-bridging.",
        "We had {amount} and gave {gap} away. Are there as many as before?",
    ),
    PartMistake(
        "G9",
        "rest-off-by-one",
        _AT_REST,
        lambda asked: (asked.rest - 1, asked.rest + 1),
        "Splitting the amount is not secure yet.",
        "Put out {amount} cubes and take {gap} away. Count the ones that stay.",
    ),
    PartMistake(
        "G10",
        "rest-from-ten",
        _AT_REST,
        lambda asked: (10 - asked.gap, 10 - asked.amount),
        "Ten was split, out of habit, and not the amount.",
        "That would split ten. We are splitting {amount}, and {gap} are used.",
    ),
    PartMistake(
        "G11",
        "total-unjoined",
        _AT_TOTAL,
        _unjoined,
        "Only one of the two pieces was said.",
        "{given} is one piece of it. What does it make with the other piece?",
    ),
    PartMistake(
        "G12",
        "total-joined-as-digits",
        _AT_TOTAL,
        _joined_as_digits,
        "The tens and the ones were written one after the other.",
        "Put the ten in rods and the ones in cubes side by side. What number is that?",
        source="Steiner et al. 2021, on writing spoken numbers as digits; Byrge, Smith and Mix 2014",
    ),
    PartMistake(
        "G13",
        "whole-answer-early",
        _BEFORE_TOTAL,
        lambda asked: (asked.total,),
        "The pupil is ahead of the steps.",
        "You are there already. How did you do it?",
        is_wrong=False,
    ),
)
