"""An exercise: one question with its steps, the mistakes that fit it, and how it is helped with.

The dialogue, the learner, the wording and the window ask the exercise and know no operation. A new one is a class with
an operation, an operator and a total; whatever else it does not define is as simple as it can be.
"""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from typing import Any, ClassVar, NamedTuple

from saythesum.core.exercises.equation import Equation
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.mistakes.anywhere import ANYWHERE
from saythesum.core.mistakes.pattern import HelpFrom, PartMistake, Pattern
from saythesum.core.sums import CLOSING_PARTS, LARGEST_AMOUNT, Calculation, ExerciseName, Hidden, Part
from saythesum.settings import Helping

HOLE = "?"
"""Where a missing number stands, in signs. In words it is "what number"."""
STEPS_BELOW = 10
"""A number below this can be meant for a step."""


@dataclass(frozen=True, slots=True)
class Operator:
    """The sign and the words for what is done with the amount. Wording puts them into its sentences."""

    sign: str
    """Shown: "+"."""
    says: str
    """Between the numbers, and before the amount alone: "add"."""
    doing: str
    """In "we're …": "adding"."""
    gives: str = "makes"
    """Between what is done and what comes of it, where that is said in the question."""


class Remark:
    """Something to be said about an exercise, as a value: a question for a part, or a true thing about a number.

    No remark holds the right answer of the whole. Its words are in wording.
    """

    __slots__ = ()

    @property
    def alone(self) -> "Remark":
        """The same question in words that lean on nothing said before."""
        return self


class Followed(Remark):
    """What says back a part that was answered rightly and is followed."""

    __slots__ = ()


@dataclass(frozen=True, slots=True)
class Help:
    """What a wrong whole answer is met with."""

    part: Part
    """Where help begins; at the whole it is a fresh look at the same question."""
    remarks: tuple[Remark, ...]
    """True of the number, and of every pattern that fits it."""


@dataclass(frozen=True, slots=True)
class Lead:
    """What came just before the question for a part, so that it may be asked in fewer words."""

    answered: Part | None = None
    """The part that was just answered."""
    given: int | None = None
    is_right: bool = False
    remarks: tuple[Remark, ...] = ()
    """What was just said of a wrong number."""
    is_again: bool = False
    begun_with: Part | None = None
    """What of the exercise's `begun` the pupil was asked for in this visit."""
    mistake: str | None = None
    """The kept name of the mistake that the question is about, where it tells that one from others."""


@dataclass(frozen=True, slots=True)
class Jump:
    """On the number line. The parts are those whose answers are the jump and the place where it lands."""

    by: int
    by_part: Part | None
    """None: what the question itself says."""
    to: int
    to_part: Part | None
    """The same."""


class Key(NamedTuple):
    """An exercise in plain values, as kept answers have it; `registry.exercise` makes the exercise of it."""

    operation: str
    start: int
    amount: int
    name: ExerciseName
    hidden: Hidden


class Exercise(Calculation):
    __slots__ = ()

    operation: ClassVar[str]
    """The registered word: what a kept answer and a grid file call it."""
    name: ClassVar[ExerciseName] = ExerciseName.SUM
    hidden: ClassVar[Hidden] = Hidden.TOTAL
    """Which of its numbers is asked for."""
    operator: ClassVar[Operator]
    amounts: ClassVar[range] = range(1, LARGEST_AMOUNT + 1)
    """What a grid's column may have."""
    way_gone: ClassVar[str | None] = None
    """The kept name of the way that its steps go, where it has one."""
    has_column: ClassVar[bool] = True
    """Whether a grid may ask it."""
    is_offered: ClassVar[bool] = True
    """Whether somebody who types a grid is told of it."""
    patterns: ClassVar[tuple[Pattern[Any], ...]] = ANYWHERE
    """The mistakes that may fit a whole answer."""
    part_mistakes: ClassVar[tuple[PartMistake[Any], ...]] = ()

    @property
    def key(self) -> Key:
        return Key(self.operation, self.start, self.amount, self.name, self.hidden)

    def by_way_of(self, helping: Helping) -> "Exercise":
        """The same question, by the steps that a pupil's settings prefer."""
        return self

    # ---- asking for a part, and what follows

    def question_for(self, part: Part, lead: Lead = Lead()) -> Remark:
        """Never for the whole: that is asked in the same way everywhere."""
        return AskPart(self, part)

    def after_right(self, lead: Lead) -> tuple[Remark, ...]:
        """What comes between a right part and the next question."""
        assert lead.given is not None
        return () if lead.answered in CLOSING_PARTS else (PartGiven(lead.given),)

    def done(self, part: Part) -> Remark:
        """The tool does this part for the pupil."""
        return PartDone(self, part)

    def part_after_doing(self, part: Part) -> Part:
        """What is asked once the tool has done this part."""
        return Part.TOTAL

    def part_after(self, answered: Part) -> Part:
        """What is asked after this part was answered rightly."""
        return self.parts[self.parts.index(answered) + 1]

    def can_do(self, part: Part) -> bool:
        """Whether the tool can do this part without giving the answer of the whole away."""
        return True

    def begun(self, asked_for: Collection[Part]) -> Part | None:
        """Of the parts that the pupil was asked for in a visit, the one that changes how later ones are asked."""
        return None

    def part_answered(self, asked_for: Part, given: int) -> Part | None:
        """The part that a number answers rightly, where this one is asked for; None where it answers none."""
        return asked_for if given == self.answer_to(asked_for) else None

    def is_another_try(self, asked_for: Part, given: int) -> bool:
        """Whether a number given for a part is meant for the whole."""
        return False

    def can_be_a_step(self, given: int) -> bool:
        return given < STEPS_BELOW

    # ---- a wrong number

    def compared(self, given: int) -> tuple[Remark, ...]:
        """What holds of a wrong whole answer, whatever led to it, and is false of the right one."""
        return ()

    def unexplained(self, given: int) -> tuple[Remark, ...]:
        """What is said of a wrong whole answer that no mistake gives."""
        return self.compared(given)

    def about_part(self, part: Part, given: int) -> tuple[Remark, ...]:
        """True of a wrong answer to one part."""
        return ()

    def help_from(self, begins: HelpFrom, given: int) -> Help:
        """For a pattern whose help begins there."""
        part = self.first_part(given) if begins is HelpFrom.STEPS else Part.WHOLE
        return Help(part, self.compared(given))

    def fresh_look(self, begins: HelpFrom, given: int) -> tuple[Remark, ...]:
        """What is said before the whole is asked again, where help with a mistake would begin there."""
        return self.compared(given)

    def first_part(self, given: int) -> Part:
        """Where the steps begin after a wrong whole answer. Without steps it is the whole, looked at again."""
        return self.parts[0] if self.parts else Part.WHOLE

    def deciding(self, names: Iterable[str]) -> tuple[Pattern[Any], ...]:
        """Of all that fit a whole answer, by their kept names; a name of a newer version, or of a part, decides
        nothing."""
        kept = frozenset(names)
        fitting = tuple(pattern for pattern in self.patterns if pattern.name in kept)
        return tuple(pattern for pattern in fitting if not pattern.gives_way) or fitting

    @property
    def small_questions(self) -> tuple[Part, ...]:
        """Parts that may be asked for to tell mistakes apart; of equally telling ones, the earlier is asked."""
        return ()

    def suits(self, part: Part, given: int) -> bool:
        """Whether such a question may follow this wrong whole answer. After "not yet" to a number, one that the same
        number answers rightly would sound like a contradiction."""
        return self.answer_to(part) != given

    def foretold(self, mistake: str, part: Part) -> tuple[int, ...]:
        """The wrong answers to such a question that this mistake may give; none where it does not show there."""
        return ()

    def taking_up(self, given: int) -> Part | None:
        """The small question that goes on from what is right in a wrong number."""
        return None

    def before_telling(self, part: Part, given: int) -> tuple[Remark, ...]:
        """What is said of a wrong whole answer before such a question."""
        return ()

    def part_mistakes_giving(self, part: Part, given: int) -> tuple[PartMistake[Any], ...]:
        """None where it is this part's right answer."""
        return tuple(mistake for mistake in self.part_mistakes if mistake.fits(self, part, given))

    # ---- seen and heard

    @property
    def shown(self) -> str:
        """In signs."""
        return f"{self.start} {self.operator.sign} {self.amount}"

    def shown_with(self, answer: int) -> str:
        """In signs, with an answer."""
        return f"{self.shown} = {answer}"

    @property
    def is_equation(self) -> bool:
        """Whether an equals sign stands in it already, or would say nothing after it."""
        return False

    @property
    def shown_amount(self) -> str:
        """At the head of its column."""
        return f"{self.operator.sign}{self.amount}"

    @property
    def jumps(self) -> tuple[Jump, ...]:
        """The way on the number line, when it is talked through in steps; none where no line helps."""
        return ()

    @property
    def on_line(self) -> "Exercise":
        """The exercise whose start, sign and jumps a number line has."""
        return self

    @property
    def total_asked(self) -> "Exercise":
        """The same numbers, with their total asked for."""
        return self

    @property
    def written(self) -> Equation:
        """On paper, the answer included."""
        return Equation(self.start, self.operator.sign, self.amount, self.total_asked.total)

    @property
    def written_steps(self) -> tuple[Equation, ...]:
        """Step by step on paper; none where it takes one step only."""
        if len(self.jumps) < 2:
            return ()
        froms = (self.start, *(jump.to for jump in self.jumps))
        sign = self.operator.sign
        return tuple(Equation(at, sign, jump.by, jump.to) for at, jump in zip(froms, self.jumps, strict=False))

    @property
    def is_long_to_count(self) -> bool:
        """Whether there is a shorter way than counting on in ones."""
        return False

    @property
    def count_begins(self) -> frozenset[int]:
        """The numbers at which counting aloud to the answer begins."""
        return frozenset()

    # ---- what the learner counts it under

    @property
    def item(self) -> Item:
        """The whole answer. What is known of it is known of this question alone."""
        return Item(Skill.ANSWER, (self.start, self.amount), self.operation)

    @property
    def fact(self) -> Item:
        """What the whole rests on, whatever the start's tens; the item itself where it rests on nothing else."""
        return self.item

    @property
    def step_items(self) -> tuple[Item, ...]:
        """What has to be known to find the answer step by step."""
        return tuple(item for part in self.parts if (item := self.item_of(part)) is not None)

    @property
    def way(self) -> Item | None:
        """Going that way unprompted, where it takes more than knowing the steps."""
        return None

    def item_of(self, part: Part) -> Item | None:
        """What one guided step exercises, and nothing else; None for the whole."""
        return None if part is Part.WHOLE else Item(Skill.STEP, (), f"{self.operation} {part}")

    def needs(self, item: Item) -> bool:
        """Whether the answer cannot well be found where this is not known."""
        return item in self.step_items or item == self.fact

    def spoken_against(self, mistake: str) -> Item | None:
        """What a wrong answer from this mistake speaks against; None where it speaks against nothing of it."""
        return None

    @property
    def place_in_teaching(self) -> int:
        """Lower comes first."""
        return 0


# ---- the remarks of an exercise that has none of its own


@dataclass(frozen=True, slots=True)
class AskPart(Remark):
    asked: Exercise
    part: Part


@dataclass(frozen=True, slots=True)
class PartGiven(Followed):
    value: int


@dataclass(frozen=True, slots=True)
class PartDone(Remark):
    asked: Exercise
    part: Part
