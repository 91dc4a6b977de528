"""One sum of a start and an amount, and the steps of bridging it.

Source of the steps: NCETM topic 1.13 "Addition and subtraction: two-digit and single-digit numbers"
(England, Year 2), teaching points 1 to 4; US CCSS 1.NBT.C.4 and 1.OA.C.6 ("making ten").
"""

from dataclasses import dataclass
from enum import StrEnum

from saythesum.errors import CallerError

LARGEST_START = 999
LARGEST_AMOUNT = 9


class Kind(StrEnum):
    """How a sum stands to the next ten."""

    CROSSING = "crossing"
    LANDING = "landing"  # the sum is a ten: nothing is left after the gap
    WITHIN = "not-crossing"


class Part(StrEnum):
    """What can be asked of one cell: the whole answer, or one step on the way."""

    WHOLE = "whole"
    NEXT_TEN = "next-ten"
    GAP = "gap"
    REST = "rest"
    ONES = "ones"
    TOTAL = "total"


CLOSING_PARTS = frozenset({Part.WHOLE, Part.TOTAL})
"""The parts whose right answer is the sum's own."""


@dataclass(frozen=True, slots=True)
class Sum:
    """`start` 0 to 999 plus `amount` 1 to 9."""

    start: int
    amount: int

    def __post_init__(self) -> None:
        if not 0 <= self.start <= LARGEST_START:
            raise CallerError(f"The start {self.start} is not a whole number from 0 to {LARGEST_START}.")
        if not 1 <= self.amount <= LARGEST_AMOUNT:
            raise CallerError(f"The amount {self.amount} is not a whole number from 1 to {LARGEST_AMOUNT}.")

    @property
    def total(self) -> int:
        return self.start + self.amount

    @property
    def ones(self) -> int:
        """The ones digit of the start."""
        return self.start % 10

    @property
    def tens(self) -> int:
        """The start without its ones: 38 gives 30, 104 gives 100."""
        return self.start - self.ones

    @property
    def next_ten(self) -> int:
        """The first ten after the start. A start that is a ten itself has the one after it."""
        return self.tens + 10

    @property
    def gap(self) -> int:
        """From the start to the next ten, 1 to 10."""
        return self.next_ten - self.start

    @property
    def rest(self) -> int:
        """What is left of the amount after the gap; negative where nothing is crossed."""
        return self.amount - self.gap

    @property
    def kind(self) -> Kind:
        if self.rest > 0:
            return Kind.CROSSING
        return Kind.LANDING if self.rest == 0 else Kind.WITHIN

    def answer_to(self, part: Part) -> int:
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
                return self.ones + self.amount


def parts_of(asked: Sum) -> tuple[Part, ...]:
    """The steps to talk through, in order; empty where the sum is one step already (4 + 3).

    A landing sum has no `next-ten`: its next ten is the answer itself.
    """
    match asked.kind:
        case Kind.CROSSING:
            return (Part.NEXT_TEN, Part.GAP, Part.REST, Part.TOTAL)
        case Kind.LANDING:
            return (Part.GAP, Part.TOTAL)
        case Kind.WITHIN if asked.tens == 0:
            return ()
        case Kind.WITHIN if asked.ones == 0:
            return (Part.TOTAL,)
        case Kind.WITHIN:
            return (Part.ONES, Part.TOTAL)
