"""Sums out of grids and plans, and the mistakes that give a number, for tests that know what they ask."""

from typing import Protocol, TypeVar

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.grids.grid import Cell
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.mistakes.pattern import Mistake, Occasion, Pattern

E_co = TypeVar("E_co", bound=Exercise, covariant=True)


class HasCells(Protocol):
    def exercise_at(self, cell: Cell) -> Exercise: ...


def sum_at(place: HasCells, cell: Cell) -> Sum:
    return a_sum(place.exercise_at(cell))


def a_sum(asked: Exercise) -> Sum:
    assert isinstance(asked, Sum)
    return asked


def fitting(asked: Sum, given: int) -> tuple[Mistake, ...]:
    """Of the seventeen."""
    return tuple(mistake for mistake in MISTAKES if mistake.fits(asked, given))


def explaining(occasion: Occasion[E_co], given: int) -> tuple[Pattern[E_co], ...]:
    """Of the exercise's whole catalogue."""
    return tuple(pattern for pattern in occasion.asked.patterns if pattern.fits(occasion, given))
