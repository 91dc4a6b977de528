"""All exercises, by the operation that a kept answer and a grid file call them by."""

from functools import lru_cache

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.taking import Difference
from saythesum.errors import CallerError

EXERCISES: dict[str, type[Exercise]] = {kind.operation: kind for kind in (Sum, Difference)}


@lru_cache(maxsize=2048)
def exercise(operation: str, start: int, amount: int) -> Exercise:
    """One for all the answers to it: a year's answers are to few questions, and each is looked up by its exercise.

    Raises CallerError where there is none.
    """
    if operation not in EXERCISES:
        raise CallerError(f"`operation` is {operation!r}; it must be one of {', '.join(EXERCISES)}.")
    return EXERCISES[operation](start, amount)
