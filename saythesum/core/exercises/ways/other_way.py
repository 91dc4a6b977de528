"""Adding in another way than through the next ten. A right answer is right by any of them.

Source of the ways: the 1999 national guidance on teaching mental calculation (England): near doubles in Year 1, adding
nine by adding ten and taking one back in Year 2; Australia AC9M2N04: partitioning, bridging ten, near doubles.
"""

from collections.abc import Collection
from typing import ClassVar

from saythesum.core.exercises import adding_help
from saythesum.core.exercises import bridge_remarks as bridge
from saythesum.core.exercises.adding import MOST_COUNTED_ON, Sum
from saythesum.core.exercises.exercise import Exercise, Help, Jump, Lead, PartGiven, Remark
from saythesum.core.exercises.facts.fact_remarks import Together
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.exercises.ways import remarks
from saythesum.core.mistakes.pattern import HelpFrom
from saythesum.core.sums import CLOSING_PARTS, LARGEST_AMOUNT, ExerciseName, Kind, Part
from saythesum.errors import CallerError

LEAST_TO_ROUND = 8
"""From here on ten is nearly the amount."""
LARGEST_JUMP_MADE = 19
"""A larger number cannot have been meant for one of the steps."""


class OtherWay(Sum):
    """Steps of its own; whole answers, their mistakes and what the learner counts are those of the sum."""

    __slots__ = ()

    has_column = is_offered = False
    part_mistakes = ()
    steps: ClassVar[tuple[Part, ...]]

    def __post_init__(self) -> None:
        super().__post_init__()
        if not self.goes(self.start, self.amount):
            raise CallerError(f"{self.start} add {self.amount} does not go by the way {self.name}.")

    @staticmethod
    def goes(start: int, amount: int) -> bool:
        """Whether the sum is shorter by this way."""
        raise NotImplementedError

    @property
    def parts(self) -> tuple[Part, ...]:
        return (*self.steps, Part.TOTAL)

    def after_right(self, lead: Lead) -> tuple[Remark, ...]:
        assert lead.given is not None
        return () if lead.answered in CLOSING_PARTS else (PartGiven(lead.given),)

    def done(self, part: Part) -> Remark:
        return remarks.DoWayStep(self, part)

    def part_after(self, answered: Part) -> Part:
        return self.parts[self.parts.index(answered) + 1]

    def part_after_doing(self, part: Part) -> Part:
        return self.part_after(part)

    def begun(self, asked_for: Collection[Part]) -> Part | None:
        return None

    def part_answered(self, asked_for: Part, given: int) -> Part | None:
        return asked_for if given == self.answer_to(asked_for) else None

    def is_another_try(self, asked_for: Part, given: int) -> bool:
        is_small = asked_for in (Part.TOO_MANY, Part.DOUBLE, Part.ONES)
        return is_small and given > max(self.start, 2 * LARGEST_AMOUNT)

    def about_part(self, part: Part, given: int) -> tuple[Remark, ...]:
        if part in (Part.ONES, Part.ONE_MORE):
            return adding_help.about_part(self, part, given)
        return self.compared(given) if part in CLOSING_PARTS else ()

    def help_from(self, begins: HelpFrom, given: int) -> Help:
        """From wherever it would begin on the way through the ten, it begins with this way's first step."""
        help = super().help_from(begins, given)
        return help if help.part is Part.WHOLE else Help(self.first_part(given), self.compared(given))

    def first_part(self, given: int) -> Part:
        return self.parts[0]

    @property
    def small_questions(self) -> tuple[Part, ...]:
        return ()

    def foretold(self, mistake: str, part: Part) -> tuple[int, ...]:
        return ()

    def taking_up(self, given: int) -> Part | None:
        return None

    def before_telling(self, part: Part, given: int) -> tuple[Remark, ...]:
        return ()

    @property
    def jumps(self) -> tuple[Jump, ...]:
        """One jump for the whole."""
        return (Jump(self.amount, None, self.total, Part.TOTAL),)

    def item_of(self, part: Part) -> Item | None:
        match part:
            case Part.ONES:
                return self.fact
            case Part.ONE_MORE:
                return Item(Skill.COUNT_ON)
            case Part.TOTAL:
                return Item(Skill.JOIN)
            case _:
                return Exercise.item_of(self, part)


class Compensated(OtherWay):
    """Forty-seven add nine: add ten, and take one back."""

    __slots__ = ()

    name = ExerciseName.COMPENSATED
    way_gone = "compensated"
    steps = (Part.TEN_ON, Part.TOO_MANY)

    @staticmethod
    def goes(start: int, amount: int) -> bool:
        return amount >= LEAST_TO_ROUND

    @property
    def too_many(self) -> int:
        return 10 - self.amount

    def answer_to(self, part: Part) -> int:
        match part:
            case Part.TEN_ON:
                return self.start + 10
            case Part.TOO_MANY:
                return self.too_many
            case _:
                return super().answer_to(part)

    def question_for(self, part: Part, lead: Lead = Lead()) -> Remark:  # noqa: B008 - a frozen value
        match part:
            case Part.TEN_ON:
                return remarks.AskTenOn(self.start)
            case Part.TOO_MANY:
                return remarks.AskTooMany(self.amount)
            case _:
                return remarks.AskTakeBack(self)

    def about_part(self, part: Part, given: int) -> tuple[Remark, ...]:
        step = given - self.start
        if part is Part.TEN_ON and 0 < step <= LARGEST_JUMP_MADE and step != self.total:
            return (remarks.TenOnMakes(self.start, given),)
        return super().about_part(part, given)

    def item_of(self, part: Part) -> Item | None:
        """Taking one or two back joins nothing."""
        return Exercise.item_of(self, part) if part is Part.TOTAL else super().item_of(part)


class Doubled(OtherWay):
    """Thirty-seven add eight: seven and seven, and one more; then the tens."""

    __slots__ = ()

    name = ExerciseName.DOUBLED
    way_gone = "doubled"
    steps = (Part.DOUBLE, Part.ONES)

    @staticmethod
    def goes(start: int, amount: int) -> bool:
        return start >= 10 and abs(start % 10 - amount) == 1 and start % 10 + amount > 10

    @property
    def smaller(self) -> int:
        return min(self.ones, self.amount)

    def answer_to(self, part: Part) -> int:
        match part:
            case Part.DOUBLE:
                return 2 * self.smaller
            case Part.ONES:
                return self.ones_total
            case _:
                return super().answer_to(part)

    def question_for(self, part: Part, lead: Lead = Lead()) -> Remark:  # noqa: B008 - a frozen value
        match part:
            case Part.DOUBLE:
                return remarks.AskDouble(self.smaller)
            case Part.ONES:
                return remarks.AskBesideDouble(self)
            case _:
                return bridge.AskTensAndOnes(self)

    def about_part(self, part: Part, given: int) -> tuple[Remark, ...]:
        other = given - self.smaller
        if part is Part.DOUBLE and 0 < other <= LARGEST_JUMP_MADE and self.total not in (given, other):
            return (Together(self.smaller, other),)
        return super().about_part(part, given)

    def item_of(self, part: Part) -> Item | None:
        return Item(Skill.FACT, (self.smaller, self.smaller)) if part is Part.DOUBLE else super().item_of(part)


class ByTensAndOnes(OtherWay):
    """Thirty-eight add five: eight and five, then the tens."""

    __slots__ = ()

    name = ExerciseName.TENS_AND_ONES
    way_gone = "tens-and-ones"
    steps = (Part.ONES,)

    @staticmethod
    def goes(start: int, amount: int) -> bool:
        return start >= 10 and start % 10 + amount >= 10

    def answer_to(self, part: Part) -> int:
        return self.ones_total if part is Part.ONES else super().answer_to(part)

    def question_for(self, part: Part, lead: Lead = Lead()) -> Remark:  # noqa: B008 - a frozen value
        return bridge.AskOnes(self.ones, self.amount) if part is Part.ONES else bridge.AskTensAndOnes(self)


class Counted(OtherWay):
    """Forty-nine add three: fifty, and two more."""

    __slots__ = ()

    name = ExerciseName.COUNTED
    way_gone = "counted"
    steps = (Part.ONE_MORE,)

    @staticmethod
    def goes(start: int, amount: int) -> bool:
        return 2 <= amount <= MOST_COUNTED_ON

    def question_for(self, part: Part, lead: Lead = Lead()) -> Remark:  # noqa: B008 - a frozen value
        if part is Part.ONE_MORE:
            return bridge.AskOneMore(self.start, is_again=lead.is_again)
        return remarks.AskMore(self.amount - 1)


OTHER_WAYS: dict[ExerciseName, type[OtherWay]] = {
    kind.name: kind for kind in (Compensated, Doubled, Counted, ByTensAndOnes)
}
"""In the order in which one is looked for, where the way through the ten has not helped."""


def other_way(asked: Exercise) -> Exercise | None:
    """For a sum across a ten that was talked through by way of the ten: the first that goes."""
    if type(asked) is not Sum or asked.kind is not Kind.CROSSING:
        return None
    ways = (kind for kind in OTHER_WAYS.values() if kind.goes(asked.start, asked.amount))
    return next((kind(asked.start, asked.amount) for kind in ways), None)


def in_way(asked: Exercise, name: ExerciseName) -> Exercise:
    """The same question by the steps of that way; as it is where the name is none of the other ways."""
    kind = OTHER_WAYS.get(name)
    is_able = kind is not None and isinstance(asked, Sum) and asked.name is not name
    return kind(asked.start, asked.amount) if kind and is_able else asked


def preferred(asked: Exercise, adding: str) -> Exercise:
    """By the way that a pupil's settings prefer, where the sum goes by it and crosses or lands on a ten."""
    kind = OTHER_WAYS.get(_SETTINGS.get(adding, ExerciseName.SUM))
    if kind is None or type(asked) is not Sum or asked.kind is Kind.WITHIN:
        return asked
    return kind(asked.start, asked.amount) if kind.goes(asked.start, asked.amount) else asked


_SETTINGS = {
    "ten and back": ExerciseName.COMPENSATED,
    "near doubles": ExerciseName.DOUBLED,
    "tens and ones": ExerciseName.TENS_AND_ONES,
    "counting on": ExerciseName.COUNTED,
}
"""The settings' own words."""
