"""Adding one to nine, by way of the next ten."""

from collections.abc import Collection

from saythesum.core.exercises import adding_help, telling_apart
from saythesum.core.exercises import bridge_remarks as remarks
from saythesum.core.exercises.exercise import Exercise, Help, Jump, Lead, Operator, PartGiven, Remark
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.mistakes.adding import CATALOGUE
from saythesum.core.mistakes.adding_steps import PART_MISTAKES
from saythesum.core.mistakes.pattern import HelpFrom
from saythesum.core.sums import LARGEST_AMOUNT, LARGEST_FARTHER_AMOUNT, Bridge, Kind, Part

MOST_COUNTED_ON = 3
"""Up to here counting on is as good as any way."""


class Sum(Bridge, Exercise):
    """`start` 0 to 999 plus `amount` 1 to 9."""

    __slots__ = ()

    operation = "add"
    operator = Operator("+", "add", "adding")
    amounts = range(1, LARGEST_FARTHER_AMOUNT + 1)
    patterns = CATALOGUE
    part_mistakes = PART_MISTAKES

    def __post_init__(self) -> None:
        super().__post_init__()
        self._check_amount(LARGEST_AMOUNT)

    @property
    def way_gone(self) -> str | None:  # type: ignore[override]
        return "bridged" if self.kind is Kind.CROSSING else None

    @property
    def total(self) -> int:
        return self.start + self.amount

    @property
    def next_ten(self) -> int:
        """A start that is a ten itself has the one after it."""
        return self.tens + 10

    @property
    def gap(self) -> int:
        """1 to 10."""
        return self.next_ten - self.start

    @property
    def ones_total(self) -> int:
        return self.ones + self.amount

    def answer_to(self, part: Part) -> int:
        match part:
            case Part.TENS:
                return self.start // 10
            case Part.ONE_MORE:
                return self.start + 1
            case Part.TENS_OF_ONES:
                return self.ones_total // 10
            case Part.ONES:
                return self.ones_total
            case _:
                return super().answer_to(part)

    # ---- asking for a part, and what follows

    def question_for(self, part: Part, lead: Lead = Lead()) -> Remark:  # noqa: B008 - a frozen value
        match part:
            case Part.NEXT_TEN:
                return remarks.AskNextTen(self.start)
            case Part.GAP:
                return self._question_for_gap(lead)
            case Part.REST if lead.is_right and lead.answered is Part.GAP:
                is_ten_by_pupil = lead.begun_with is Part.NEXT_TEN
                return remarks.AskRest(self.amount, is_gap_just_said=True, is_ten_by_pupil=is_ten_by_pupil)
            case Part.REST:
                return remarks.AskRest(self.amount)
            case Part.ONES:
                return remarks.AskOnes(self.ones, self.amount, is_after_tens=lead.answered is Part.TENS)
            case Part.TENS:
                is_turned_round = lead.mistake in telling_apart.TURNED_ROUND and self.ones not in (0, self.start // 10)
                return remarks.AskTens(self.start, is_either=is_turned_round)
            case Part.ONE_MORE:
                return remarks.AskOneMore(self.start, is_again=lead.is_again)
            case Part.TENS_OF_ONES:
                return remarks.AskTensOfOnes(self, is_again=lead.is_again)
            case _ if lead.begun_with is Part.ONES:
                return remarks.AskTensAndOnes(self)
            case _:
                return remarks.AskTotal(self)

    def _question_for_gap(self, lead: Lead) -> Remark:
        if lead.is_right and lead.answered is Part.NEXT_TEN:
            return remarks.AskGap(self, is_ten_just_said=True)
        if not lead.is_again and adding_help.names_the_ten(lead.remarks):
            return remarks.AskGap(self, is_ten_just_told=True)
        if adding_help.is_ones_for_gap(self, lead.answered, lead.given):
            return remarks.AskBond(self.ones)
        return remarks.AskGap(self, is_again=lead.is_again)

    def after_right(self, lead: Lead) -> tuple[Remark, ...]:
        match lead.answered:
            case Part.NEXT_TEN:
                return (remarks.TenGiven(self.next_ten),)
            case Part.GAP:
                return (remarks.GapGiven(self, is_ten_by_pupil=lead.begun_with is Part.NEXT_TEN),)
            case Part.ONES:
                return (remarks.OnesGiven(self.ones_total),)
            case Part.TENS | Part.TENS_OF_ONES:
                return (remarks.TensGiven(self.answer_to(lead.answered)),)
            case Part.ONE_MORE:
                return (PartGiven(self.start + 1),)
            case _:
                return ()

    def done(self, part: Part) -> Remark:
        match part:
            case Part.NEXT_TEN:
                return remarks.DoNextTen(self)
            case Part.GAP:
                return remarks.DoGap(self)
            case Part.REST:
                return remarks.DoRest(self)
            case Part.TENS:
                return remarks.InTens(self.start)
            case Part.TENS_OF_ONES:
                return remarks.InTens(self.ones_total)
            case Part.ONE_MORE:
                return remarks.DoOneMore(self.start)
            case _:
                return remarks.DoOnes(self)

    def part_after_doing(self, part: Part) -> Part:
        match part:
            case Part.NEXT_TEN:
                return Part.GAP
            case Part.TENS | Part.ONE_MORE:
                return self.part_after(part)
            case _:
                return Part.TOTAL

    def part_after(self, answered: Part) -> Part:
        return telling_apart.part_after(self, answered) or super().part_after(answered)

    def begun(self, asked_for: Collection[Part]) -> Part | None:
        """By tens and ones, where these were put together last; or by the pupil's own next ten."""
        by_ones = {Part.ONES, Part.TENS_OF_ONES}
        if self.kind is not Kind.WITHIN and not by_ones.isdisjoint(asked_for):
            return Part.ONES
        return Part.NEXT_TEN if Part.NEXT_TEN in asked_for else None

    def part_answered(self, asked_for: Part, given: int) -> Part | None:
        """The next ten is accepted where the gap was asked, and the gap where the next ten was."""
        match asked_for:
            case _ if given == self.answer_to(asked_for):
                return asked_for
            case Part.GAP if self.kind is Kind.CROSSING and given == self.next_ten:
                return Part.NEXT_TEN
            case Part.NEXT_TEN if given == self.gap:
                return Part.GAP
            case _:
                return None

    def is_another_try(self, asked_for: Part, given: int) -> bool:
        """A number too large to be a jump or the ones, where one of these is asked."""
        if asked_for is Part.ONES and self.kind is not Kind.WITHIN:
            return given > max(self.start, 2 * LARGEST_AMOUNT)
        is_small = asked_for in (Part.GAP, Part.REST, Part.ONES, Part.TENS, Part.TENS_OF_ONES)
        is_past_ten = asked_for is not Part.TENS_OF_ONES or given > max(self.start, 2 * LARGEST_AMOUNT)
        return is_small and is_past_ten and given > max(self.start, 10) and given != self.next_ten

    # ---- a wrong number

    def compared(self, given: int) -> tuple[Remark, ...]:
        return adding_help.compared(self, given)

    def unexplained(self, given: int) -> tuple[Remark, ...]:
        return adding_help.unexplained(self, given)

    def about_part(self, part: Part, given: int) -> tuple[Remark, ...]:
        return adding_help.about_part(self, part, given)

    def help_from(self, begins: HelpFrom, given: int) -> Help:
        return adding_help.help_from(begins, self, given)

    def fresh_look(self, begins: HelpFrom, given: int) -> tuple[Remark, ...]:
        return adding_help.fresh_look(begins, self, given)

    def first_part(self, given: int) -> Part:
        return adding_help.first_part(self, given)

    @property
    def small_questions(self) -> tuple[Part, ...]:
        return telling_apart.small_questions(self)

    def suits(self, part: Part, given: int) -> bool:
        return super().suits(part, given) and telling_apart.suits(self, part, given)

    def foretold(self, mistake: str, part: Part) -> tuple[int, ...]:
        return telling_apart.answers_foretold(mistake, self, part)

    def taking_up(self, given: int) -> Part | None:
        return telling_apart.taking_up(self, given)

    def before_telling(self, part: Part, given: int) -> tuple[Remark, ...]:
        return telling_apart.before(self, part, given)

    # ---- seen and heard

    @property
    def jumps(self) -> tuple[Jump, ...]:
        if self.kind is not Kind.CROSSING:
            by_part = Part.GAP if self.kind is Kind.LANDING else None
            return (Jump(self.amount, by_part, self.total, Part.TOTAL),)
        to_ten = Jump(self.gap, Part.GAP, self.next_ten, Part.NEXT_TEN)
        return (to_ten, Jump(self.rest, Part.REST, self.total, Part.TOTAL))

    @property
    def is_long_to_count(self) -> bool:
        return self.kind is Kind.CROSSING and self.amount > MOST_COUNTED_ON

    @property
    def count_begins(self) -> frozenset[int]:
        """The start, or one after it, except where that is the answer already: the right answer would otherwise be
        the only number that is no count and is waited for so long."""
        return frozenset({self.start, self.start + 1} - {self.total})

    # ---- what the learner counts it under

    @property
    def item(self) -> Item:
        return Item(Skill.IN_DECADE, (*self.fact.numbers, self.start // 10))

    @property
    def fact(self) -> Item:
        return Item(Skill.FACT, (min(self.ones, self.amount), max(self.ones, self.amount)))

    @property
    def bond(self) -> Item:
        """Of 7 and of 3 alike: three and seven make ten."""
        return Item(Skill.BOND, (min(self.ones, 10 - self.ones),))

    @property
    def partition(self) -> Item:
        return Item(Skill.PARTITION, (self.amount, min(self.gap, self.rest)))

    @property
    def step_items(self) -> tuple[Item, ...]:
        match self.kind:
            case Kind.CROSSING:
                return (Item(Skill.NEXT_TEN), self.bond, self.partition, Item(Skill.JOIN))
            case Kind.LANDING:
                return (Item(Skill.NEXT_TEN), self.bond)
            case Kind.WITHIN:
                return (self.fact, Item(Skill.JOIN))

    @property
    def way(self) -> Item | None:
        return Item(Skill.BRIDGES) if self.kind is Kind.CROSSING else None

    def item_of(self, part: Part) -> Item | None:
        match part:
            case Part.NEXT_TEN:
                return Item(Skill.NEXT_TEN)
            case Part.GAP:
                return self.bond
            case Part.REST:
                return self.partition
            case Part.ONES:
                return self.fact
            case Part.TOTAL:
                return Item(Skill.JOIN)
            case _:
                return None

    def needs(self, item: Item) -> bool:
        if item.skill is Skill.COUNT_ON:
            return self.amount <= MOST_COUNTED_ON
        return item in (*self.step_items, self.fact)

    def spoken_against(self, mistake: str) -> Item | None:
        match _SPEAKS_AGAINST.get(mistake):
            case None:
                return None
            case Skill.PARTITION:
                return self.partition
            case Skill.BOND:
                return self.bond
            case Skill.FACT:
                return self.fact
            case skill:
                return Item(skill)

    @property
    def place_in_teaching(self) -> int:
        """Adding one comes first. Source of the order: NCETM topic 1.13."""
        return 0 if self.amount == 1 else 1 + _TEACHING.index(self.kind)


_TEACHING = (Kind.WITHIN, Kind.LANDING, Kind.CROSSING)

_SPEAKS_AGAINST = {
    "new-ten-lost": Skill.NEXT_TEN,
    "extra-ten": Skill.NEXT_TEN,
    "both-digits-written": Skill.JOIN,
    "ten-written-ones-carried": Skill.JOIN,
    "amount-in-the-tens": Skill.JOIN,
    "amount-to-both-digits": Skill.JOIN,
    "all-digits-totalled": Skill.JOIN,
    "answer-reversed": Skill.JOIN,
    "ones-only": Skill.JOIN,
    "one-short": Skill.COUNT_ON,
    "one-over": Skill.COUNT_ON,
    "stopped-at-the-ten": Skill.PARTITION,
    "whole-amount-after-bridging": Skill.PARTITION,
    "gap-used-twice": Skill.PARTITION,
    "landing-crossed": Skill.BOND,
    "double-not-adjusted": Skill.FACT,
    "fact-slip": Skill.FACT,
    "subtracted": Skill.HEARS,
    "ones-differenced": Skill.HEARS,
    "number-repeated": Skill.HEARS,
    "start-reversed": Skill.HEARS,
    "multiplied": Skill.HEARS,
    "teen-or-ty-start": Skill.HEARS,
    "previous-answer": Skill.HEARS,
    "neighbour-cell": Skill.HEARS,
}
"""Which skill a mistake speaks against. Those left out speak against none of them."""
