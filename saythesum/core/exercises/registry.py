"""All exercises, by the words that kept answers have for them."""

from functools import lru_cache

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.pattern_step import StepDown, StepUp
from saythesum.core.exercises.taking import Difference, DifferenceFromTen
from saythesum.core.sums import ExerciseName, Hidden
from saythesum.errors import CallerError

EXERCISES: dict[tuple[str, ExerciseName, Hidden], type[Exercise]] = {
    (kind.operation, kind.name, kind.hidden): kind for kind in (Sum, Difference, DifferenceFromTen, StepUp, StepDown)
}


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
    kind = EXERCISES.get((operation, name, hidden))
    if kind is None:
        known = ", ".join(dict.fromkeys(word for word, _, _ in EXERCISES))
        raise CallerError(f"`operation` is {operation!r}; it must be one of {known}.")
    return kind(start, amount)


def offered() -> dict[str, type[Exercise]]:
    """Those that a column of a grid may ask, by operation."""
    return {kind.operation: kind for kind in EXERCISES.values() if kind.is_offered and kind.hidden is Hidden.TOTAL}
