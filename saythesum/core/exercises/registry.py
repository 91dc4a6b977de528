"""All exercises, by the words that kept answers have for them."""

from functools import lru_cache

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.facts.complement import Bond, Split
from saythesum.core.exercises.facts.next_ten import NextTen
from saythesum.core.exercises.facts.small_sums import OneMore, OnesFact, TenAndOnes
from saythesum.core.exercises.farther.farther import FartherDifference, FartherSum
from saythesum.core.exercises.missing.amount import AddedAmount, TakenAmount
from saythesum.core.exercises.missing.start import AddedToStart, TakenFromStart
from saythesum.core.exercises.pattern_step import StepDown, StepUp
from saythesum.core.exercises.taking import Difference, DifferenceFromTen
from saythesum.core.exercises.ways.other_way import OTHER_WAYS
from saythesum.core.sums import LARGEST_AMOUNT, LARGEST_FARTHER_AMOUNT, ExerciseName, Hidden
from saythesum.errors import CallerError

_KINDS: tuple[type[Exercise], ...] = (
    *(Sum, Difference, DifferenceFromTen),
    *(AddedAmount, TakenAmount, AddedToStart, TakenFromStart),
    *OTHER_WAYS.values(),
    *(Bond, NextTen, TenAndOnes, Split, OneMore, OnesFact),
    *(StepUp, StepDown),
)
EXERCISES: dict[tuple[str, ExerciseName, Hidden], type[Exercise]] = {
    (kind.operation, kind.name, kind.hidden): kind for kind in _KINDS
}
FARTHER: dict[tuple[str, ExerciseName, Hidden], type[Exercise]] = {
    (kind.operation, kind.name, kind.hidden): kind for kind in (FartherSum, FartherDifference)
}
"""The same with amounts of ten and more, where these are exercises of their own."""
_NAMES = {kind.operation: kind.name for kind in EXERCISES.values() if kind.has_column}
"""By which name a grid's columns ask an operation, where that is not the sum."""


@lru_cache(maxsize=2048)
def exercise(
    operation: str,
    start: int,
    amount: int,
    name: ExerciseName = ExerciseName.SUM,
    hidden: Hidden = Hidden.TOTAL,
) -> Exercise:
    """One for all the answers to it: a year's answers are to few questions, and each is looked up by its exercise.

    Raises CallerError where there is none.
    """
    asked = operation, name, hidden
    if asked in FARTHER and not 1 <= amount <= LARGEST_FARTHER_AMOUNT:
        raise CallerError(f"The amount {amount} is not a whole number from 1 to {LARGEST_FARTHER_AMOUNT}.")
    kind = (FARTHER.get(asked) if amount > LARGEST_AMOUNT else None) or EXERCISES.get(asked)
    if kind is None:
        known = ", ".join(dict.fromkeys(word for word, _, _ in EXERCISES))
        raise CallerError(f"`operation` is {operation!r}; it must be one of {known}.")
    return kind(start, amount)


def of_column(operation: str, start: int, amount: int, hidden: Hidden = Hidden.TOTAL) -> Exercise:
    """What a grid asks in a column of this operation."""
    return exercise(operation, start, amount, _NAMES.get(operation, ExerciseName.SUM), hidden)


def in_columns() -> dict[str, type[Exercise]]:
    """Those that a column of a grid may ask, by operation."""
    return {kind.operation: kind for kind in EXERCISES.values() if kind.has_column and kind.hidden is Hidden.TOTAL}


def offered() -> dict[str, type[Exercise]]:
    """Of these, those that somebody who types a grid is told of."""
    return {operation: kind for operation, kind in in_columns().items() if kind.is_offered}
