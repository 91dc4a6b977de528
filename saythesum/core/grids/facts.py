"""The facts that bridging a ten stands on, as short activities of their own.

Each is a grid of which a few cells are asked, one by one. The sums lead back to the one that broke.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.grids.grid import Cell, Grid, Order, walk
from saythesum.core.sums import ExerciseName

MOST_ASKED = 8
"""In an activity of its own: about a minute."""
FEW_ASKED = 4
"""Where the sums lead back to it."""


@dataclass(frozen=True, slots=True)
class FactActivity:
    name: str
    """What it is asked for by."""
    exercise: ExerciseName
    skill: Skill
    """What its answers are counted under, and what leads back to it."""
    grid: Grid
    why: str
    """For the teacher."""
    source: str


def _grid(title: str, starts: Sequence[int], amounts: Sequence[int], exercise: ExerciseName) -> Grid:
    return Grid(title, tuple(starts), tuple(amounts), Order.CHOSEN, (exercise.value,) * len(amounts))


_COUNCIL = "US National Research Council 2009, Mathematics Learning in Early Childhood, pp. 153-154"
_TOPIC = "NCETM topic 1.13, teaching point"

FACT_ACTIVITIES: tuple[FactActivity, ...] = (
    FactActivity(
        "bonds",
        ExerciseName.BOND,
        Skill.BOND,
        _grid("Bonds of ten", [10], range(1, 10), ExerciseName.BOND),
        "The jump to the ten is a bond of ten.",
        f"{_COUNCIL}; {_TOPIC} 3",
    ),
    FactActivity(
        "next-tens",
        ExerciseName.NEXT_TEN,
        Skill.NEXT_TEN,
        _grid("The next ten", [start for start in range(1, 100) if start % 10], [1], ExerciseName.NEXT_TEN),
        "Where the jump goes to.",
        "Scotland, First Level mental list: what is added to reach the next ten",
    ),
    FactActivity(
        "tens-and-ones",
        ExerciseName.TEN_AND_ONES,
        Skill.JOIN,
        _grid("Ten and some ones", range(10, 100, 10), range(1, 10), ExerciseName.TEN_AND_ONES),
        "After the ten, the rest is put to it without counting.",
        _COUNCIL,
    ),
    FactActivity(
        "splits",
        ExerciseName.SPLIT,
        Skill.PARTITION,
        _grid("Splitting an amount", range(5, 10), range(1, 5), ExerciseName.SPLIT),
        "The amount is split into the jump to the ten and what is left.",
        _COUNCIL,
    ),
    FactActivity(
        "small-splits",
        ExerciseName.SPLIT,
        Skill.PARTITION,
        _grid("Splitting a small amount", [3, 4], [1, 2], ExerciseName.SPLIT),
        "The same with three and four.",
        _COUNCIL,
    ),
    FactActivity(
        "one-more",
        ExerciseName.ONE_MORE,
        Skill.COUNT_ON,
        _grid("One more", range(9, 100, 10), [1], ExerciseName.ONE_MORE),
        "Counting across a ten: the number after thirty-nine.",
        f"{_TOPIC} 1",
    ),
    FactActivity(
        "facts",
        ExerciseName.FACT,
        Skill.FACT,
        _grid("Two small numbers", range(2, 10), range(2, 10), ExerciseName.FACT),
        "What the ones come to.",
        "US CCSS 2.OA.B.2: all sums of two one-digit numbers",
    ),
)
"""In an order that stays: a practice that was led back to one goes on with it."""


def facts_named(name: str) -> FactActivity | None:
    return next((one for one in FACT_ACTIVITIES if one.name == name), None)


def place_of(broken: Item) -> int | None:
    """Which of them practises the item, or at least its skill; None where none does."""
    able = [place for place, one in enumerate(FACT_ACTIVITIES) if one.skill is broken.skill]
    return next((place for place in able if broken in _items(FACT_ACTIVITIES[place].grid)), next(iter(able), None))


@lru_cache
def _items(grid: Grid) -> frozenset[Item]:
    cells = (Cell(row, column) for row in range(len(grid.starts)) for column in range(len(grid.amounts)))
    return frozenset(grid.exercise_at(cell).item for cell in cells)


def mixed(grid: Grid, seed: int) -> tuple[Cell, ...]:
    """Its cells, mixed by the seed, so that equally good ones are not always the same."""
    return walk(replace(grid, order=Order.SHUFFLED), seed)
