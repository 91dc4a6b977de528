"""The patterns beyond the seventeen of adding, and the whole catalogue.

None is ever named to a pupil.
"""

from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.mistakes.anywhere import KEY_SLIP, NEIGHBOUR_CELL, PREVIOUS_ANSWER
from saythesum.core.mistakes.pattern import HelpFrom, Occasion, Pattern, as_pattern
from saythesum.core.sums import Bridge, Calculation, Kind

FURTHEST_FROM_A_DOUBLE = 2
LEAST_TO_ROUND = 7
"""Adding ten in place of an amount and putting it right after: taught for 9 and 8, sometimes for 7."""


def _doubled(occasion: Occasion[Bridge]) -> tuple[int, ...]:
    sum = occasion.asked
    is_near = 0 < abs(sum.ones - sum.amount) <= FURTHEST_FROM_A_DOUBLE
    if not is_near or sum.ones == 0:
        return ()
    return (sum.tens + 2 * sum.ones, sum.tens + 2 * sum.amount)


def _rounded(asked: Bridge, too_much: int) -> tuple[int, ...]:
    return (asked.start + 10 + too_much,) if asked.amount >= LEAST_TO_ROUND else ()


def _multiplied(asked: Bridge) -> tuple[int, ...]:
    return (asked.start * asked.amount, asked.tens + asked.ones * asked.amount)


def misheard_teen_or_ty(start: int) -> tuple[int, ...]:
    """Seventy for seventeen, and seventeen for seventy."""
    if 13 <= start <= 19:
        return (10 * (start - 10),)
    return (10 + start // 10,) if start in range(30, 100, 10) else ()


def _ones_alone(occasion: Occasion[Bridge]) -> tuple[int, ...]:
    """The ones digit of the answer, or all that the ones come to."""
    return tuple({occasion.asked.total % 10: None, occasion.asked.ones_total: None})


def _teen_or_ty(occasion: Occasion[Bridge]) -> tuple[int, ...]:
    return tuple(start + occasion.asked.amount for start in misheard_teen_or_ty(occasion.asked.start))


def _crossed_from_the_ten(occasion: Occasion[Bridge]) -> tuple[int, ...]:
    if occasion.asked.kind is not Kind.LANDING:
        return ()
    return tuple(occasion.asked.total + left for left in range(1, 10))


WIDER: tuple[Pattern[Bridge], ...] = (
    Pattern(
        "A18",
        "double-not-adjusted",
        _doubled,
        HelpFrom.OTHER_AMOUNT,
        "A near double was used as it stands.",
        "Doubling is a good start. Is {amount} the same as {ones}, or more, or less?",
        is_stable=True,
    ),
    Pattern(
        "A19",
        "compensated-the-wrong-way",
        lambda occasion: _rounded(occasion.asked, 10 - occasion.asked.amount),
        HelpFrom.LESS_THAN_TEN,
        "Ten was added in place of the amount, and the difference added too where it should come off.",
        "You went on by a whole ten. Is that more than {amount}, or less? So which way do we step?",
        is_stable=True,
    ),
    Pattern(
        "A20",
        "did-not-compensate",
        lambda occasion: _rounded(occasion.asked, 0),
        HelpFrom.OTHER_AMOUNT,
        "Ten was added in place of the amount, and nothing put right.",
        "You went on by a whole ten. We only had {amount}; were there too many steps?",
        is_stable=True,
    ),
    Pattern(
        "A21",
        "multiplied",
        lambda occasion: _multiplied(occasion.asked),
        HelpFrom.ADDING_IS_STEPS,
        "Add was heard or read as times.",
        "{start} people are on deck and {amount} more come. Do we need groups here, or one heap?",
        is_stable=True,
    ),
    Pattern(
        "A22",
        "ones-only",
        _ones_alone,
        HelpFrom.TENS_TOO,
        "The tens were lost on the way.",
        "{given} tells me the ones. Where have the tens of {start} gone?",
        is_stable=True,
    ),
    Pattern(
        "A23",
        "fact-slip",
        lambda occasion: (occasion.asked.total - 2, occasion.asked.total + 2),
        HelpFrom.GAP,
        "A neighbouring fact came to mind.",
        "Close. Let us walk it: {start}, then to the ten, then the others.",
        "Siegler, Ashcraft, on errors of retrieval (from memory)",
        gives_way=True,  # its help is the steps, as of every mistake in them
    ),
    NEIGHBOUR_CELL,
    PREVIOUS_ANSWER,
    Pattern(
        "A26",
        "teen-or-ty-start",
        _teen_or_ty,
        HelpFrom.START_IN_TENS,
        "The start was heard as its teen, or as its tens.",
        "Listen to the end of it: {start}. Say its digits one by one.",
        "teens and tens told apart by their endings: pronunciation teaching",
        is_stable=True,
    ),
    Pattern(
        "A27",
        "landing-crossed",
        _crossed_from_the_ten,
        HelpFrom.TENS_OF_ONES,
        "Something was looked for beyond the ten, though nothing is left.",
        "{gap} were needed and {amount} were there. How many stay in your hand?",
        is_stable=True,
    ),
    KEY_SLIP,
)

NO_ANSWER: Pattern[Calculation] = Pattern(
    "A29",
    "no-answer",
    lambda occasion: (),
    HelpFrom.STEPS,
    "Silence, or not knowing: no mistake in the arithmetic.",
    "Thank you for telling me. Shall we begin with the ten after {start}?",
)


CATALOGUE: tuple[Pattern[Bridge], ...] = (*map(as_pattern, MISTAKES), *WIDER)
