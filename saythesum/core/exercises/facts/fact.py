"""What the facts under bridging a ten have in common: each is one small question, counted as one skill.

Source of the list: US National Research Council 2009, Mathematics Learning in Early Childhood, pp. 153-154 (the
partner to ten, ten and some ones, all partners of a number); NCETM topic 1.13, teaching points 1 and 3 (one more, and
bonds to ten where the sum is a ten).
"""

from abc import abstractmethod

from saythesum.core.exercises.exercise import Exercise, Jump
from saythesum.core.exercises.skills import Item
from saythesum.core.sums import Part

BEFORE_ALL_SUMS = -1


class Fact(Exercise):
    """Known or not: no steps lead to it, so help is a fresh look, then the fact itself."""

    __slots__ = ()

    is_offered = False

    @property
    @abstractmethod
    def item(self) -> Item:
        """The skill that a step of the way across a ten is counted under, too."""

    @property
    def fact(self) -> Item:
        return self.item

    @property
    def parts(self) -> tuple[Part, ...]:
        return ()

    @property
    def small_questions(self) -> tuple[Part, ...]:
        return ()

    @property
    def step_items(self) -> tuple[Item, ...]:
        return (self.item,)

    @property
    def way(self) -> Item | None:
        return None

    def needs(self, item: Item) -> bool:
        return item == self.item

    def spoken_against(self, mistake: str) -> Item | None:
        return None

    @property
    def jumps(self) -> tuple[Jump, ...]:
        return ()

    @property
    def place_in_teaching(self) -> int:
        return BEFORE_ALL_SUMS
