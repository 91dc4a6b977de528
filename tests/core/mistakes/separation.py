"""Which sums can tell mistakes apart: where one shows at all, where two give the same number."""

from collections import Counter
from collections.abc import Iterable
from itertools import product

from saythesum.core.exercises.adding import Sum
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.mistakes.pattern import Mistake
from saythesum.core.sums import Kind

CROSSING_SUMS = tuple(
    sum
    for start, amount in product(range(10, 90), range(1, 10))
    for sum in (Sum(start, amount),)
    if sum.kind is Kind.CROSSING
)
"""All that cross a ten from a start of 10 to 89."""

BRIDGING_SUMS = tuple(
    sum
    for start, amount in product(range(10, 100), range(1, 10))
    for sum in (Sum(start, amount),)
    if sum.kind is not Kind.WITHIN
)
"""All that cross or land on a ten from a start of 10 to 99."""


def number_given(mistake: Mistake, asked: Sum) -> int | None:
    """What the mistake makes of a sum; None in a sum of a kind where it cannot happen.

    Of two numbers it is the first: of `number-repeated`, the start.
    """
    return mistake.gives(asked)[0] if asked.kind in mistake.kinds else None


def where_invisible(mistake: Mistake, sums: Iterable[Sum] = CROSSING_SUMS) -> tuple[Sum, ...]:
    """Where it gives the right answer, so that nobody can see it."""
    return tuple(asked for asked in sums if number_given(mistake, asked) == asked.total)


def where_alike(one: Mistake, other: Mistake, sums: Iterable[Sum] = CROSSING_SUMS) -> tuple[Sum, ...]:
    """Where the two give the same number."""
    return tuple(asked for asked in sums if number_given(one, asked) == number_given(other, asked))


def told_apart(asked: Sum) -> int:
    """How many of the seventeen give a wrong number that no other gives."""
    given = Counter(number_given(mistake, asked) for mistake in MISTAKES)
    return sum(times == 1 and number not in (asked.total, None) for number, times in given.items())


def separating(sums: Iterable[Sum] = CROSSING_SUMS) -> tuple[Sum, ...]:
    """The sums in which each mistake gives a number of its own."""
    return tuple(asked for asked in sums if told_apart(asked) == len(MISTAKES))
