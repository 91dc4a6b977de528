"""The missing start: what number and 5 make 52, what number take away 5 leaves 47.

It is worked back: from 52 take away 5. Source: England, National curriculum, Year 2: the inverse of adding and taking
away, used to solve missing-number problems. Every step, and what is true of a wrong one, is the way back's own.
"""

from abc import abstractmethod
from collections.abc import Collection
from typing import Any

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import HOLE, Exercise, Help, Lead, Remark
from saythesum.core.exercises.missing import remarks
from saythesum.core.exercises.missing.amount import MISSING_COMES_AFTER
from saythesum.core.exercises.missing.help import can_be_said
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.exercises.taking import Difference
from saythesum.core.mistakes.missing import MISSING_START_ADDED, MISSING_START_TAKEN
from saythesum.core.mistakes.pattern import HelpFrom, PartMistake
from saythesum.core.sums import Hidden, HiddenStart, Part


class MissingStart(HiddenStart, Exercise):
    __slots__ = ()

    hidden = Hidden.START

    def __post_init__(self) -> None:
        super().__post_init__()
        _ = self.total_asked, self.inverse  # refuses numbers that it is not made for

    @property
    @abstractmethod
    def total_asked(self) -> Sum | Difference: ...

    @property
    @abstractmethod
    def inverse(self) -> Sum | Difference:
        """The way back, from what the question says that it makes, or leaves."""

    @abstractmethod
    def comes_to(self, start: int, amount: int) -> int:
        """What is done with these two; it may be below nought."""

    @property
    def parts(self) -> tuple[Part, ...]:
        return self.inverse.parts

    def answer_to(self, part: Part) -> int:
        return self.inverse.answer_to(part)

    # ---- asking for a part, and what follows

    def question_for(self, part: Part, lead: Lead = Lead()) -> Remark:  # noqa: B008 - a frozen value
        """Where the steps begin it is said that they go back."""
        if lead.is_right or lead.is_again:
            return self.inverse.question_for(part, lead)
        question = self.inverse.question_for(part, Lead(is_again=bool(lead.remarks)))
        return remarks.WorkBack(self.inverse, question, is_way_told=not lead.remarks)

    def after_right(self, lead: Lead) -> tuple[Remark, ...]:
        return self.inverse.after_right(lead)

    def done(self, part: Part) -> Remark:
        return self.inverse.done(part)

    def part_after_doing(self, part: Part) -> Part:
        return self.inverse.part_after_doing(part)

    def part_after(self, answered: Part) -> Part:
        return self.inverse.part_after(answered)

    def begun(self, asked_for: Collection[Part]) -> Part | None:
        return self.inverse.begun(asked_for)

    def part_answered(self, asked_for: Part, given: int) -> Part | None:
        return self.inverse.part_answered(asked_for, given)

    def is_another_try(self, asked_for: Part, given: int) -> bool:
        return self.inverse.is_another_try(asked_for, given)

    # ---- a wrong number

    def compared(self, given: int) -> tuple[Remark, ...]:
        if given == self.result:
            return (remarks.IsTheTotal(given, self.operator),)
        makes = self.comes_to(given, self.amount)
        if can_be_said(given, makes, self.result, self.start):
            return (remarks.PutIn(self.operator, given, self.amount, makes, self.result),)
        return (remarks.TooManyOrFew(given, given > self.start),)

    def help_from(self, begins: HelpFrom, given: int) -> Help:
        is_whole = begins is HelpFrom.QUESTION_AGAIN
        return Help(Part.WHOLE if is_whole else self.first_part(given), self.compared(given))

    def about_part(self, part: Part, given: int) -> tuple[Remark, ...]:
        return self.inverse.about_part(part, given)

    def part_mistakes_giving(self, part: Part, given: int) -> tuple[PartMistake[Any], ...]:
        return self.inverse.part_mistakes_giving(part, given)

    # ---- seen and heard

    @property
    def shown(self) -> str:
        return f"{HOLE} {self.operator.sign} {self.amount} = {self.result}"

    @property
    def is_equation(self) -> bool:
        return True

    def shown_with(self, answer: int) -> str:
        return self.shown.replace(HOLE, str(answer))

    @property
    def on_line(self) -> Exercise:
        return self.inverse

    @property
    def count_begins(self) -> frozenset[int]:
        return self.inverse.count_begins

    # ---- what the learner counts it under

    @property
    def _of(self) -> str:
        return f"{self.operation} {self.hidden}"

    @property
    def item(self) -> Item:
        return self.inverse.item._replace(of=self._of)

    @property
    def fact(self) -> Item:
        return self.inverse.fact._replace(of=self._of)

    @property
    def step_items(self) -> tuple[Item, ...]:
        return self.inverse.step_items

    @property
    def way(self) -> Item | None:
        return Item(Skill.BRIDGES, (), self._of) if self.inverse.way else None

    def item_of(self, part: Part) -> Item | None:
        return self.inverse.item_of(part)

    def needs(self, item: Item) -> bool:
        return item == self.fact or self.inverse.needs(item)

    def spoken_against(self, mistake: str) -> Item | None:
        return Item(Skill.HEARS) if mistake == "not-undone" else self.inverse.spoken_against(mistake)

    @property
    def place_in_teaching(self) -> int:
        return MISSING_COMES_AFTER + self.total_asked.place_in_teaching


class AddedToStart(MissingStart):
    """What number and `amount` make `start` + `amount`?"""

    __slots__ = ()

    operation = Sum.operation
    operator = Sum.operator
    patterns = MISSING_START_ADDED

    @property
    def total_asked(self) -> Sum:
        return Sum(self.start, self.amount)

    def comes_to(self, start: int, amount: int) -> int:
        return start + amount

    @property
    def inverse(self) -> Difference:
        return Difference(self.start + self.amount, self.amount)


class TakenFromStart(MissingStart):
    """What number take away `amount` leaves `start` - `amount`?"""

    __slots__ = ()

    operation = Difference.operation
    operator = Difference.operator
    patterns = MISSING_START_TAKEN

    @property
    def total_asked(self) -> Difference:
        return Difference(self.start, self.amount)

    def comes_to(self, start: int, amount: int) -> int:
        return start - amount

    @property
    def inverse(self) -> Sum:
        return Sum(self.start - self.amount, self.amount)
