"""A grid made from what is wished for, or the reason why there is none.

The search is complete: for each choice of amounts the starts that fit every wish are known, and the most of them
whose answers all differ are counted exactly. So what is said to be impossible is.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from itertools import combinations
from random import Random

from saythesum.core.exercises.adding import Sum
from saythesum.core.grids.file_format import MOST_COLUMNS, MOST_ROWS
from saythesum.core.grids.grid import Grid, Order
from saythesum.core.grids.telling_apart import not_told_apart
from saythesum.core.sums import LARGEST_AMOUNT, LARGEST_START, Kind

TRIES = 24
"""So many grids that all fit are looked at, for one that tells the wished mistakes apart."""


class Demand(StrEnum):
    """What can be given up."""

    KINDS = "kinds"
    BONDS = "bonds"
    HUNDRED = "hundred"
    UNEQUAL = "unequal"


@dataclass(frozen=True, slots=True)
class GridWish:
    rows: int = 4
    columns: int = 3
    starts: tuple[int, ...] = tuple(range(11, 100))
    """Those to choose from: listed, or from one to another."""
    amounts: tuple[int, ...] = tuple(range(2, LARGEST_AMOUNT + 1))
    kinds: frozenset[Kind] = frozenset(Kind)
    """Every sum is one of these."""
    bonds: frozenset[int] = frozenset()
    """The bonds to ten that lead to the next ten, by either of their numbers: 3 is three and seven. Empty: any."""
    across_hundred: bool | None = None
    """Every sum reaches or passes a hundred; none does; None: either."""
    unequal: bool = True
    """No two answers are the same."""
    mistakes: tuple[str, ...] = ()
    """Names of mistakes that the grid should tell apart, such as the pupil's last ones."""
    title: str = ""
    order: Order = Order.ROWS


@dataclass(frozen=True, slots=True)
class MadeGrid:
    grid: Grid
    alike: tuple[tuple[str, ...], ...]
    """Of the wished mistakes, those that this grid does not tell apart."""


@dataclass(frozen=True, slots=True)
class CannotBeMade:
    wish: GridWish
    fitting_starts: int
    """Starts that fit every wish with one amount at least."""
    most_rows: int
    """With the wished number of columns."""
    most_columns: int
    """With the wished number of rows."""
    would_help: tuple[Demand, ...]
    """Without any one of these, and all else as wished, there is a grid."""
    too_large: bool = field(default=False)
    """More rows or columns than any grid may have."""


def made(wish: GridWish, seed: int) -> MadeGrid | CannotBeMade:
    """With the same seed the same grid."""
    if not (0 < wish.rows <= MOST_ROWS and 0 < wish.columns <= MOST_COLUMNS):
        return CannotBeMade(wish, 0, 0, 0, (), too_large=True)
    dice = Random(seed)  # noqa: S311  for variety, no secret
    choices = [amounts for amounts in _amounts(wish, wish.columns) if _most(wish, amounts) >= wish.rows]
    if not choices:
        return _why_not(wish)
    best: MadeGrid | None = None
    for _ in range(TRIES if len(wish.mistakes) > 1 else 1):
        amounts = list(dice.choice(choices))
        starts = _chosen(wish, amounts, dice)
        dice.shuffle(starts)
        dice.shuffle(amounts)
        grid = Grid(wish.title or _title(starts, amounts), tuple(starts), tuple(amounts), wish.order)
        found = MadeGrid(grid, not_told_apart(grid, wish.mistakes))
        if best is None or len(found.alike) < len(best.alike):
            best = found
        if not best.alike:
            break
    assert best is not None
    return best


def fits(wish: GridWish, start: int, amount: int) -> bool:
    """Whether this sum alone is as wished."""
    one = Sum(start, amount)
    crosses = start // 100 < one.total // 100
    return (
        one.kind in wish.kinds
        and (not wish.bonds or not wish.bonds.isdisjoint((one.gap, 10 - one.gap)))
        and wish.across_hundred in (None, crosses)
    )


def _why_not(wish: GridWish) -> CannotBeMade:
    helps = [demand for demand in Demand if _is_possible(_without(wish, demand))]
    return CannotBeMade(
        wish,
        fitting_starts=len({start for amount in _usable_amounts(wish) for start in _starts(wish, [amount])}),
        most_rows=max((_most(wish, amounts) for amounts in _amounts(wish, wish.columns)), default=0),
        most_columns=max((n for n in range(1, wish.columns) if _is_possible(replace(wish, columns=n))), default=0),
        would_help=tuple(helps),
    )


def _without(wish: GridWish, demand: Demand) -> GridWish:
    match demand:
        case Demand.KINDS:
            return replace(wish, kinds=frozenset(Kind))
        case Demand.BONDS:
            return replace(wish, bonds=frozenset())
        case Demand.HUNDRED:
            return replace(wish, across_hundred=None)
        case Demand.UNEQUAL:
            return replace(wish, unequal=False)


def _is_possible(wish: GridWish) -> bool:
    return any(_most(wish, amounts) >= wish.rows for amounts in _amounts(wish, wish.columns))


def _usable_amounts(wish: GridWish) -> list[int]:
    return sorted({amount for amount in wish.amounts if 1 <= amount <= LARGEST_AMOUNT})


def _amounts(wish: GridWish, columns: int) -> Iterator[tuple[int, ...]]:
    return combinations(_usable_amounts(wish), columns)


def _starts(wish: GridWish, amounts: Iterable[int]) -> list[int]:
    """Those that fit with every one of the amounts."""
    possible = sorted({start for start in wish.starts if 0 <= start <= LARGEST_START})
    return [start for start in possible if all(fits(wish, start, amount) for amount in amounts)]


def _clashes(wish: GridWish, amounts: Sequence[int]) -> int:
    """A bit for each distance of two starts that would give an answer twice: bit 0 for a distance of 1."""
    if not wish.unequal:
        return 0
    bits = 0
    for one, other in combinations(amounts, 2):
        bits |= 1 << (abs(one - other) - 1)
    return bits


def _most(wish: GridWish, amounts: Sequence[int]) -> int:
    """The most starts that fit together with these amounts."""
    starts = _starts(wish, amounts)
    return _left(starts, _clashes(wish, amounts))[0].get(0, 0)


_WINDOW = 2 ** (LARGEST_AMOUNT - 1) - 1
"""Two starts further apart than the amounts differ have no answer in common."""


def _left(starts: Sequence[int], clashes: int) -> list[dict[int, int]]:
    """For each place among the starts: by which of the numbers just before it are taken (a bit each, the nearest
    first), the most that can be taken from there on."""
    reached: list[set[int]] = [{0}]
    for place, start in enumerate(starts):
        nearer = starts[place + 1] - start if place + 1 < len(starts) else 1
        reached.append({after for mask in reached[place] for after in _after(mask, clashes, nearer)})
    left: list[dict[int, int]] = [dict.fromkeys(reached[-1], 0)]
    for place in range(len(starts) - 1, -1, -1):
        nearer = starts[place + 1] - starts[place] if place + 1 < len(starts) else 1
        later = left[0]
        left.insert(
            0,
            {
                mask: max(later[after] + taken for taken, after in enumerate(_after(mask, clashes, nearer)))
                for mask in reached[place]
            },
        )
    return left


def _after(mask: int, clashes: int, nearer: int) -> tuple[int, ...]:
    """What is taken before the next start, `nearer` further on: if this one is left out, and if it is taken."""
    without = (mask << nearer) & _WINDOW
    if mask & clashes:
        return (without,)
    return without, (without | 1 << (nearer - 1)) & _WINDOW


def _chosen(wish: GridWish, amounts: Sequence[int], dice: Random) -> list[int]:
    """As many starts as there are rows, by chance, of those that fit together."""
    starts, clashes = _starts(wish, amounts), _clashes(wish, amounts)
    left = _left(starts, clashes)
    chosen: list[int] = []
    mask = 0
    for place, start in enumerate(starts):
        nearer = starts[place + 1] - start if place + 1 < len(starts) else 1
        ways = _after(mask, clashes, nearer)
        still = wish.rows - len(chosen)
        can_leave = left[place + 1][ways[0]] >= still
        can_take = len(ways) > 1 and still > 0 and left[place + 1][ways[1]] >= still - 1
        takes = can_take and (not can_leave or dice.random() < still / (len(starts) - place))
        if takes:
            chosen.append(start)
        mask = ways[1] if takes else ways[0]
    return chosen


def _title(starts: Sequence[int], amounts: Sequence[int]) -> str:
    def span(numbers: Sequence[int]) -> str:
        return f"{min(numbers)}" if min(numbers) == max(numbers) else f"{min(numbers)} to {max(numbers)}"

    return f"{span(starts)} add {span(amounts)}"
