"""The separate skills of adding across a ten, and what an answer tells about which.

Source of the list: US National Research Council 2009, Mathematics Learning in Early Childhood, pp. 153-154 (the
partner to ten, ten and some ones, all partners of a number); Secada, Fuson and Hall 1983 (counting on);
Thorndike, The Psychology of Arithmetic (a fact known at ten is not always known at sixty).
"""

from enum import StrEnum
from functools import lru_cache
from typing import NamedTuple

from saythesum.core.sums import Kind, Part, Sum
from saythesum.learner.tracing import Tracing


class Skill(StrEnum):
    NEXT_TEN = "next-ten"
    BOND = "bond"
    """The partner to ten."""
    PARTITION = "partition"
    """An amount split in two."""
    JOIN = "join"
    """A ten and some ones make a number."""
    COUNT_ON = "count-on"
    FACT = "fact"
    """The sum of two ones digits."""
    IN_DECADE = "in-decade"
    """That sum from a start in one particular ten."""
    BRIDGES = "bridges"
    """Gets across the ten unprompted."""
    HEARS = "hears"
    """Hears the question and holds it: no arithmetic."""

    __hash__ = str.__hash__  # an enum's own is slow, and every belief is looked up by it


class Item(NamedTuple):
    """One thing to be known; the numbers say which, where a skill has several."""

    skill: Skill
    numbers: tuple[int, ...] = ()


FEW = 2048
"""Sums to keep the items of: more than a pupil ever meets in a year."""
MOST_COUNTED_ON = 3
"""Up to here counting on is as good as any way."""


@lru_cache(maxsize=FEW)
def bond_of(asked: Sum) -> Item:
    """Of 7 and of 3 alike: three and seven make ten."""
    return Item(Skill.BOND, (min(asked.ones, 10 - asked.ones),))


@lru_cache(maxsize=FEW)
def partition_of(asked: Sum) -> Item:
    return Item(Skill.PARTITION, (asked.amount, min(asked.gap, asked.rest)))


@lru_cache(maxsize=FEW)
def fact_of(asked: Sum) -> Item:
    return Item(Skill.FACT, (min(asked.ones, asked.amount), max(asked.ones, asked.amount)))


@lru_cache(maxsize=FEW)
def in_decade_of(asked: Sum) -> Item:
    return Item(Skill.IN_DECADE, (*fact_of(asked).numbers, asked.start // 10))


def item_of_part(asked: Sum, part: Part) -> Item | None:
    """What one guided step exercises, and nothing else; None for the whole sum."""
    match part:
        case Part.NEXT_TEN:
            return Item(Skill.NEXT_TEN)
        case Part.GAP:
            return bond_of(asked)
        case Part.REST:
            return partition_of(asked)
        case Part.ONES:
            return fact_of(asked)
        case Part.TOTAL:
            return Item(Skill.JOIN)
        case Part.WHOLE:
            return None


@lru_cache(maxsize=FEW)
def steps_of(asked: Sum) -> tuple[Item, ...]:
    """What has to be known to find the sum step by step."""
    match asked.kind:
        case Kind.CROSSING:
            return (Item(Skill.NEXT_TEN), bond_of(asked), partition_of(asked), Item(Skill.JOIN))
        case Kind.LANDING:
            return (Item(Skill.NEXT_TEN), bond_of(asked))
        case Kind.WITHIN:
            return (fact_of(asked), Item(Skill.JOIN))


def needs(asked: Sum, item: Item) -> bool:
    """Whether the sum cannot well be found where this is not known."""
    if item.skill is Skill.COUNT_ON:
        return asked.amount <= MOST_COUNTED_ON
    return item in (*steps_of(asked), fact_of(asked))


_TRACING = {
    Skill.NEXT_TEN: Tracing(0.5, 0.15, slip=0.05, guess=0.05),
    Skill.BOND: Tracing(0.4, 0.15, slip=0.08, guess=0.1),
    Skill.PARTITION: Tracing(0.4, 0.15, slip=0.08, guess=0.1),
    Skill.JOIN: Tracing(0.6, 0.15, slip=0.05, guess=0.05),
    Skill.COUNT_ON: Tracing(0.6, 0.1, slip=0.1, guess=0.05),
    Skill.IN_DECADE: Tracing(0.3, 0.1, slip=0.08, guess=0.03),
    Skill.BRIDGES: Tracing(0.2, 0.1, slip=0.1, guess=0.05),
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
    smaller, larger = item.numbers
    return _FACT_OF_TIES if smaller == larger else _FACTS[smaller]


IMPLICATED: dict[str, Skill] = {
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


def implicated(name: str, asked: Sum) -> Item | None:
    match IMPLICATED.get(name):
        case None:
            return None
        case Skill.PARTITION:
            return partition_of(asked)
        case Skill.BOND:
            return bond_of(asked)
        case Skill.FACT:
            return fact_of(asked)
        case skill:
            return Item(skill)
