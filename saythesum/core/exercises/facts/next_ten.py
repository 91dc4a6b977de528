"""What is the next ten?"""

from saythesum.core.exercises.exercise import Operator, Remark
from saythesum.core.exercises.facts import fact_remarks as remarks
from saythesum.core.exercises.facts.fact import Fact
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.mistakes.facts import NEXT_TEN_CATALOGUE
from saythesum.core.sums import ExerciseName
from saythesum.errors import CallerError


class NextTen(Fact):
    """The first ten after `start`; `amount` is 1: one ten on."""

    __slots__ = ()

    operation = "next-ten"
    name = ExerciseName.NEXT_TEN
    operator = Operator("→", "next ten", "finding the next ten")
    amounts = range(1, 2)
    patterns = NEXT_TEN_CATALOGUE

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.amount != 1:
            raise CallerError(f"The next ten is one ten on, not {self.amount}: write next-ten = [1].")

    @property
    def total(self) -> int:
        return (self.start // 10 + 1) * 10

    def compared(self, given: int) -> tuple[Remark, ...]:
        return (remarks.about_ten(self.start, given),)

    @property
    def item(self) -> Item:
        return Item(Skill.NEXT_TEN)

    @property
    def is_equation(self) -> bool:
        return True

    @property
    def shown(self) -> str:
        return f"{self.start} → next ten"

    def shown_with(self, given: int) -> str:
        return f"{self.start} → {given}"

    @property
    def shown_amount(self) -> str:
        return "→"
