"""Amounts of ten to ninety-nine: 47 add 30, and 47 add 25, the tens first and then across the ten.

Source: England, National curriculum, Year 2: adding and taking away a two-digit number and tens, and two two-digit
numbers. With its tens done, the amount has one to nine ones left, and the way goes on as for these.
"""

from abc import abstractmethod
from collections.abc import Collection
from dataclasses import replace

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import Exercise, Help, Jump, Lead, Remark
from saythesum.core.exercises.farther import remarks
from saythesum.core.exercises.missing.remarks import TooManyOrFew
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.exercises.taking import Difference
from saythesum.core.mistakes.farther import FARTHER_ADDED, FARTHER_TAKEN
from saythesum.core.mistakes.pattern import HelpFrom
from saythesum.core.sums import (
    CLOSING_PARTS,
    LARGEST_AMOUNT,
    LARGEST_FARTHER_AMOUNT,
    LARGEST_START,
    FartherAmount,
    Kind,
    Part,
)
from saythesum.errors import CallerError

COMES_AFTER_ONES = 4


class OnesAfterTens(Sum):
    """What is left of adding once its tens are done: its start may lie past the largest that a grid may have."""

    __slots__ = ()

    largest_start = LARGEST_START + LARGEST_FARTHER_AMOUNT - LARGEST_AMOUNT


class Farther(FartherAmount, Exercise):
    __slots__ = ()

    def __post_init__(self) -> None:
        super().__post_init__()
        if not LARGEST_AMOUNT < self.amount <= LARGEST_FARTHER_AMOUNT:
            raise CallerError(f"The amount {self.amount} is not a whole number from 1 to {LARGEST_FARTHER_AMOUNT}.")

    @property
    @abstractmethod
    def then(self) -> Sum | Difference | None:
        """What is left once the tens are done; None where that is nothing."""

    @property
    def kind(self) -> Kind:
        """How its ones stand to the ten."""
        return self.then.kind if self.then else Kind.WITHIN

    @property
    def parts(self) -> tuple[Part, ...]:
        if self.then:
            return (Part.AFTER_TENS, *(self.then.parts or (Part.TOTAL,)))
        is_split = self.start >= 10 and self.start % 10 and self.tens_together >= 10
        return (Part.TENS_TOGETHER, Part.TOTAL) if is_split else ()

    def answer_to(self, part: Part) -> int:
        match part:
            case Part.AFTER_TENS if self.then:
                return self.after_tens
            case Part.TENS_TOGETHER if part in self.parts:
                return self.tens_together
            case _ if self.then and part not in CLOSING_PARTS and part in self.parts:
                return self.then.answer_to(part)
            case _:
                return super().answer_to(part)

    # ---- asking for a part, and what follows

    def question_for(self, part: Part, lead: Lead = Lead()) -> Remark:  # noqa: B008 - a frozen value
        match part:
            case Part.AFTER_TENS:
                return remarks.AskTens(self.operator, self.start, self.tens)
            case Part.TENS_TOGETHER:
                return remarks.AskTens(self.operator, self.start - self.start % 10, self.tens)
            case _ if self.then:
                is_begun_with = lead.answered is Part.WHOLE
                return self.then.question_for(part, replace(lead, is_again=lead.is_again or is_begun_with))
            case _:
                return remarks.AskJoined(self.tens_together, self.start % 10)

    def after_right(self, lead: Lead) -> tuple[Remark, ...]:
        match lead.answered:
            case Part.AFTER_TENS if self.then:
                return (remarks.TensGone(self.operator, self.after_tens, self.then.amount),)
            case Part.TENS_TOGETHER:
                return (remarks.TensGone(self.operator, self.tens_together, 0),)
            case _ if self.then:
                return self.then.after_right(lead)
            case _:
                return ()

    def done(self, part: Part) -> Remark:
        match part:
            case Part.AFTER_TENS | Part.TENS_TOGETHER:
                return remarks.DoTens(self._tens_done(part))
            case _:
                assert self.then
                return self.then.done(part)

    def _tens_done(self, part: Part) -> remarks.TensDone:
        start = self.start if part is Part.AFTER_TENS else self.start - self.start % 10
        return remarks.TensDone(self.operator, start, self.tens, self.answer_to(part))

    def part_after_doing(self, part: Part) -> Part:
        if self.then and part is not Part.AFTER_TENS:
            return self.then.part_after_doing(part)
        return self.part_after(part)

    def begun(self, asked_for: Collection[Part]) -> Part | None:
        return self.then.begun(asked_for) if self.then else None

    def part_answered(self, asked_for: Part, given: int) -> Part | None:
        if self.then and asked_for is not Part.AFTER_TENS:
            return self.then.part_answered(asked_for, given)
        return super().part_answered(asked_for, given)

    def is_another_try(self, asked_for: Part, given: int) -> bool:
        if not self.then or asked_for is Part.AFTER_TENS:
            return False
        return self.then.is_another_try(asked_for, given)

    # ---- a wrong number

    def compared(self, given: int) -> tuple[Remark, ...]:
        """Near the answer it is compared as the ones are; further away with so many tens."""
        if self.is_wrong_way(given):
            return (remarks.BesideStart(self.operator, given, self.start),)
        is_too_many = given > self.total
        if self.then and given == self.then.next_ten:  # "the next ten" is said of the start
            return (TooManyOrFew(given, is_too_many),)
        if self.then and self._is_beside_ones(given):
            return self.then.compared(given)
        tens = self.tens + (10 if self.then and is_too_many is self.goes_up else 0)
        if (tens > self.start and not self.goes_up) or self.total in (tens, self.start):
            return (TooManyOrFew(given, is_too_many),)
        return (remarks.BesideTens(self.operator, given, self.start, tens, is_too_many),)

    def _is_beside_ones(self, given: int) -> bool:
        """Between the number after the tens and the one after ten more."""
        return (given - self.after_tens if self.goes_up else self.after_tens - given) in range(11)

    def help_from(self, begins: HelpFrom, given: int) -> Help:
        match begins:
            case HelpFrom.REST if self.then:
                ones = remarks.OnesToCome(self._tens_done(Part.AFTER_TENS), self.then.amount)
                return Help(self.parts[1], (ones,))
            case HelpFrom.OTHER_AMOUNT if self._other_amount(given):
                return Help(Part.WHOLE, self._other_amount(given))
            case HelpFrom.QUESTION_AGAIN | HelpFrom.PLACE_AGAIN | HelpFrom.DIGITS | HelpFrom.OTHER_AMOUNT:
                return Help(Part.WHOLE, self.compared(given))
            case _:
                return Help(self.first_part(given), self.compared(given))

    def _other_amount(self, given: int) -> tuple[Remark, ...]:
        amount = abs(given - self.start)
        is_said = self.start < 100 and amount not in (0, self.total) and not self.is_wrong_way(given)
        told = remarks.OtherTens(self.operator, self.start, amount, given, self.amount)
        return (told,) if is_said and given < 100 else ()

    def about_part(self, part: Part, given: int) -> tuple[Remark, ...]:
        match part:
            case Part.AFTER_TENS | Part.TENS_TOGETHER:
                return self._about_tens(part, given)
            case _ if self.then:
                return self.then.about_part(part, given)
            case _:
                return self.compared(given)

    def _about_tens(self, part: Part, given: int) -> tuple[Remark, ...]:
        start = self.start if part is Part.AFTER_TENS else self.start - self.start % 10
        tens = abs(given - start)
        is_way = (given > start) is self.goes_up and given != start
        is_said = is_way and tens < 100 and self.total not in (tens, given) and (given < 100 or self.start >= 100)
        if is_said:
            return (remarks.OtherTens(self.operator, start, tens, given, self.tens),)
        if not is_way:
            return (remarks.BesideStart(self.operator, given, start),)
        return (TooManyOrFew(given, given > self.answer_to(part)),)

    # ---- seen and heard

    @property
    def jumps(self) -> tuple[Jump, ...]:
        if not self.then:
            return (Jump(self.amount, None, self.total, Part.TOTAL),)
        return (Jump(self.tens, None, self.after_tens, Part.AFTER_TENS), *self.then.jumps)

    @property
    def is_long_to_count(self) -> bool:
        return True

    # ---- what the learner counts it under

    @property
    def step_items(self) -> tuple[Item, ...]:
        return (Item(Skill.TENS, (), self.operation), *(self.then.step_items if self.then else ()))

    @property
    def way(self) -> Item | None:
        return self.then.way if self.then else None

    def item_of(self, part: Part) -> Item | None:
        match part:
            case Part.AFTER_TENS | Part.TENS_TOGETHER:
                return Item(Skill.TENS, (), self.operation)
            case Part.WHOLE:
                return None
            case _:
                return self.then.item_of(part) if self.then else Item(Skill.JOIN)

    def spoken_against(self, mistake: str) -> Item | None:
        match mistake:
            case "ones-alone" | "tens-as-ones" | "extra-ten" | "extra-ten-taken" | "amount-reversed":
                return Item(Skill.TENS, (), self.operation)
            case "number-repeated" | "added" | "subtracted" | "previous-answer" | "start-reversed":
                return Item(Skill.HEARS)
            case "answer-reversed" | "both-digits-written":
                return Item(Skill.JOIN)
            case "one-short" | "one-over" | "start-counted" | "one-too-many":
                return Item(Skill.COUNT_ON)
            case _:
                return self.then.fact if self.then else Item(Skill.TENS, (), self.operation)

    @property
    def place_in_teaching(self) -> int:
        """Tens alone, then tens and ones that cross nothing, then those that do. Source: England, National curriculum,
        Year 2, in the order in which it lists them."""
        if not self.then:
            return COMES_AFTER_ONES
        return COMES_AFTER_ONES + (2 if self.kind is Kind.CROSSING else 1)


class FartherSum(Farther):
    """`start` 0 to 999 plus `amount` 10 to 99."""

    __slots__ = ()

    operation = Sum.operation
    operator = Sum.operator
    patterns = FARTHER_ADDED
    goes_up = True

    @property
    def then(self) -> OnesAfterTens | None:
        ones = self.amount % 10
        return OnesAfterTens(self.after_tens, ones) if ones else None


class FartherDifference(Farther):
    """`start` 0 to 999 take away `amount` 10 to 99, never below nought."""

    __slots__ = ()

    operation = Difference.operation
    operator = Difference.operator
    patterns = FARTHER_TAKEN
    goes_up = False

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.amount > self.start:
            most = f"from {self.start} take at most {self.start}" if self.start else "nothing can be taken from 0"
            raise CallerError(f"{self.start} take away {self.amount} is below nought; {most}.")

    @property
    def then(self) -> Difference | None:
        ones = self.amount % 10
        return Difference(self.after_tens, ones) if ones else None
