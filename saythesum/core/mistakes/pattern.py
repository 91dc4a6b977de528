"""What a mistake is: a name, the numbers it gives, its cause, and what help begins with.

A formula gives every number that the mistake can lead to, including numbers out of range and sometimes the right
answer.
"""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from string import Formatter
from typing import Generic, TypeVar

from saythesum.core.sums import Bridge, Calculation, Kind, Part

C_co = TypeVar("C_co", bound=Calculation, covariant=True)
C_contra = TypeVar("C_contra", bound=Calculation, contravariant=True)


class HelpFrom(StrEnum):
    """What help begins with. Patterns with the same one are met with the same help."""

    STEPS = "steps"
    """The first step of the way."""
    GAP = "gap"
    """The jump to the next ten."""
    REST = "rest"
    """What is left of the amount after the ten is reached."""
    COUNT = "count"
    """Where counting on begins."""
    TENS_OF_ONES = "tens-of-ones"
    """What the ones come to, in tens and ones."""
    TENS = "tens"
    """The tens of the start."""
    TENS_TOO = "tens-too"
    """The same, where they were left out."""
    START_TURNED = "start-turned"
    """The same, where they traded places with its ones."""
    USED_ALL_AGAIN = "used-all-again"
    USED_GAP_AGAIN = "used-gap-again"
    OTHER_AMOUNT = "other-amount"
    """The amount that leads to the number. From here on help asks the same question again: the pupil's own method only
    needs correcting, or the question needs to be heard."""
    LESS_THAN_TEN = "less-than-ten"
    ADDING_GOES_UP = "adding-goes-up"
    TAKING_GOES_DOWN = "taking-goes-down"
    ADDING_IS_STEPS = "adding-is-steps"
    QUESTION_AGAIN = "question-again"
    NUMBER_IN_TENS = "number-in-tens"
    START_IN_TENS = "start-in-tens"
    PLACE_AGAIN = "place-again"
    """Both headers of the cell."""
    DIGITS = "digits"
    """The number as it was typed."""


@dataclass(frozen=True, slots=True)
class Occasion(Generic[C_co]):
    """What was asked, where it stood and how it was answered."""

    asked: C_co
    is_typed: bool = False
    beside: tuple[Calculation, ...] = ()
    """What the cells next to it ask, in its row and its column."""
    before: int | None = None
    """The number given as the whole answer to the question before this one."""


@dataclass(frozen=True, slots=True)
class Mistake:
    """In bridging a ten: a wrong whole answer that follows from the numbers alone."""

    code: str
    """Of the mistake in adding; in taking away, of the one that it mirrors."""
    name: str
    gives: Callable[[Bridge], tuple[int, ...]]
    help: HelpFrom
    cause: str
    say_next: str
    """For the adult, with the names of the question's numbers and `given` for fields. It never holds the right
    answer."""
    source: str
    kinds: frozenset[Kind] = frozenset(Kind)
    """The kinds of sum in which it can happen."""

    def fits(self, asked: Bridge, given: int) -> bool:
        """Whether a wrong `given` is what this mistake gives."""
        return asked.kind in self.kinds and given >= 0 and given != asked.total and given in self.gives(asked)

    def advice(self, asked: Bridge, given: int) -> str:
        return filled_in(self.say_next, asked, given)


@dataclass(frozen=True, slots=True)
class Pattern(Generic[C_contra]):
    """A wrong whole answer with a reason, which may come from the question's surroundings."""

    code: str
    name: str
    gives: Callable[[Occasion[C_contra]], tuple[int, ...]]
    help: HelpFrom
    cause: str
    say_next: str
    """As of a mistake."""
    source: str = "common practice"
    is_stable: bool = False
    """Whether it can be a belief, which comes back again and again; a slip does not."""
    gives_way: bool = False
    """Another pattern that fits as well decides the help: this one's help is part of every other's, or was given
    already."""

    def fits(self, occasion: Occasion[C_contra], given: int) -> bool:
        return given >= 0 and given != occasion.asked.total and given in self.gives(occasion)

    def advice(self, asked: C_contra, given: int) -> str:
        return filled_in(self.say_next, asked, given)


def as_pattern(mistake: Mistake) -> Pattern[Bridge]:
    return Pattern(
        mistake.code,
        mistake.name,
        lambda occasion: mistake.gives(occasion.asked) if occasion.asked.kind in mistake.kinds else (),
        mistake.help,
        mistake.cause,
        mistake.say_next,
        mistake.source,
        is_stable=True,
    )


@dataclass(frozen=True, slots=True)
class PartMistake(Generic[C_contra]):
    """An answer to one guided step that is wrong, or only unexpected."""

    code: str
    name: str
    parts: frozenset[Part]
    """The steps at which it can happen."""
    gives: Callable[[C_contra], tuple[int, ...]]
    cause: str
    say_next: str
    """As of a mistake. It never holds the answer of the whole."""
    source: str = "common practice"
    is_wrong: bool = True
    """False if the pupil is only ahead, or answered a neighbouring question."""

    def fits(self, asked: C_contra, part: Part, given: int) -> bool:
        is_wrong = part in self.parts and given >= 0 and given != asked.answer_to(part)
        return is_wrong and given in self.gives(asked)

    def advice(self, asked: C_contra, given: int) -> str:
        return filled_in(self.say_next, asked, given)


def filled_in(say_next: str, asked: Calculation, given: int) -> str:
    names = [name for _, name, _, _ in Formatter().parse(say_next) if name]
    return say_next.format(**{name: given if name == "given" else getattr(asked, name) for name in names})
