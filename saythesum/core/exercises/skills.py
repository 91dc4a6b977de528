"""What an exercise can be counted under: the separate skills of adding across a ten, and those of any other exercise.

Source of the list: US National Research Council 2009, Mathematics Learning in Early Childhood, pp. 153-154 (the
partner to ten, ten and some ones, all partners of a number); Secada, Fuson and Hall 1983 (counting on);
Thorndike, The Psychology of Arithmetic (a fact known at ten is not always known at sixty).
"""

from enum import StrEnum
from typing import NamedTuple


class Skill(StrEnum):
    NEXT_TEN = "next-ten"
    BOND = "bond"
    """The partner to ten."""
    PARTITION = "partition"
    """An amount split in two."""
    JOIN = "join"
    """A ten and some ones make a number."""
    TENS = "tens"
    """Tens put to a number, or taken from it."""
    COUNT_ON = "count-on"
    FACT = "fact"
    """The sum of two ones digits."""
    IN_DECADE = "in-decade"
    """That sum from a start in one particular ten."""
    BRIDGES = "bridges"
    """Gets across the ten unprompted."""
    HEARS = "hears"
    """Hears the question and holds it: no arithmetic."""
    ANSWER = "answer"
    """The answer to one question of an exercise that has no skills of its own."""
    STEP = "step"
    """One of its guided steps."""

    __hash__ = str.__hash__  # an enum's own is slow, and every belief is looked up by it


class Item(NamedTuple):
    """One thing to be known; the numbers say which, where a skill has several."""

    skill: Skill
    numbers: tuple[int, ...] = ()
    of: str = ""
    """The operation, where the skill is one that any exercise has."""
