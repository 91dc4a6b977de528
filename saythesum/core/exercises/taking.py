"""Taking away one to nine, back by way of the ten before: through that ten, or from it.

Source of the two ways: NCETM topic 1.11, "Addition and subtraction: bridging 10" (England), teaching point 6: 63 take
away 8 is 63, 60, 55 through the ten; from the ten it is 60 take away 8, and 3.
"""

from saythesum.core.exercises import taking_help
from saythesum.core.exercises import taking_remarks as remarks
from saythesum.core.exercises.equation import Equation
from saythesum.core.exercises.exercise import Exercise, Help, Jump, Lead, Operator, PartGiven, Remark
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.mistakes.pattern import HelpFrom
from saythesum.core.mistakes.taking import TAKE_CATALOGUE
from saythesum.core.mistakes.taking_steps import FROM_TEN_PART_MISTAKES, TAKE_PART_MISTAKES
from saythesum.core.sums import CLOSING_PARTS, LARGEST_AMOUNT, LARGEST_FARTHER_AMOUNT, Bridge, ExerciseName, Kind, Part
from saythesum.errors import CallerError
from saythesum.settings import Helping

LARGEST_STEP = 19
"""A larger number cannot have been meant for one of the steps."""
MOST_COUNTED_BACK = 3
"""Up to here counting back is as good as any way."""


class Difference(Bridge, Exercise):
    """`start` 0 to 999 take away `amount` 1 to 9, never below nought, through the ten."""

    __slots__ = ()

    operation = "take"
    operator = Operator("−", "take away", "taking away", "leaves")
    amounts = range(1, LARGEST_FARTHER_AMOUNT + 1)
    patterns = TAKE_CATALOGUE
    part_mistakes = TAKE_PART_MISTAKES

    def __post_init__(self) -> None:
        super().__post_init__()
        self._check_amount(LARGEST_AMOUNT)
        if self.amount > self.start:
            most = f"from {self.start} take at most {self.start}" if self.start else "nothing can be taken from 0"
            raise CallerError(f"{self.start} take away {self.amount} is below nought; {most}.")

    def by_way_of(self, helping: Helping) -> Exercise:
        is_from_ten = helping.taking_away == "from the ten" and self.kind is Kind.CROSSING
        return DifferenceFromTen(self.start, self.amount) if is_from_ten else self

    @property
    def total(self) -> int:
        """What stays."""
        return self.start - self.amount

    @property
    def next_ten(self) -> int:
        """The ten that is met on the way back; of a start that is a ten itself, that start."""
        return self.tens

    @property
    def gap(self) -> int:
        """0 to 9: the ones of the start."""
        return self.ones

    @property
    def opened(self) -> int:
        """The ones that are taken from where no ten is crossed: of a start that is a ten itself, a ten is opened."""
        return self.ones or 10

    @property
    def ones_total(self) -> int:
        """What stays of these."""
        return self.opened - self.amount

    @property
    def from_ten(self) -> int:
        """What stays when all of the amount is taken from the ten."""
        return self.next_ten - self.amount

    @property
    def kind(self) -> Kind:
        """Nothing is crossed from a ten itself."""
        return super().kind if self.ones else Kind.WITHIN

    @property
    def parts(self) -> tuple[Part, ...]:
        match self.kind:
            case Kind.CROSSING:
                return (Part.TEN_BEFORE, Part.GAP, Part.REST, Part.TOTAL)
            case _ if self.start <= 10:  # nought is no ten to go back to
                return ()
            case Kind.LANDING:
                return (Part.GAP, Part.TOTAL)
            case _:
                return (Part.ONES, Part.TOTAL)

    def answer_to(self, part: Part) -> int:
        if part is Part.TEN_BEFORE and part in self.parts:
            return self.next_ten
        return super().answer_to(part)

    @property
    def to_join(self) -> tuple[int, int] | None:
        """The two numbers that the total is put together from; None where the last step takes away, or where there
        are no tens to join."""
        tens = self.start - self.opened
        return (tens, self.ones_total) if self.kind is Kind.WITHIN and tens else None

    # ---- asking for a part, and what follows

    def question_for(self, part: Part, lead: Lead = Lead()) -> Remark:  # noqa: B008 - a frozen value
        match part:
            case Part.TEN_BEFORE:
                return remarks.AskTenBefore(self.start)
            case Part.GAP:
                return remarks.AskGapBack(self, is_ten_just_said=lead.is_right, is_again=lead.is_again)
            case Part.REST:
                is_told = any(isinstance(remark, remarks.TenLessGap) for remark in lead.remarks)
                return remarks.AskStillToTake(self, is_gap_just_told=is_told)
            case Part.ONES:
                return remarks.AskOnesTaken(self)
            case Part.FROM_TEN:
                return remarks.AskFromTen(self)
            case _:
                return remarks.AskLastStep(self, self.to_join)

    def after_right(self, lead: Lead) -> tuple[Remark, ...]:
        if lead.answered is Part.GAP:
            return (remarks.GapBackGiven(self),)
        if lead.answered in (None, *CLOSING_PARTS, Part.REST):
            return ()
        assert lead.given is not None
        return (PartGiven(lead.given),)

    def done(self, part: Part) -> Remark:
        return remarks.DoStepBack(self, part)

    def part_after_doing(self, part: Part) -> Part:
        return self.parts[1] if part is Part.TEN_BEFORE else Part.TOTAL

    def part_answered(self, asked_for: Part, given: int) -> Part | None:
        """The ten is accepted where the jump back to it was asked, and the jump where the ten was."""
        match asked_for:
            case _ if given == self.answer_to(asked_for):
                return asked_for
            case Part.GAP if self.kind is Kind.CROSSING and given == self.next_ten:
                return Part.TEN_BEFORE
            case Part.TEN_BEFORE if Part.GAP in self.parts and given == self.gap:
                return Part.GAP
            case _:
                return None

    def is_another_try(self, asked_for: Part, given: int) -> bool:
        """A number too large to be a jump or the ones, where one of these is asked."""
        is_small = asked_for in (Part.GAP, Part.REST, Part.ONES)
        return is_small and given > LARGEST_STEP and given != self.next_ten

    # ---- a wrong number

    def compared(self, given: int) -> tuple[Remark, ...]:
        return taking_help.compared(self, given)

    def about_part(self, part: Part, given: int) -> tuple[Remark, ...]:
        return taking_help.about_part(self, part, given, self.to_join)

    def help_from(self, begins: HelpFrom, given: int) -> Help:
        return taking_help.help_from(begins, self, given)

    def first_part(self, given: int) -> Part:
        return taking_help.first_part(self, given)

    def fresh_look(self, begins: HelpFrom, given: int) -> tuple[Remark, ...]:
        return taking_help.fresh_look(begins, self, given)

    @property
    def small_questions(self) -> tuple[Part, ...]:
        """The steps themselves."""
        return tuple(part for part in self.parts if part is not Part.TOTAL)

    def foretold(self, mistake: str, part: Part) -> tuple[int, ...]:
        return taking_help.foretold(mistake, self, part)

    def taking_up(self, given: int) -> Part | None:
        return taking_help.taking_up(self, given)

    def before_telling(self, part: Part, given: int) -> tuple[Remark, ...]:
        return taking_help.before_telling(self, part, given)

    # ---- seen and heard

    @property
    def jumps(self) -> tuple[Jump, ...]:
        if self.kind is not Kind.CROSSING:
            return (Jump(self.amount, None, self.total, Part.TOTAL),)
        to_ten = Jump(self.gap, Part.GAP, self.next_ten, Part.TEN_BEFORE)
        return (to_ten, Jump(self.rest, Part.REST, self.total, Part.TOTAL))

    @property
    def count_begins(self) -> frozenset[int]:
        """As in adding: never the right answer, which would otherwise be waited for longer than any other number."""
        return frozenset({self.start, self.start - 1} - {self.total})

    # ---- what the learner counts it under

    @property
    def item(self) -> Item:
        return Item(Skill.IN_DECADE, (*self.fact.numbers, self.start // 10), self.operation)

    @property
    def fact(self) -> Item:
        """Of 63 take away 8 it is thirteen take away eight."""
        return Item(Skill.FACT, (self.total % 10, self.amount), self.operation)

    @property
    def partition(self) -> Item:
        """The amount split in two, as in adding."""
        return Item(Skill.PARTITION, (self.amount, min(self.gap, self.rest)))

    @property
    def step_items(self) -> tuple[Item, ...]:
        items = (self.item_of(part) for part in self.parts)
        return tuple(item for item in items if item is not None) or (self.fact,)

    @property
    def way(self) -> Item | None:
        return Item(Skill.BRIDGES, (), self.operation) if self.kind is Kind.CROSSING else None

    def item_of(self, part: Part) -> Item | None:
        match part:
            case Part.TEN_BEFORE:
                return Item(Skill.NEXT_TEN, (), self.operation)
            case Part.REST:
                return self.partition
            case Part.ONES if self.ones:
                return self.fact
            case Part.ONES | Part.FROM_TEN:
                return _bond(self.amount)
            case Part.TOTAL if self.kind is Kind.CROSSING:
                return _bond(self.rest)
            case Part.TOTAL:
                return Item(Skill.JOIN)
            case _:
                return super().item_of(part)

    def needs(self, item: Item) -> bool:
        if item.skill is Skill.COUNT_ON:
            return self.amount <= MOST_COUNTED_BACK
        return item in (*self.step_items, self.fact)

    def spoken_against(self, mistake: str) -> Item | None:
        match _SPEAKS_AGAINST.get(mistake):
            case None:
                return None
            case Skill.PARTITION if self.kind is Kind.CROSSING:
                return self.partition
            case Skill.FACT | Skill.PARTITION:
                return self.fact
            case Skill.NEXT_TEN:
                return Item(Skill.NEXT_TEN, (), self.operation)
            case skill:
                return Item(skill)

    @property
    def place_in_teaching(self) -> int:
        """Each kind beside the same kind of adding. Source of the order: NCETM topic 1.13."""
        return 0 if self.amount == 1 else 1 + _TEACHING.index(self.kind)


class DifferenceFromTen(Difference):
    """The same where it crosses, from the ten: all of the amount is taken from the ten, and the ones come back."""

    __slots__ = ()

    name = ExerciseName.FROM_TEN
    has_column = is_offered = False
    part_mistakes = FROM_TEN_PART_MISTAKES

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.kind is not Kind.CROSSING:
            raise CallerError(f"{self.start} take away {self.amount} crosses no ten to take from.")

    @property
    def parts(self) -> tuple[Part, ...]:
        return (Part.TEN_BEFORE, Part.FROM_TEN, Part.TOTAL)

    def answer_to(self, part: Part) -> int:
        return self.from_ten if part is Part.FROM_TEN else super().answer_to(part)

    @property
    def to_join(self) -> tuple[int, int]:
        return (self.from_ten, self.ones)

    def item_of(self, part: Part) -> Item | None:
        return Item(Skill.JOIN) if part is Part.TOTAL else super().item_of(part)

    def part_answered(self, asked_for: Part, given: int) -> Part | None:
        return asked_for if given == self.answer_to(asked_for) else None

    @property
    def jumps(self) -> tuple[Jump, ...]:
        """The way is no way along the line: one jump for the whole."""
        return (Jump(self.amount, None, self.total, Part.TOTAL),)

    @property
    def written_steps(self) -> tuple[Equation, ...]:
        """The ones of the start come back after the amount is taken from the ten."""
        from_ten = Equation(self.next_ten, self.operator.sign, self.amount, self.from_ten)
        return (from_ten, Equation(self.from_ten, "+", self.ones, self.total))


def _bond(one: int) -> Item:
    return Item(Skill.BOND, (min(one, 10 - one),))


_TEACHING = (Kind.WITHIN, Kind.LANDING, Kind.CROSSING)

_SPEAKS_AGAINST = {
    "ones-differenced": Skill.FACT,
    "ten-not-taken": Skill.NEXT_TEN,
    "extra-ten-taken": Skill.NEXT_TEN,
    "stopped-at-the-ten": Skill.PARTITION,
    "whole-amount-after-bridging": Skill.PARTITION,
    "first-jump-twice": Skill.PARTITION,
    "start-counted": Skill.COUNT_ON,
    "one-too-many": Skill.COUNT_ON,
    "added": Skill.HEARS,
    "number-repeated": Skill.HEARS,
    "answer-reversed": Skill.JOIN,
    "start-reversed": Skill.HEARS,
    "ones-only": Skill.JOIN,
    "teen-or-ty-start": Skill.HEARS,
    "landing-crossed": Skill.FACT,
    "fact-slip": Skill.FACT,
    "previous-answer": Skill.HEARS,
    "neighbour-cell": Skill.HEARS,
}
"""Which skill a mistake speaks against. Those left out speak against none of them."""
