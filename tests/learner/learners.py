"""Practices of made-up pupils who learn, forget and slip, without a dialogue. They are no evidence about children."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import Enum
from itertools import product
from math import prod
from statistics import mean
from typing import TypeAlias

from saythesum.app.rehearsal.kinds import LEARNING
from saythesum.app.rehearsal.simulated_pupil import Mind
from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.grids.grid import Cell
from saythesum.core.records.rows import Answer, By, RowId, Settled, Support
from saythesum.core.sums import Part
from saythesum.learner.pupil import Pupil, with_answer
from saythesum.learner.selection import Band, choose
from saythesum.learner.skills import item_of, steps_of

FIRST_DAY = date(2026, 1, 5)

CORNER = Cell(0, 0)

CELLS = {
    Cell(row, column): Sum(start, amount)
    for (row, start), (column, amount) in product(
        enumerate((14, 26, 37, 48, 59, 65, 77, 86)), enumerate((2, 3, 4, 5, 6, 7, 8, 9))
    )
}
"""A grid of sixty-four sums of every kind."""


def learner(seed: str, share_known: float, *, forgets: bool = False) -> Mind:
    return Mind(replace(LEARNING.makeup, by_heart=share_known, steps=share_known, forgets=forgets), seed, FIRST_DAY)


def asked_of(pupil: Mind, cell: Cell, asked: Exercise, on: date) -> list[Answer]:
    """The whole sum, then, if it is missed, its steps with help."""
    first = _answered(pupil, cell, asked, Part.WHOLE, on)
    return [first] if first.right else [first, *(_answered(pupil, cell, asked, part, on) for part in asked.parts)]


def _answered(pupil: Mind, cell: Cell, asked: Exercise, part: Part, on: date) -> Answer:
    said = pupil.answer(asked, part, on)
    support = Support.INDEPENDENT if part is Part.WHOLE else Support.ASKED
    return replace(answer(asked, said.given, part=part, cell=cell, support=support), took_ms=said.took_ms)


def answer(
    asked: Exercise,
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
        sure=True,
    )


Picks: TypeAlias = Callable[[Mind, Pupil, Mapping[Cell, Sum], date], Cell]
"""What to ask of the open cells, of which there is one at least.

Only what is measured to see how much could be reached at all looks into the mind; the rest goes by what is known.
"""


def by_choice(band: Band) -> Picks:
    return lambda mind, known, open_cells, on: choose(known, open_cells, on, band).cell


def in_order(order: list[Cell]) -> Picks:
    """Goes round and round through the order, over practices too."""
    asked = 0

    def pick(mind: Mind, known: Pupil, open_cells: Mapping[Cell, Sum], on: date) -> Cell:
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


def practise(pupil: Mind, known: Pupil, picks: Picks, on: date, *, most: int = SHORT) -> tuple[Pupil, Asked]:
    """One practice, each cell at most once; what is known after it, and what it took."""
    open_cells = dict(CELLS)
    questions = 0
    while questions < most and open_cells:
        cell = picks(pupil, known, open_cells, on)
        answers = asked_of(pupil, cell, open_cells.pop(cell), on)
        for said in answers:
            known = with_answer(known, said, on)
        questions += len(answers)
    return known, Asked(questions, len(CELLS) - len(open_cells))


MOST_QUESTIONS = 3000


class Goal(Enum):
    BY_HEART = "every sum known by heart"
    ANY_WAY = "every sum known by heart or by all its steps"


def is_reached(pupil: Mind, asked: Sum, goal: Goal) -> bool:
    if pupil.knows(item_of(asked)):
        return True
    return goal is Goal.ANY_WAY and all(map(pupil.knows, steps_of(asked)))


def asked_to_know_all(seed: str, picks: Picks, share_known: float, goal: Goal, *, most: int) -> Asked:
    """In whole practices; nothing is forgotten meanwhile."""
    pupil = learner(seed, share_known)
    known = Pupil()
    on = FIRST_DAY
    so_far = Asked()
    while so_far.questions < MOST_QUESTIONS and not all(is_reached(pupil, asked, goal) for asked in CELLS.values()):
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
    pupil = learner(seed, share_known, forgets=True)
    known = Pupil()
    on = FIRST_DAY
    for _ in range(practices):
        on += timedelta(days=2)
        known, _ = practise(pupil, known, picks, on, most=most)
    later = on + timedelta(days=DAYS_AFTER)
    by_heart = [pupil.recall(item_of(asked), later) for asked in CELLS.values()]
    by_steps = [prod(pupil.recall(step, later) for step in steps_of(asked)) for asked in CELLS.values()]
    right = [1 - (1 - one) * (1 - other) for one, other in zip(by_heart, by_steps, strict=True)]
    return Left(mean(by_heart), mean(right))
