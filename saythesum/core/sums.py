"""What is asked, as plain arithmetic: a start, an amount, what comes of them, and the steps of bridging a ten.

Source of the steps: NCETM topic 1.13 "Addition and subtraction: two-digit and single-digit numbers" (England, Year 2),
teaching points 1 to 4, and topic 1.11, teaching point 6 (subtracting through ten); US CCSS 1.NBT.C.4 and 1.OA.C.6
("making ten").
"""

from abc import ABC, abstractmethod
from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from saythesum.errors import CallerError

LARGEST_START = 999
LARGEST_AMOUNT = 9
"""That bridges one ten."""
LARGEST_FARTHER_AMOUNT = 99
LARGEST_TALKED = LARGEST_START + 2 * 10
"""No number in a talk about patterns is larger: ten and ten on from the largest start."""


class Kind(StrEnum):
    """How a sum stands to the next ten."""

    CROSSING = "crossing"
    LANDING = "landing"  # the sum is a ten: nothing is left after the gap
    WITHIN = "not-crossing"


class ExerciseName(StrEnum):
    """What kind of question it is. A program that does not know the word refuses the practice: it would take it for
    a sum."""

    SUM = "sum"
    FROM_TEN = "from-ten"
    """Taking away from the ten, where a pupil goes that way: the same question, by other steps."""
    COMPENSATED = "compensated"
    """This one and the three that follow are other ways to a sum than through the ten: the same question, by other
    steps."""
    DOUBLED = "doubled"
    TENS_AND_ONES = "tens-and-ones"
    COUNTED = "counted"
    BOND = "bond"
    """This one and those that follow are the facts that the way across a ten stands on: seven and how many make
    ten?"""
    NEXT_TEN = "next-ten"
    TEN_AND_ONES = "ten-and-ones"
    SPLIT = "split"
    """Three and how many make eight?"""
    ONE_MORE = "one-more"
    FACT = "fact"
    """The sum of two ones."""
    PATTERN = "pattern"
    """A question of a talk about what is true of a grid: no sum, and evidence of nothing but the talk."""

    __hash__ = str.__hash__  # an enum's own is slow, and every answer is looked up by it


class Hidden(StrEnum):
    """Which number of the sum is asked for."""

    TOTAL = "total"
    AMOUNT = "amount"
    START = "start"

    __hash__ = str.__hash__


class Part(StrEnum):
    """What can be asked of one cell: the whole answer, or one step on the way."""

    WHOLE = "whole"
    NEXT_TEN = "next-ten"
    GAP = "gap"
    REST = "rest"
    ONES = "ones"
    TOTAL = "total"
    TENS = "tens"
    """How many tens the start has. This and the two that follow are no steps of the way: they tell mistakes apart."""
    ONE_MORE = "one-more"
    """The number after the start."""
    TENS_OF_ONES = "tens-of-ones"
    """How many tens are in what the ones come to."""
    AFTER_TENS = "after-tens"
    """The number after the tens of the amount, before its ones."""
    TENS_TOGETHER = "tens-together"
    """What the tens come to, without the ones of the start."""
    TEN_BEFORE = "ten-before"
    """The first ten on the way back."""
    TEN_ON = "ten-on"
    """Ten more than the start, where ten is added in place of the amount."""
    TOO_MANY = "too-many"
    """How many too many that is."""
    DOUBLE = "double"
    """Of the smaller of the two ones."""
    FROM_TEN = "from-ten"
    """What stays when the whole amount is taken from that ten; the ones of the start come back after it."""
    LISTEN = "listen"
    """The moves of a talk about patterns, from here on. Here nothing is asked: two lines of the grid are heard."""
    HOW_MUCH_MORE = "how-much-more"
    EVERY_ROW = "every-row"
    """The same in another row or column."""
    PREDICT = "predict"
    """In a row that the grid does not have."""
    WHY = "why"
    """In the pupil's own words, of which nothing is marked or kept."""
    TURN_ROUND = "turn-round"
    MAKE_ONE = "make-one"
    """The pupil names a start, and both fill its row."""


CLOSING_PARTS = frozenset({Part.WHOLE, Part.TOTAL})
"""The parts whose right answer is that of the whole."""


@dataclass(frozen=True, slots=True)
class Calculation(ABC):
    """A start, an amount and the number that comes of them. Two of one class with the same numbers are equal."""

    start: int
    amount: int

    largest_start: ClassVar[int] = LARGEST_START

    def __post_init__(self) -> None:
        """Raises CallerError for numbers that it is not made for."""
        if not 0 <= self.start <= self.largest_start:
            raise CallerError(f"The start {self.start} is not a whole number from 0 to {self.largest_start}.")

    @property
    @abstractmethod
    def total(self) -> int:
        """The right answer."""

    @property
    def parts(self) -> tuple[Part, ...]:
        """The steps to talk through, in order, with the total last; empty where there is one step only."""
        return ()

    def answer_to(self, part: Part) -> int:
        """Raises ValueError for a part that it does not have."""
        if part in CLOSING_PARTS:
            return self.total
        raise ValueError(f"{self.start} and {self.amount} have no step {part.value}")


class Bridge(Calculation):
    """A step of one to nine from a start, by way of the ten that is met on it, in one direction or the other."""

    __slots__ = ()

    @property
    def ones(self) -> int:
        """The ones digit of the start."""
        return self.start % 10

    @property
    def tens(self) -> int:
        """The start without its ones: 38 gives 30, 104 gives 100."""
        return self.start - self.ones

    @property
    @abstractmethod
    def next_ten(self) -> int:
        """The first ten on the way."""

    @property
    @abstractmethod
    def gap(self) -> int:
        """From the start to the next ten."""

    @property
    @abstractmethod
    def ones_total(self) -> int:
        """What comes of the ones of the start and the amount alone."""

    @property
    def rest(self) -> int:
        """What is left of the amount after the gap; negative where the ten is not reached."""
        return self.amount - self.gap

    @property
    def kind(self) -> Kind:
        if self.rest > 0:
            return Kind.CROSSING
        return Kind.LANDING if self.rest == 0 else Kind.WITHIN

    @property
    def parts(self) -> tuple[Part, ...]:
        """Where the sum lands on the ten there is no `next-ten`: it is the answer itself."""
        match self.kind:
            case Kind.CROSSING:
                return (Part.NEXT_TEN, Part.GAP, Part.REST, Part.TOTAL)
            case Kind.LANDING:
                return (Part.GAP, Part.TOTAL)
            case Kind.WITHIN if self.tens == 0:
                return ()
            case Kind.WITHIN if self.ones == 0:
                return (Part.TOTAL,)
            case Kind.WITHIN:
                return (Part.ONES, Part.TOTAL)

    def answer_to(self, part: Part) -> int:
        if part not in CLOSING_PARTS and part not in self.parts:
            return super().answer_to(part)
        match part:
            case Part.WHOLE | Part.TOTAL:  # first, as most are: Python 3.11 takes long to find a member of an enum
                return self.total
            case Part.NEXT_TEN:
                return self.next_ten
            case Part.GAP:
                return self.gap
            case Part.REST:
                return self.rest
            case Part.ONES:
                return self.ones_total
            case _:
                return super().answer_to(part)

    def _check_amount(self, highest: int) -> None:
        if not 1 <= self.amount <= highest:
            raise CallerError(f"The amount {self.amount} is not a whole number from 1 to {highest}.")


class HiddenAmount(Calculation):
    """The amount is asked for, and the total is said."""

    __slots__ = ()

    @property
    @abstractmethod
    def bridge(self) -> Bridge:
        """From the start to the total."""

    @property
    def total(self) -> int:
        return self.amount

    @property
    def result(self) -> int:
        """What the question says that it makes, or leaves."""
        return self.bridge.total


class HiddenStart(Calculation):
    """The start is asked for, and the total is said."""

    __slots__ = ()

    @property
    @abstractmethod
    def inverse(self) -> Bridge:
        """The way back, from what the question says that it makes, or leaves."""

    @property
    def total(self) -> int:
        return self.start

    @property
    def result(self) -> int:
        return self.inverse.start


class FartherAmount(Calculation):
    """An amount of ten to ninety-nine, tens first."""

    __slots__ = ()

    goes_up: ClassVar[bool]

    @property
    def tens(self) -> int:
        """Of the amount: 20 of 25."""
        return self.amount - self.amount % 10

    @property
    def after_tens(self) -> int:
        """Where its tens alone lead to."""
        return self.start + self.tens if self.goes_up else self.start - self.tens

    @property
    def tens_together(self) -> int:
        """What its tens make of those of the start."""
        return self.after_tens - self.start % 10

    @property
    def total(self) -> int:
        return self.start + self.amount if self.goes_up else self.start - self.amount

    def is_wrong_way(self, given: int) -> bool:
        """At the start, or on its other side."""
        return given <= self.start if self.goes_up else given >= self.start
