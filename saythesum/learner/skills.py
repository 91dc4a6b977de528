"""How likely each skill is known at first, learned, slipped and guessed.

What an exercise counts as which skill is its own; it is looked up for every answer of a year, so it is kept here.
"""

from functools import lru_cache

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.skills import Item, Skill
from saythesum.learner.tracing import Tracing

FEW = 2048
"""Exercises to keep the items of: more than a pupil ever meets in a year."""


@lru_cache(maxsize=FEW)
def fact_of(asked: Exercise) -> Item:
    return asked.fact


@lru_cache(maxsize=FEW)
def item_of(asked: Exercise) -> Item:
    return asked.item


@lru_cache(maxsize=FEW)
def steps_of(asked: Exercise) -> tuple[Item, ...]:
    return asked.step_items


_TRACING = {
    Skill.NEXT_TEN: Tracing(0.5, 0.15, slip=0.05, guess=0.05),
    Skill.BOND: Tracing(0.4, 0.15, slip=0.08, guess=0.1),
    Skill.PARTITION: Tracing(0.4, 0.15, slip=0.08, guess=0.1),
    Skill.JOIN: Tracing(0.6, 0.15, slip=0.05, guess=0.05),
    Skill.TENS: Tracing(0.5, 0.15, slip=0.05, guess=0.05),
    Skill.COUNT_ON: Tracing(0.6, 0.1, slip=0.1, guess=0.05),
    Skill.IN_DECADE: Tracing(0.3, 0.1, slip=0.08, guess=0.03),
    Skill.BRIDGES: Tracing(0.2, 0.1, slip=0.1, guess=0.05),
    Skill.ANSWER: Tracing(0.3, 0.1, slip=0.08, guess=0.03),
    Skill.STEP: Tracing(0.4, 0.15, slip=0.08, guess=0.1),
    Skill.HEARS: Tracing(0.9, 0.05, slip=0.05, guess=0.1),
}
"""Our own choice, within the usual bounds (slip to 0.1, guess to 0.3); a number said freely is seldom guessed."""

_FACT_OF_TIES = Tracing(0.6, 0.1, slip=0.08, guess=0.03)
_FACTS = tuple(Tracing(0.65 - 0.05 * smaller, 0.1, slip=0.08, guess=0.03) for smaller in range(10))
"""By the smaller number. Source of the order: Groen and Parkman 1972, times grow with the smaller number; ties do
not. The probabilities are our own."""


@lru_cache(maxsize=FEW)
def tracing_of(item: Item) -> Tracing:
    if item.skill is not Skill.FACT:
        return _TRACING[item.skill]
    smaller, larger = sorted(item.numbers)
    return _FACT_OF_TIES if smaller == larger else _FACTS[smaller]
