"""The missing amount: 47 and what number make 52, 52 take away what number leaves 47.

The steps of bridging give it directly: three to fifty and two more are five. Source: England, National curriculum, Year
2 (missing-number problems); the way is that of NCETM topic 1.13, teaching point 4, gone from number to number.
"""

from abc import abstractmethod
from collections.abc import Mapping

from saythesum.core.exercises import adding_help, taking_help
from saythesum.core.exercises import bridge_remarks as up
from saythesum.core.exercises import taking_remarks as back
from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import HOLE, Exercise, Help, Jump, Lead, PartGiven, Remark
from saythesum.core.exercises.missing import remarks
from saythesum.core.exercises.missing.help import can_be_said, ones_of
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.exercises.taking import Difference
from saythesum.core.mistakes.missing import MISSING_AMOUNT, MISSING_AMOUNT_PARTS
from saythesum.core.mistakes.pattern import HelpFrom
from saythesum.core.sums import CLOSING_PARTS, Bridge, Hidden, HiddenAmount, Kind, Part

LARGEST_JUMP_MADE = 19
"""A larger number cannot have been meant for a jump to the ten."""


class MissingAmount(HiddenAmount, Exercise):
    __slots__ = ()

    hidden = Hidden.AMOUNT
    patterns = MISSING_AMOUNT
    part_mistakes = MISSING_AMOUNT_PARTS

    def __post_init__(self) -> None:
        super().__post_init__()
        _ = self.total_asked  # refuses numbers that it is not made for

    @property
    @abstractmethod
    def total_asked(self) -> Sum | Difference: ...

    @abstractmethod
    def comes_to(self, start: int, amount: int) -> int:
        """What is done with these two; it may be below nought."""

    @property
    def bridge(self) -> Bridge:
        """From the start to the total, with its ten, gap and rest."""
        return self.total_asked

    @property
    def ten_part(self) -> Part:
        return self.total_asked.jumps[0].to_part or Part.NEXT_TEN

    @property
    def parts(self) -> tuple[Part, ...]:
        if self.bridge.kind is Kind.CROSSING:
            return (self.ten_part, Part.GAP, Part.REST, Part.TOTAL)
        return (Part.ONES, Part.TOTAL) if ones_of(self.bridge) else ()

    def answer_to(self, part: Part) -> int:
        if part not in self.parts or part in CLOSING_PARTS:
            return super().answer_to(part)
        return self.amount if part is Part.ONES else self.total_asked.answer_to(part)

    # ---- asking for a part, and what follows

    def question_for(self, part: Part, lead: Lead = Lead()) -> Remark:  # noqa: B008 - a frozen value
        match part:
            case Part.NEXT_TEN:
                return up.AskNextTen(self.start)
            case Part.TEN_BEFORE:
                return back.AskTenBefore(self.start)
            case Part.GAP:
                return remarks.AskToTen(self.bridge)
            case Part.REST:
                return remarks.AskFromTen(self.bridge)
            case Part.ONES:
                return remarks.AskOnes(self.operator, *self._ones)
            case _ if self.bridge.kind is Kind.CROSSING:
                return remarks.AskBoth(self.bridge)
            case _:
                return remarks.AskSo(self)

    @property
    def _ones(self) -> tuple[int, int]:
        ones = ones_of(self.bridge)
        assert ones, "the ones are asked only where they are a step"
        return ones

    def after_right(self, lead: Lead) -> tuple[Remark, ...]:
        if lead.answered in (None, *CLOSING_PARTS):
            return ()
        assert lead.given is not None
        return (PartGiven(lead.given),)

    def done(self, part: Part) -> Remark:
        match part:
            case Part.NEXT_TEN | Part.TEN_BEFORE:
                return self.total_asked.done(part)
            case _:
                return remarks.DoJump(self.bridge, self.operator, part)

    def can_do(self, part: Part) -> bool:
        return part is not Part.ONES

    def part_after_doing(self, part: Part) -> Part:
        return self.part_after(part)

    def part_answered(self, asked_for: Part, given: int) -> Part | None:
        """The ten is accepted where the jump to it was asked, and the jump where the ten was."""
        match asked_for:
            case _ if given == self.answer_to(asked_for):
                return asked_for
            case Part.GAP if given == self.bridge.next_ten:
                return self.ten_part
            case Part.NEXT_TEN | Part.TEN_BEFORE if given == self.bridge.gap:
                return Part.GAP
            case _:
                return None

    # ---- a wrong number

    def compared(self, given: int) -> tuple[Remark, ...]:
        if given == self.result != self.start:
            return (remarks.IsTheTotal(given, self.operator),)
        return (self._put_in(self.start, given, self.result, self.amount),)

    def _put_in(self, start: int, given: int, needed: int, right: int) -> Remark:
        """`right`: what should have been given."""
        makes = self.comes_to(start, given)
        if can_be_said(given, makes, needed, self.amount):
            return remarks.PutIn(self.operator, start, given, makes, needed)
        return remarks.TooManyOrFew(given, given > right)

    def help_from(self, begins: HelpFrom, given: int) -> Help:
        match begins:
            case HelpFrom.REST if Part.REST in self.parts:
                return Help(Part.REST, (remarks.ReachesTen(self.bridge, self.operator),))
            case HelpFrom.GAP if Part.GAP in self.parts:
                return Help(Part.GAP, self.compared(given))
            case HelpFrom.STEPS | HelpFrom.GAP | HelpFrom.REST:
                return Help(self.first_part(given), self.compared(given))
            case _:
                return Help(Part.WHOLE, self.compared(given))

    def about_part(self, part: Part, given: int) -> tuple[Remark, ...]:
        bridge = self.bridge
        match part:
            case Part.NEXT_TEN:
                return adding_help.about_part(bridge, part, given)
            case Part.TEN_BEFORE:
                return taking_help.about_part(bridge, part, given, None)
            case Part.GAP if given > LARGEST_JUMP_MADE:
                return (up.MoreThanTen(given),)
            case Part.GAP:
                return (self._put_in(bridge.start, given, bridge.next_ten, bridge.gap),)
            case Part.REST:
                return (self._put_in(bridge.next_ten, given, self.result, bridge.rest),)
            case Part.ONES:
                return (self._put_in(self._ones[0], given, self._ones[1], self.amount),)
            case _ if given in (bridge.gap, bridge.rest) and bridge.kind is Kind.CROSSING and bridge.gap != bridge.rest:
                return (up.OnePart(given, bridge.rest if given == bridge.gap else bridge.gap),)
            case _:
                return self.compared(given)

    @property
    def small_questions(self) -> tuple[Part, ...]:
        """The steps themselves."""
        return tuple(part for part in self.parts if part is not Part.TOTAL)

    def foretold(self, mistake: str, part: Part) -> tuple[int, ...]:
        if part not in self.parts:
            return ()
        bridge, right = self.bridge, self.answer_to(part)
        shown: Mapping[tuple[str, Part], tuple[int, ...]] = {
            ("start-counted", Part.GAP): (bridge.gap + 1,),
            ("one-short", Part.GAP): (bridge.gap - 1,),
            ("start-counted", Part.ONES): (right + 1,),
            ("one-short", Part.ONES): (right - 1,),
            ("stopped-at-the-ten", Part.REST): (0,),
            ("extra-ten", self.ten_part): (right + (10 if bridge.total > bridge.start else -10),),
        }
        return tuple(number for number in shown.get((mistake, part), ()) if number >= 0 and number != right)

    def before_telling(self, part: Part, given: int) -> tuple[Remark, ...]:
        return (remarks.ReachesTen(self.bridge, self.operator),) if part is Part.REST else self.compared(given)

    # ---- seen and heard

    @property
    def shown(self) -> str:
        return f"{self.start} {self.operator.sign} {HOLE} = {self.result}"

    @property
    def is_equation(self) -> bool:
        return True

    def shown_with(self, answer: int) -> str:
        return self.shown.replace(HOLE, str(answer))

    @property
    def jumps(self) -> tuple[Jump, ...]:
        """Where both ends are said: the jumps are what is looked for."""
        if self.bridge.kind is not Kind.CROSSING:
            return (Jump(self.amount, Part.TOTAL, self.result, None),)
        to_ten = Jump(self.bridge.gap, Part.GAP, self.bridge.next_ten, self.ten_part)
        return (to_ten, Jump(self.bridge.rest, Part.REST, self.result, None))

    @property
    def count_begins(self) -> frozenset[int]:
        """Steps are counted from the start, and the answer is how many there were."""
        return self.total_asked.count_begins - {self.amount}

    # ---- what the learner counts it under

    @property
    def _of(self) -> str:
        return f"{self.operation} {self.hidden}"

    @property
    def item(self) -> Item:
        return Item(Skill.IN_DECADE, (*self.fact.numbers, self.start // 10), self._of)

    @property
    def fact(self) -> Item:
        return Item(Skill.FACT, self.total_asked.fact.numbers, self._of)

    @property
    def step_items(self) -> tuple[Item, ...]:
        items = (self.item_of(part) for part in self.parts)
        return tuple(item for item in items if item is not None) or (self.total_asked.fact,)

    @property
    def way(self) -> Item | None:
        return Item(Skill.BRIDGES, (), self._of) if self.bridge.kind is Kind.CROSSING else None

    def item_of(self, part: Part) -> Item | None:
        match part:
            case Part.TOTAL if self.bridge.kind is Kind.CROSSING:
                return self.total_asked.partition
            case Part.REST:
                return self.total_asked.item_of(Part.TOTAL)
            case Part.ONES if self.bridge.kind is Kind.LANDING:
                return self.total_asked.item_of(Part.GAP)
            case Part.TOTAL | Part.WHOLE:
                return None
            case _:
                return self.total_asked.item_of(part)

    def spoken_against(self, mistake: str) -> Item | None:
        match mistake:
            case "stopped-at-the-ten" | "rest-alone" if self.bridge.kind is Kind.CROSSING:
                return self.total_asked.partition
            case "start-counted" | "one-short":
                return Item(Skill.COUNT_ON)
            case "extra-ten":
                return self.item_of(self.ten_part)
            case "ones-differenced" | "fact-slip":
                return self.fact
            case "number-repeated" | "numbers-put-together" | "previous-answer":
                return Item(Skill.HEARS)
            case _:
                return None

    @property
    def place_in_teaching(self) -> int:
        """After all whose total is asked. Our own choice: a missing number turns round what was learnt there."""
        return MISSING_COMES_AFTER + self.total_asked.place_in_teaching


MISSING_COMES_AFTER = 10


class AddedAmount(MissingAmount):
    """`start` 0 to 999 and what number make `start` + `amount`?"""

    __slots__ = ()

    operation = Sum.operation
    operator = Sum.operator

    @property
    def total_asked(self) -> Sum:
        return Sum(self.start, self.amount)

    def comes_to(self, start: int, amount: int) -> int:
        return start + amount


class TakenAmount(MissingAmount):
    """`start` take away what number leaves `start` - `amount`?"""

    __slots__ = ()

    operation = Difference.operation
    operator = Difference.operator

    @property
    def total_asked(self) -> Difference:
        return Difference(self.start, self.amount)

    def comes_to(self, start: int, amount: int) -> int:
        return start - amount
