"""Facts that are sums themselves, with the mistakes of adding: ten and some ones, one more, and two ones together."""

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import Operator
from saythesum.core.exercises.facts.fact import BEFORE_ALL_SUMS, Fact
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.sums import LARGEST_AMOUNT, ExerciseName
from saythesum.errors import CallerError

_AND = Operator("+", "and", "putting together")


class TenAndOnes(Fact, Sum):
    """Fifty and two?"""

    __slots__ = ()

    operation = "ten-and-ones"
    name = ExerciseName.TEN_AND_ONES
    operator = _AND

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.ones or not self.start:
            raise CallerError(f"{self.start} is no ten to put ones to; the starts are tens, such as 50.")

    @property
    def item(self) -> Item:
        return Item(Skill.JOIN)


class OneMore(Fact, Sum):
    """One more than thirty-nine?"""

    __slots__ = ()

    operation = "one-more"
    name = ExerciseName.ONE_MORE
    amounts = range(1, 2)

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.amount != 1:
            raise CallerError(f"One more is 1, not {self.amount}: write one-more = [1].")

    @property
    def item(self) -> Item:
        return Item(Skill.COUNT_ON)


class OnesFact(Sum):
    """Seven and five? Across ten it has the steps of any sum."""

    __slots__ = ()

    operation = "fact"
    name = ExerciseName.FACT
    is_offered = False
    operator = _AND

    def __post_init__(self) -> None:
        super().__post_init__()
        if not 1 <= self.start <= LARGEST_AMOUNT:
            raise CallerError(f"A fact has two numbers from 1 to {LARGEST_AMOUNT}, not {self.start}.")

    @property
    def item(self) -> Item:
        return self.fact

    @property
    def place_in_teaching(self) -> int:
        return BEFORE_ALL_SUMS
