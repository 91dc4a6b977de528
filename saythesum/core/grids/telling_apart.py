"""Which mistakes a grid tells apart: those that lead to different answers in one of its cells at least."""

from collections.abc import Collection
from dataclasses import dataclass, replace
from typing import TypeAlias

from saythesum.core.grids.grid import Grid, Order, walk
from saythesum.core.mistakes.pattern import Occasion

Answers: TypeAlias = tuple[frozenset[int], ...]
"""Wrong answers that a mistake leads to, for each cell."""


@dataclass(frozen=True, slots=True)
class Shown:
    """By the names of mistakes; only of those that are the same thought each time, as slips happen anywhere."""

    told_apart: tuple[str, ...]
    """Each of them has an answer of its own somewhere in the grid."""
    alike: tuple[tuple[str, ...], ...]
    """Those of a group give the same answers in every cell."""
    unseen: tuple[str, ...]
    """They would be the right answer, or no number, in every cell."""


def shown_by(grid: Grid) -> Shown:
    answers = _answers(grid)
    groups: dict[Answers, list[str]] = {}
    for name, given in answers.items():
        if any(given):
            groups.setdefault(given, []).append(name)
    return Shown(
        told_apart=tuple(names[0] for names in groups.values() if len(names) == 1),
        alike=tuple(tuple(names) for names in groups.values() if len(names) > 1),
        unseen=tuple(name for name, given in answers.items() if not any(given)),
    )


def not_told_apart(grid: Grid, mistakes: Collection[str]) -> tuple[tuple[str, ...], ...]:
    """Groups of these mistakes that give the same answers in every cell, or none in any."""
    groups: dict[Answers, list[str]] = {}
    for name, given in _answers(grid).items():
        if name in mistakes:
            groups.setdefault(given, []).append(name)
    return tuple(tuple(names) for given, names in groups.items() if len(names) > 1 or not any(given))


def _answers(grid: Grid) -> dict[str, Answers]:
    asked = [grid.exercise_at(cell) for cell in walk(replace(grid, order=Order.ROWS), 0)]
    names = dict.fromkeys(pattern.name for one in asked for pattern in one.patterns if pattern.is_stable)
    return {
        name: tuple(
            frozenset(
                given
                for pattern in one.patterns
                if pattern.name == name
                for given in pattern.gives(Occasion(one))
                if given >= 0 and given != one.total
            )
            for one in asked
        )
        for name in names
    }
