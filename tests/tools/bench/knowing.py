"""What it costs to know the pupil: each answer of whole practices, after a few earlier rows and after two million."""

import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import timedelta
from random import Random

from saythesum.core.grids.grid import Grid, Order
from saythesum.core.meanings import Number
from saythesum.core.records.rows import Answer
from saythesum.dialogue.step import step
from saythesum.dialogue.turns.effects import Ear, Effect
from saythesum.dialogue.turns.events import Entered, Event
from saythesum.dialogue.tutor.plan import Plan, activity, planned
from saythesum.dialogue.tutor.progress import cell_of
from saythesum.learner.pupil import Pupil
from saythesum.learner.replay import learned
from saythesum.settings import Settings
from tests.dialogue.made_plans import BEGAN_AT, finding_plan
from tests.talk import PRACTICE, Talk
from tests.tools.bench.lines import TIMES, Figure
from tests.tools.learning_figures.cost import made_rows

GRID = Grid("Rows of oars", (16, 27, 38, 49, 54, 65, 73, 82), (3, 4, 5, 6, 7, 8, 9, 2), Order.CHOSEN)
MADE_ROWS, FEW_ROWS, MANY_ROWS = 100_000, 200, 2_000_000
REPLAYS = 5


def answers() -> Iterator[Figure]:
    rows = made_rows(MADE_ROWS, 1)
    replays = [_took_ms(lambda: learned(rows)) for _ in range(REPLAYS)]
    yield Figure(f"{MADE_ROWS} rows replayed", replays, "ms", 2000)
    few, many = learned(rows[:FEW_ROWS]), learned(rows)
    for again in range(1, MANY_ROWS // MADE_ROWS):
        later = timedelta(days=1000 * again)
        many = learned((replace(kept, at=kept.at + later) for kept in rows), many)
    diagnoses = [_took_ms(many.diagnosis) for _ in range(TIMES)]
    yield Figure("posterior after an answer", diagnoses, "ms", 5)
    for before, count in ((few, FEW_ROWS), (many, MANY_ROWS)):
        took = _answered(_plan(Order.CHOSEN, before))
        yield Figure(f"an answer and the next cell, after {count} rows", took, "ms", 20)
    for before, count in ((few, FEW_ROWS), (many, MANY_ROWS)):
        took = _answered(_plan(Order.ROWS, before))
        yield Figure(f"an answer in the grid's order, after {count} rows", took, "ms")
    yield Figure("an answer and the next cell, finding out", _answered(finding_plan()), "ms", 20)


def _plan(order: Order, before: Pupil) -> Plan:
    return planned(PRACTICE, [activity(replace(GRID, order=order), 0)], Settings(), began_at=BEGAN_AT, before=before)


class _TimedAnswers(Talk):
    """Each answer is stepped once more to be timed: a step changes nothing outside."""

    took_ms: list[float]

    def post(self, event: Event) -> list[Effect]:
        if isinstance(event, Entered):
            self.took_ms.append(_took_ms(lambda: step(self.state, event)))
        return super().post(event)


def _answered(plan: Plan) -> list[float]:
    """Of a whole practice, every third first answer wrong."""
    dice = Random(1)
    talk = _TimedAnswers(plan, Ear.TEXT)
    talk.took_ms = []
    talk.begin()
    while not talk.finished:
        ask = talk.state.progress.ask
        assert ask is not None
        right = plan.exercise_at(cell_of(ask)).answer_to(ask.part)
        is_first = not any(isinstance(row, Answer) for row in talk.state.progress.visit)
        talk.type(Number(right - 1 if is_first and dice.random() < 1 / 3 else right))
    return talk.took_ms


def _took_ms(work: Callable[[], object]) -> float:
    began = time.perf_counter()
    work()
    return (time.perf_counter() - began) * 1000
