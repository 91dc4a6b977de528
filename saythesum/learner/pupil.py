"""All that is known about one pupil, and what an answer changes in it.

It is rebuilt from the kept answers alone; whatever it holds is bounded, so a new answer costs the same after a
year as on the first day.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import lru_cache
from math import prod
from operator import or_
from typing import Any, NamedTuple, TypeAlias

from saythesum.core.exercises.exercise import Exercise, Key
from saythesum.core.exercises.registry import exercise
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.mistakes.pattern import Occasion
from saythesum.core.records.rows import Answer, By, Purpose
from saythesum.core.sums import Part
from saythesum.learner.diagnosis import Diagnosis, diagnosed, leaning, weighed
from saythesum.learner.evidence import Evidence, Unsettled, counted, evidence_of
from saythesum.learner.memory import Recalled, Trace, recall, remembered
from saythesum.learner.response_times import KEPT, is_worked_out
from saythesum.learner.review_schedule import Upkeep, kept_up
from saythesum.learner.skills import FEW, fact_of, item_of, steps_of, tracing_of
from saythesum.learner.tracing import Belief, chance_right, traced

EVIDENCE_KEPT = 40
"""A mistake that was believed in longer ago than so many answers is history."""
RECENT = 12
LIGHTLY = 0.3
"""How much a right whole answer tells about a fact or a way, which it may have been found without."""
CARRIES_OVER = 0.7
"""The chance that a fact known in ones is known from a start in a ten not tried yet. Our own choice."""
ANSWERS_TO_BE_SURE = 3
SURE_FROM_KNOWN = 0.95
"""Corbett and Anderson's criterion of mastery; one lucky answer must not meet it, hence the count."""


class FirstAnswer(NamedTuple):
    """A whole sum that was answered at first and without help."""

    key: Key
    right: bool
    on: date
    was_due: bool = False
    """It had been known, and its wait was over."""

    @property
    def asked(self) -> Exercise:
        return exercise(*self.key)


@dataclass(frozen=True, slots=True)
class Pupil:
    beliefs: dict[Item, Belief] = field(default_factory=dict)
    traces: dict[Item, Trace] = field(default_factory=dict)
    """Of bonds, facts and sums, across days."""
    upkeep: dict[Item, Upkeep] = field(default_factory=dict)
    """Of sums."""
    evidence: tuple[Evidence, ...] = ()
    recent: tuple[FirstAnswer, ...] = ()
    """The last whole answers, oldest first; those of a probe left out: its sums are not chosen to go well."""
    times_ms: Mapping[By, tuple[int, ...]] = field(default_factory=dict)
    unsettled: Unsettled = field(default_factory=dict)
    worked_out: frozenset[Item] = frozenset()
    """Sums that were right the last time, and were rather found than known."""
    broken: Item | None = None
    """The prerequisite that broke last, until it holds again."""

    def belief(self, item: Item) -> Belief:
        known = self.beliefs.get(item)
        if known is not None:
            return known
        if item.skill is Skill.IN_DECADE:
            fact = self.belief(Item(Skill.FACT, item.numbers[:2]))
            return Belief(fact.known * CARRIES_OVER)
        return Belief(tracing_of(item).known_at_first)

    def is_sure(self, item: Item) -> bool:
        belief = self.belief(item)
        return belief.known >= SURE_FROM_KNOWN and belief.answers >= ANSWERS_TO_BE_SURE

    def recall(self, asked: Exercise, on: date) -> float:
        """The chance that the sum still comes to mind, if it was known: by its own trace, or else by its fact's."""
        trace = self.traces.get(item_of(asked)) or self.traces.get(fact_of(asked))
        return 1.0 if trace is None else recall(trace, on)

    def by_heart(self, asked: Exercise, on: date) -> float:
        return self.belief(item_of(asked)).known * self.recall(asked, on)

    def by_steps(self, asked: Exercise) -> float:
        """The chance that all the steps hold, and that the pupil takes them unprompted."""
        steps = prod(self.belief(step).known for step in steps_of(asked))
        return steps * self.belief(asked.way).known if asked.way else steps

    def chance(self, asked: Exercise, on: date) -> float:
        """The chance of a right first answer: from memory, or else by the steps."""
        known = 1 - (1 - self.by_heart(asked, on)) * (1 - self.by_steps(asked))
        return chance_right(known, tracing_of(item_of(asked)))

    def diagnosis(self) -> Diagnosis:
        return diagnosed(self.evidence)

    def could_be(self, occasion: Occasion[Exercise], given: int) -> dict[str, float]:
        """What a wrong answer could come from: names and weights, what fits the other answers best first."""
        return weighed(occasion, given, self.leaning(occasion.asked))

    def leaning(self, asked: Exercise | None = None) -> Mapping[str, float]:
        """Which mistakes the last answers lean to. `asked`: what is asked now, whose own count too."""
        return leaning(self.evidence[-RECENT:], asked)

    def occasion_of(self, asked: Exercise, cell: Cell, grid: Grid | None, by: By) -> Occasion[Exercise]:
        """The sum with what stands beside it, where its grid is known, and what was answered before it."""
        before = next((one.given for one in reversed(self.evidence) if one.part is Part.WHOLE), None)
        is_typed = by is not By.VOICE
        if grid is None or cell not in grid or grid.exercise_at(cell) != asked:
            return Occasion(asked, is_typed, before=before)
        return grid.occasion_at(cell, is_typed=is_typed, before=before)


Merge: TypeAlias = Callable[[Any, Any], Any]
"""How a dict takes what is new: `or_` makes another one, `ior` changes it."""


def with_answer(pupil: Pupil, answer: Answer, on: date, grid: Grid | None = None, *, merge: Merge = or_) -> Pupil:
    """`grid` is where it was asked; without it, a lost place in the grid cannot be seen.

    With `ior` for `merge`, the pupil that is given is used up: quick, where nobody else holds it.
    """
    counts, unsettled = counted(answer, pupil.unsettled)
    if unsettled is not pupil.unsettled:
        pupil = replace(pupil, unsettled=unsettled)
    if counts is None:
        return pupil
    if counts.part is Part.WHOLE:
        return _with_whole(pupil, counts, on, grid, merge=merge)
    return _with_step(pupil, counts, on, merge=merge)


def _with_step(pupil: Pupil, answer: Answer, on: date, *, merge: Merge) -> Pupil:
    """One step tells about its own skill, and about the mistakes that it foretells.

    A question that only tells mistakes apart has no skill of its own.
    """
    evidence = evidence_of(answer)
    item = evidence.asked.item_of(answer.part)
    if item is None:
        return replace(pupil, evidence=(*pupil.evidence, evidence)[-EVIDENCE_KEPT:])
    dated = (item,) if item.skill in (Skill.BOND, Skill.FACT) else ()
    recalled = Recalled.AT_ONCE if answer.right else Recalled.NOT
    belief = traced(pupil.belief(item), tracing_of(item), right=answer.right)
    return replace(
        pupil,
        beliefs=merge(pupil.beliefs, {item: belief}),
        evidence=(*pupil.evidence, evidence)[-EVIDENCE_KEPT:],
        broken=_broken_after(pupil, item, right=answer.right),
        traces=merge(pupil.traces, _traces(pupil, dated, on, recalled)),
    )


def _broken_after(pupil: Pupil, item: Item, *, right: bool) -> Item | None:
    if not right:
        return item
    return None if pupil.broken == item else pupil.broken


def _with_whole(pupil: Pupil, answer: Answer, on: date, grid: Grid | None, *, merge: Merge) -> Pupil:
    evidence = evidence_of(answer)
    asked, right = evidence.asked, answer.right
    times_ms = pupil.times_ms.get(answer.by, ())
    recalled = _recalled(answer, times_ms)
    weights = _weights_after_right(asked, recalled) if right else _weights_after_wrong(pupil, answer, grid)
    here = item_of(asked)
    kept = pupil.upkeep.get(here)
    newest = FirstAnswer(asked.key, right, on, was_due=kept is not None and kept.is_due(on))
    beliefs = {
        item: traced(pupil.belief(item), tracing_of(item), right=right, weight=weight) for item, weight in weights
    }
    return replace(
        pupil,
        beliefs=merge(pupil.beliefs, beliefs),
        traces=merge(pupil.traces, _traces(pupil, (fact_of(asked), here), on, recalled)),
        upkeep=merge(pupil.upkeep, {here: kept_up(kept, on, right=right)}),
        evidence=(*pupil.evidence, evidence)[-EVIDENCE_KEPT:],
        recent=pupil.recent if answer.purpose is Purpose.PROBE else (*pupil.recent, newest)[-RECENT:],
        times_ms=pupil.times_ms
        if answer.took_ms is None or not right
        else {**pupil.times_ms, answer.by: (*times_ms, answer.took_ms)[-KEPT:]},
        worked_out=_worked_out(pupil.worked_out, here, recalled),
        broken=_still_broken(pupil, asked) if right else _heaviest(weights) or pupil.broken,
    )


def _recalled(answer: Answer, times_ms: Sequence[int]) -> Recalled:
    if not answer.right:
        return Recalled.NOT
    return Recalled.WORKED_OUT if is_worked_out(answer.took_ms, times_ms) else Recalled.AT_ONCE


def _worked_out(before: frozenset[Item], item: Item, recalled: Recalled) -> frozenset[Item]:
    is_so = recalled is Recalled.WORKED_OUT
    if is_so == (item in before):
        return before
    return before | {item} if is_so else before - {item}


def _still_broken(pupil: Pupil, asked: Exercise) -> Item | None:
    return None if pupil.broken and asked.needs(pupil.broken) else pupil.broken


@lru_cache(maxsize=FEW)
def _weights_after_right(asked: Exercise, recalled: Recalled) -> tuple[tuple[Item, float], ...]:
    """A right whole answer tells about this sum, a little about its fact and the way across, nothing about a step.

    Where it was worked out, it tells more of the way than of the fact.
    """
    by_way = 1.0 if recalled is Recalled.WORKED_OUT else LIGHTLY
    weights = {item_of(asked): 1.0}
    weights.setdefault(fact_of(asked), LIGHTLY)
    weights[Item(Skill.HEARS)] = 1.0
    if asked.way:
        weights[asked.way] = by_way
    counting_on = Item(Skill.COUNT_ON)
    if asked.needs(counting_on):
        weights[counting_on] = LIGHTLY
    return tuple(weights.items())


def _weights_after_wrong(pupil: Pupil, answer: Answer, grid: Grid | None) -> tuple[tuple[Item, float], ...]:
    """A wrong whole answer tells only what its diagnosis bears; one that was misheard by the pupil is no lack of
    the fact."""
    asked = answer.asked
    where = pupil.occasion_of(asked, Cell(*answer.place), grid, answer.by)
    weights: dict[Item, float] = {}
    for name, weight in pupil.could_be(where, answer.given).items():
        item = asked.spoken_against(name)
        if item is not None:
            weights[item] = weights.get(item, 0.0) + weight
    not_heard = weights.get(Item(Skill.HEARS), 0.0)
    return (*weights.items(), (item_of(asked), 1.0 - not_heard))


def _heaviest(weights: Sequence[tuple[Item, float]]) -> Item | None:
    """The prerequisite that most of the weight speaks against; the sum itself and the hearing are none."""
    able = [(weight, item) for item, weight in weights if item.skill not in (Skill.IN_DECADE, Skill.HEARS)]
    weight, item = max(able, default=(0.0, None), key=lambda one: one[0])
    return item if weight >= 0.5 else None


def _traces(pupil: Pupil, items: tuple[Item, ...], on: date, recalled: Recalled) -> dict[Item, Trace]:
    return {item: remembered(pupil.traces.get(item), on, recalled) for item in items}
