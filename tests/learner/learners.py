"""Made-up pupils who learn, forget and slip: seeded. They are no evidence about children.

They are not made of the model that is tested on them: what is known is known or not, memory halves with a half-life
that grows the more, the later it is recalled, and help teaches a step by chance.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from enum import Enum
from itertools import product
from math import prod
from random import Random
from statistics import mean
from typing import TypeAlias

from saythesum.core.grids import Cell
from saythesum.core.rows import Answer, By, RowId, Settled, Support
from saythesum.core.sums import Part, Sum, parts_of
from saythesum.learner.choosing import Band, choose
from saythesum.learner.pupil import Pupil, with_answer
from saythesum.learner.skills import Item, fact_of, in_decade_of, item_of_part, steps_of

SLIPS = 0.05
HEART_MS, STEPS_MS = 2000, 7000
"""Typical times to an answer known by heart, and to one found by its steps."""
TAUGHT = 0.4
"""How often help with a step is enough to know it from then on."""
FOUND = 0.5
"""How often a sum that was found by its steps is known by heart afterwards."""
TOLD = 0.25
"""How often a sum that was worked through is."""
CARRIED = 0.3
"""How often a fact that becomes known in one ten is known in another at once."""
FIRST_HALF_LIFE_DAYS, LONGEST_HALF_LIFE_DAYS = 4.0, 120.0
GROWS = 3.0
"""Recalled just before it is lost, a memory lasts four times as long; recalled at once, no longer (spacing: Cepeda et
al. 2008)."""
FIRST_DAY = date(2026, 1, 5)

CORNER = Cell(0, 0)

CELLS = {
    Cell(row, column): Sum(start, amount)
    for (row, start), (column, amount) in product(
        enumerate((14, 26, 37, 48, 59, 65, 77, 86)), enumerate((2, 3, 4, 5, 6, 7, 8, 9))
    )
}
"""A grid of sixty-four sums of every kind."""


@dataclass(slots=True)
class Memory:
    last: date
    half_life_days: float


@dataclass(slots=True)
class MadeUpPupil:
    dice: Random
    forgets: bool = False
    known: dict[Item, Memory] = field(default_factory=dict)

    def begin(self, share_known: float, on: date) -> None:
        for item in sorted(items_of(CELLS.values())):
            if self.dice.random() < share_known:
                self.known[item] = Memory(on, FIRST_HALF_LIFE_DAYS * self.dice.uniform(0.5, 4))

    def recalls(self, item: Item, on: date) -> bool:
        memory = self.known.get(item)
        if memory is None:
            return False
        return not self.forgets or self.dice.random() < self.recall(item, on)

    def recall(self, item: Item, on: date) -> float:
        memory = self.known.get(item)
        return 0.0 if memory is None else 0.5 ** ((on - memory.last).days / memory.half_life_days)

    def strengthen(self, item: Item, on: date, *, recalled: bool) -> None:
        """Learned anew, recalled, or lost and learned again: then half as lasting as it was."""
        memory = self.known.get(item)
        if memory is None:
            self.known[item] = Memory(on, FIRST_HALF_LIFE_DAYS)
        elif not recalled:
            self.known[item] = Memory(on, max(memory.half_life_days / 2, FIRST_HALF_LIFE_DAYS))
        else:
            forgotten = 1 - self.recall(item, on)
            grown = min(memory.half_life_days * (1 + GROWS * forgotten), LONGEST_HALF_LIFE_DAYS)
            self.known[item] = Memory(on, grown)

    def ask(self, cell: Cell, asked: Sum, on: date) -> list[Answer]:
        """The whole sum, then, if it is missed, its steps with help."""
        if self.recalls(in_decade_of(asked), on):
            self.strengthen(in_decade_of(asked), on, recalled=True)
            return [self._said(cell, asked, Part.WHOLE, right=self.dice.random() >= SLIPS)]
        if all(self.recalls(step, on) for step in steps_of(asked)) and self.dice.random() >= SLIPS:
            self._learn_sum(asked, on, FOUND)
            return [replace(self._said(cell, asked, Part.WHOLE, right=True), took_ms=self._took_ms(STEPS_MS))]
        answers = [self._said(cell, asked, Part.WHOLE, right=False)]
        for part in parts_of(asked):
            item = item_of_part(asked, part)
            assert item is not None
            recalled = self.recalls(item, on)
            is_right = recalled and self.dice.random() >= SLIPS
            answers.append(self._said(cell, asked, part, right=is_right))
            if is_right or self.dice.random() < TAUGHT:
                self.strengthen(item, on, recalled=recalled)
        self._learn_sum(asked, on, TOLD)
        return answers

    def _took_ms(self, usual_ms: int) -> int:
        return round(usual_ms * self.dice.lognormvariate(0, 0.4))

    def _learn_sum(self, asked: Sum, on: date, chance: float) -> None:
        if self.dice.random() < chance:
            self.strengthen(in_decade_of(asked), on, recalled=False)
            for other in CELLS.values():
                is_new = in_decade_of(other) not in self.known
                if is_new and fact_of(other) == fact_of(asked) and self.dice.random() < CARRIED:
                    self.strengthen(in_decade_of(other), on, recalled=False)

    def _said(self, cell: Cell, asked: Sum, part: Part, *, right: bool) -> Answer:
        support = Support.INDEPENDENT if part is Part.WHOLE else Support.ASKED
        truth = asked.answer_to(part)
        given = truth if right else max(truth + self.dice.choice((-10, -2, -1, 1, 2, 10)), 0)
        if not right and given == truth:
            given += 1
        said = answer(asked, given, part=part, cell=cell, support=support, id=str(self.dice.random()))
        return replace(said, took_ms=self._took_ms(HEART_MS))


def items_of(sums: Iterable[Sum]) -> set[Item]:
    return {item for asked in sums for item in (in_decade_of(asked), *steps_of(asked))}


def answer(
    asked: Sum,
    given: int,
    *,
    part: Part = Part.WHOLE,
    cell: Cell = CORNER,
    support: Support = Support.INDEPENDENT,
    id: str = "row",
) -> Answer:
    right = asked.answer_to(part)
    return Answer(
        id=RowId(id),
        row=cell.row,
        column=cell.column,
        start=asked.start,
        amount=asked.amount,
        part=part,
        right_answer=right,
        given=given,
        right=given == right,
        support=support,
        tries=1,
        certainty=None,
        close_to=(),
        heard=None,
        took_ms=2000,
        could_be=(),
        by=By.KEYS,
        settled=Settled.KEYS,
    )


Picks: TypeAlias = Callable[[Pupil, Mapping[Cell, Sum], date], Cell]
"""What to ask of the open cells, of which there is one at least."""


def by_choice(band: Band) -> Picks:
    return lambda pupil, open_cells, on: choose(pupil, open_cells, on, band).cell


def in_order(order: list[Cell]) -> Picks:
    """Goes round and round through the order, over practices too."""
    asked = 0

    def pick(pupil: Pupil, open_cells: Mapping[Cell, Sum], on: date) -> Cell:
        nonlocal asked
        while order[asked % len(order)] not in open_cells:
            asked += 1
        asked += 1
        return order[(asked - 1) % len(order)]

    return pick


SHORT, LONG = 16, 30
"""Questions in a practice. Every one counts, the steps asked in help too: they take time and patience as well."""


@dataclass(frozen=True, slots=True)
class Asked:
    """How much was asked: every question, and whole sums only."""

    questions: int = 0
    sums: int = 0


def practise(pupil: MadeUpPupil, known: Pupil, picks: Picks, on: date, *, most: int = SHORT) -> tuple[Pupil, Asked]:
    """One practice, each cell at most once; what is known after it, and what it took."""
    open_cells = dict(CELLS)
    questions = 0
    while questions < most and open_cells:
        cell = picks(known, open_cells, on)
        answers = pupil.ask(cell, open_cells.pop(cell), on)
        for said in answers:
            known = with_answer(known, said, on)
        questions += len(answers)
    return known, Asked(questions, len(CELLS) - len(open_cells))


MOST_QUESTIONS = 3000


class Goal(Enum):
    BY_HEART = "every sum known by heart"
    ANY_WAY = "every sum known by heart or by all its steps"


def _reached(pupil: MadeUpPupil, goal: Goal) -> bool:
    for asked in CELLS.values():
        is_by_steps = goal is Goal.ANY_WAY and pupil.known.keys() >= set(steps_of(asked))
        if in_decade_of(asked) not in pupil.known and not is_by_steps:
            return False
    return True


def asked_to_know_all(seed: str, picks: Picks, share_known: float, goal: Goal, *, most: int) -> Asked:
    """In whole practices; nothing is forgotten meanwhile."""
    pupil = MadeUpPupil(Random(seed))
    pupil.begin(share_known, FIRST_DAY)
    known = Pupil()
    on = FIRST_DAY
    so_far = Asked()
    while not _reached(pupil, goal) and so_far.questions < MOST_QUESTIONS:
        on += timedelta(days=2)
        known, asked = practise(pupil, known, picks, on, most=most)
        so_far = Asked(so_far.questions + asked.questions, so_far.sums + asked.sums)
    return so_far


DAYS_AFTER = 28


@dataclass(frozen=True, slots=True)
class Left:
    """What is left some weeks after the last practice, as shares of the grid's sums."""

    by_heart: float
    right: float
    """By heart or by all the steps."""


def kept_after(seed: str, picks: Picks, share_known: float, *, practices: int, most: int) -> Left:
    pupil = MadeUpPupil(Random(seed), forgets=True)
    pupil.begin(share_known, FIRST_DAY)
    known = Pupil()
    on = FIRST_DAY
    for _ in range(practices):
        on += timedelta(days=2)
        known, _ = practise(pupil, known, picks, on, most=most)
    later = on + timedelta(days=DAYS_AFTER)
    by_heart = [pupil.recall(in_decade_of(asked), later) for asked in CELLS.values()]
    by_steps = [prod(pupil.recall(step, later) for step in steps_of(asked)) for asked in CELLS.values()]
    right = [1 - (1 - one) * (1 - other) for one, other in zip(by_heart, by_steps, strict=True)]
    return Left(mean(by_heart), mean(right))
