"""The mirrors of the guided mistakes for taking away back across a ten: back to the ten, then the rest.

The first jump is the ones of the start, no bond; the second is taken from the ten.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

from saythesum.core.mistakes.taking import Difference
from saythesum.core.sums import Part

StepFormula: TypeAlias = Callable[[Difference], tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class TakeStepMistake:
    name: str
    mirrors: str
    """The code of the mistake in adding that it mirrors."""
    parts: frozenset[Part]
    gives: StepFormula
    cause: str
    say_next: str
    """For the adult. Its fields are start, amount, ones and given. It never holds what stays."""
    is_wrong: bool = True
    """False where the pupil is only ahead, or answered a neighbouring question."""

    def fits(self, asked: Difference, part: Part, given: int) -> bool:
        return part in self.parts and given >= 0 and given != answer_to(asked, part) and given in self.gives(asked)

    def advice(self, asked: Difference, given: int) -> str:
        return self.say_next.format(start=asked.start, amount=asked.amount, ones=asked.ones, given=given)


def answer_to(asked: Difference, part: Part) -> int:
    """Raises ValueError for a part that taking away back across a ten has not."""
    answers = {Part.NEXT_TEN: asked.ten, Part.GAP: asked.ones, Part.REST: asked.rest, Part.TOTAL: asked.total}
    if part not in answers or not asked.is_crossing:
        raise ValueError(f"{asked.start} take away {asked.amount} has no step {part.value}")
    return answers[part]


def fitting_take_step(asked: Difference, part: Part, given: int) -> tuple[TakeStepMistake, ...]:
    """For what crosses a ten; none where it is this part's right answer."""
    return tuple(mistake for mistake in TAKE_STEP_MISTAKES if mistake.fits(asked, part, given))


_AT_GAP = frozenset({Part.GAP})
_AT_REST = frozenset({Part.REST})
_AT_TOTAL = frozenset({Part.TOTAL})

TAKE_STEP_MISTAKES: tuple[TakeStepMistake, ...] = (
    TakeStepMistake(
        "gap-off-by-one",
        "G1",
        _AT_GAP,
        lambda asked: (asked.ones - 1, asked.ones + 1),
        "The ones of the start were not read off, but counted.",
        "Say {start} slowly. What comes after its tens?",
    ),
    TakeStepMistake(
        "gap-to-the-ten-above",
        "G2",
        _AT_GAP,
        lambda asked: (10 - asked.ones,),
        "The jump up to the next ten was given, as in adding.",
        "That leads up from {start}. Which way do we go to take away?",
    ),
    TakeStepMistake(
        "gap-of-the-amount",
        "G3",
        _AT_GAP,
        lambda asked: (10 - asked.amount,),
        "The partner to ten of the amount: right for taking from the ten, another way.",
        "That is a good number for later. How far is it from {start} back to its ten?",
    ),
    TakeStepMistake(
        "next-ten-for-gap",
        "G4",
        _AT_GAP,
        lambda asked: (asked.ten,),
        "The ten itself was named: right thinking, one step on.",
        "That is the place. How many steps back is it from {start}?",
        is_wrong=False,
    ),
    TakeStepMistake(
        "gap-to-a-later-ten",
        "G5",
        _AT_GAP,
        lambda asked: (asked.ones + 10,),
        "The first ten on the way back was left out.",
        "You passed a ten on the way. Stop at the first one below {start}.",
    ),
    TakeStepMistake(
        "gap-as-amount",
        "G6",
        _AT_GAP,
        lambda asked: (asked.amount,),
        "The amount was not split.",
        "{amount} is all we take. How many of them bring us to the ten?",
    ),
    TakeStepMistake(
        "rest-as-gap",
        "G7",
        _AT_REST,
        lambda asked: (asked.ones,),
        "The first jump was said again; the same habit makes it twice.",
        "Those {ones} have gone already. Look at the others of the {amount}.",
    ),
    TakeStepMistake(
        "rest-as-amount",
        "G8",
        _AT_REST,
        lambda asked: (asked.amount,),
        "Nothing was taken off for the first jump.",
        "We had {amount} to take and {ones} have gone. Are there as many as before?",
    ),
    TakeStepMistake(
        "rest-off-by-one",
        "G9",
        _AT_REST,
        lambda asked: (asked.rest - 1, asked.rest + 1),
        "Splitting the amount is not secure yet.",
        "Put out {amount} cubes and take {ones} away. Count the ones that stay.",
    ),
    TakeStepMistake(
        "rest-from-ten",
        "G10",
        _AT_REST,
        lambda asked: (10 - asked.ones, 10 - asked.amount),
        "Ten was split, out of habit, and not the amount.",
        "That would split ten. We are splitting {amount}, and {ones} have gone.",
    ),
    TakeStepMistake(
        "total-unjoined",
        "G11",
        _AT_TOTAL,
        lambda asked: (asked.ten, asked.rest),
        "The ten or the rest was said, and not what the one leaves of the other.",
        "{given} is one of the two. What is left of the ten when the others go?",
    ),
    TakeStepMistake(
        "total-joined-as-digits",
        "G12",
        _AT_TOTAL,
        lambda asked: (10 * asked.ten + asked.rest,),
        "The ten and the rest were written one after the other.",
        "Put the ten in rods and take the cubes from it. What number is that?",
    ),
    TakeStepMistake(
        "rest-put-on",
        "A14",
        _AT_TOTAL,
        lambda asked: (asked.ten + asked.rest,),
        "The rest was added to the ten: the same number as the smaller ones taken from the larger.",
        "People are leaving the ferry. Are there more than at the ten now, or fewer?",
    ),
    TakeStepMistake(
        "whole-answer-early",
        "G13",
        frozenset({Part.NEXT_TEN, Part.GAP, Part.REST}),
        lambda asked: (asked.total,),
        "The pupil is ahead of the steps.",
        "You are there already. How did you do it?",
        is_wrong=False,
    ),
)
