"""A question of a talk about patterns, as its answers are kept: from one number on to another.

The talk asks and helps by itself (`core/patterns/moves`); here is only what a kept answer needs to be read again. It
belongs to no grid, and counts as evidence of nothing.
"""

from saythesum.core.exercises.exercise import Exercise, Operator
from saythesum.core.sums import LARGEST_TALKED, ExerciseName
from saythesum.errors import CallerError


class _Step(Exercise):
    __slots__ = ()

    name = ExerciseName.PATTERN
    has_column = is_offered = False
    patterns = ()

    def __post_init__(self) -> None:
        """Raises CallerError for numbers that no talk has."""
        if not (0 <= self.start <= LARGEST_TALKED and 0 <= self.amount <= LARGEST_TALKED and self.total >= 0):
            raise CallerError(f"{self.start} and {self.amount} are not the numbers of a talk about patterns.")


class StepUp(_Step):
    __slots__ = ()

    operation = "add"
    operator = Operator("+", "add", "adding")

    @property
    def total(self) -> int:
        return self.start + self.amount


class StepDown(_Step):
    __slots__ = ()

    operation = "take"
    operator = Operator("−", "take away", "taking away")

    @property
    def total(self) -> int:
        return self.start - self.amount
