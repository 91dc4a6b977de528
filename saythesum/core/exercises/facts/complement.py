"""A number and a part of it: how many make up the rest? Of ten it is a bond, of an amount a split."""

from saythesum.core.exercises.exercise import Operator, Remark
from saythesum.core.exercises.facts import fact_remarks as remarks
from saythesum.core.exercises.facts.fact import Fact
from saythesum.core.exercises.missing.remarks import TooManyOrFew
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.mistakes.facts import COMPLEMENT_CATALOGUE
from saythesum.core.sums import ExerciseName
from saythesum.errors import CallerError

LARGEST_MADE = 19
"""A larger number cannot have been meant as a part, so saying what it makes would not help."""
TEN = 10


class Complement(Fact):
    """`start` is the whole, `amount` the part of it that is known."""

    __slots__ = ()

    operator = Operator("+", "and", "making")
    patterns = COMPLEMENT_CATALOGUE

    def __post_init__(self) -> None:
        super().__post_init__()
        if not 1 <= self.amount < self.start:
            raise CallerError(
                f"{self.amount} is no part of {self.start}: a part is from 1 to {max(self.start - 1, 1)}."
            )

    @property
    def total(self) -> int:
        """The part that is missing."""
        return self.start - self.amount

    def compared(self, given: int) -> tuple[Remark, ...]:
        made = self.amount + given
        if given > LARGEST_MADE or made == self.total:
            return (TooManyOrFew(given, is_too_many=given > self.total),)
        return (remarks.Together(self.amount, given),)

    @property
    def is_equation(self) -> bool:
        return True

    @property
    def shown(self) -> str:
        return f"{self.amount} + ? = {self.start}"

    def shown_with(self, given: int) -> str:
        return f"{self.amount} + {given} = {self.start}"

    @property
    def shown_amount(self) -> str:
        return str(self.amount)


class Bond(Complement):
    """Seven and how many make ten?"""

    __slots__ = ()

    operation = "bond"
    name = ExerciseName.BOND

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.start != TEN:
            raise CallerError(f"A bond is a part of ten, not of {self.start}: write start = [10].")

    @property
    def item(self) -> Item:
        """Of seven and of three alike."""
        return Item(Skill.BOND, (min(self.amount, self.total),))


class Split(Complement):
    """Three and how many make eight?"""

    __slots__ = ()

    operation = "split"
    name = ExerciseName.SPLIT

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.start >= TEN:
            raise CallerError(f"An amount that is split is below ten, not {self.start}.")

    @property
    def item(self) -> Item:
        return Item(Skill.PARTITION, (self.start, min(self.amount, self.total)))
