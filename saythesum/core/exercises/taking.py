"""Taking away one to nine, back by way of the ten before. No grid offers it to pupils yet."""

from saythesum.core.exercises.exercise import Exercise, Operator
from saythesum.core.mistakes.taking import TAKE_CATALOGUE
from saythesum.core.mistakes.taking_steps import TAKE_PART_MISTAKES
from saythesum.core.sums import LARGEST_AMOUNT, Bridge, Kind
from saythesum.errors import CallerError


class Difference(Bridge, Exercise):
    """`start` 0 to 999 take away `amount` 1 to 9, never below nought."""

    __slots__ = ()

    operation = "take"
    operator = Operator("−", "take away", "taking away")
    patterns = TAKE_CATALOGUE
    part_mistakes = TAKE_PART_MISTAKES
    is_offered = False

    def __post_init__(self) -> None:
        super().__post_init__()
        highest = min(LARGEST_AMOUNT, self.start)
        if not 1 <= self.amount <= highest:
            raise CallerError(f"The amount {self.amount} taken from {self.start} is not from 1 to {highest}.")

    @property
    def total(self) -> int:
        """What stays."""
        return self.start - self.amount

    @property
    def next_ten(self) -> int:
        """The ten that is met on the way back; of a start that is a ten itself, that start."""
        return self.tens

    @property
    def gap(self) -> int:
        """0 to 9: the ones of the start."""
        return self.ones

    @property
    def ones_total(self) -> int:
        return self.ones - self.amount

    @property
    def kind(self) -> Kind:
        """Nothing is crossed from a ten itself."""
        return super().kind if self.ones else Kind.WITHIN
