"""Wrong answers to the facts under bridging a ten, with their reasons. None is taken for a lasting belief.

The patterns are common practice, of the same kind as those of the guided steps.
"""

from saythesum.core.mistakes.anywhere import KEY_SLIP, PREVIOUS_ANSWER
from saythesum.core.mistakes.pattern import HelpFrom, Pattern
from saythesum.core.sums import Calculation

COMPLEMENT_CATALOGUE: tuple[Pattern[Calculation], ...] = (
    Pattern(
        "F1",
        "partner-off-by-one",
        lambda occasion: (occasion.asked.total - 1, occasion.asked.total + 1),
        HelpFrom.QUESTION_AGAIN,
        "The partner is nearly known, or the first number was counted as a step.",
        "Lay out {amount} beads and fill up to {start}. How many did you lay down?",
    ),
    Pattern(
        "F2",
        "part-repeated",
        lambda occasion: (occasion.asked.amount,),
        HelpFrom.QUESTION_AGAIN,
        "The number that was given was said again.",
        "{amount} are there already. How many are still missing?",
    ),
    Pattern(
        "F3",
        "whole-for-part",
        lambda occasion: (occasion.asked.start,),
        HelpFrom.QUESTION_AGAIN,
        "The number to be reached was said in place of the part.",
        "{start} is what they make together. {amount} of them are here.",
    ),
    Pattern(
        "F4",
        "put-together",
        lambda occasion: (occasion.asked.start + occasion.asked.amount,),
        HelpFrom.QUESTION_AGAIN,
        "The two numbers were added.",
        "{start} is the whole box. {amount} are in it; how many more fit in?",
    ),
    Pattern(
        "F5",
        "partner-to-ten",
        lambda occasion: (10 - occasion.asked.amount,) if occasion.asked.start != 10 else (),
        HelpFrom.QUESTION_AGAIN,
        "The partner to ten was said; another number was split.",
        "With ten that would be so. This time there are {start}.",
    ),
    PREVIOUS_ANSWER,
    KEY_SLIP,
)


def _ten_below(asked: Calculation) -> int:
    return asked.start // 10 * 10


NEXT_TEN_CATALOGUE: tuple[Pattern[Calculation], ...] = (
    Pattern(
        "F6",
        "ten-below",
        lambda occasion: (_ten_below(occasion.asked),),
        HelpFrom.QUESTION_AGAIN,
        "The ten before was said, or the tens of the number itself.",
        "Count on from {start}. Which is the first ten that you come to?",
    ),
    Pattern(
        "F7",
        "ten-skipped",
        lambda occasion: (_ten_below(occasion.asked) + 20,),
        HelpFrom.QUESTION_AGAIN,
        "A ten was jumped over.",
        "Slide along the number line from {start} and stop at the very first ten.",
    ),
    Pattern(
        "F8",
        "ten-added",
        lambda occasion: (occasion.asked.start + 10,),
        HelpFrom.QUESTION_AGAIN,
        "Ten was added in place of going to the ten.",
        "{given} is ten steps on. A ten ends in nought; which comes first after {start}?",
    ),
    Pattern(
        "F9",
        "gap-for-ten",
        lambda occasion: (occasion.asked.total - occasion.asked.start,),
        HelpFrom.QUESTION_AGAIN,
        "The jump was said in place of the ten that it leads to.",
        "So many steps it is. And where do they take you from {start}?",
    ),
    PREVIOUS_ANSWER,
    KEY_SLIP,
)
