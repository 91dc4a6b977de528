"""How many first answers of made-up pupils who forget are right, and how a grid ends."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import timedelta
from itertools import product
from random import Random
from statistics import mean

from saythesum.core.exercises.adding import Sum
from saythesum.core.grids.grid import Cell
from saythesum.learner.pupil import Pupil, with_answer
from saythesum.learner.selection import LOW_CONFIDENCE, NO_BAND_SET
from tests.learner.learners import CELLS, FIRST_DAY, Picks, asked_of, learner
from tests.tools.learning_figures.asking import PUPILS, picks
from tests.tools.learning_figures.by_sight import the_surest
from tests.tools.learning_figures.lines import SEEDS, each, spread

PRACTICES, LEARNING_IN = 12, 2
"""The first few find out about the pupil and are left out."""
SUMS = 12
"""Of the large grid, in one practice."""
SIDE = 4
"""Rows and columns of a small grid, which is asked to its end."""


def success() -> None:
    print(
        "== Right first answers from the third practice on "
        f"(aim: {NO_BAND_SET.lowest:.0%} to {NO_BAND_SET.highest:.0%},"
    )
    print(f"   low confidence {LOW_CONFIDENCE.lowest:.0%} to {LOW_CONFIDENCE.highest:.0%}; the last of a grid right)")
    print("   the surest by sight: who sees into the pupil and never asks anything but the surest")
    for share_known, name in product((0.3, 0.6), _picks("")):
        shares, lasts = [], []
        for seed in SEEDS:
            pupils = [f"{seed} {number}" for number in range(PUPILS)]
            large = [_rights(pupil, _picks(pupil)[name], share_known, [CELLS] * PRACTICES) for pupil in pupils]
            small = [_rights(pupil, _picks(pupil)[name], share_known, _small_grids(pupil)) for pupil in pupils]
            shares.append([100 * mean(right for practice in one for right in practice) for one in large])
            lasts.append(mean(practice[-1] for one in small for practice in one))
        print(f"{share_known:.0%} known at first, {name:22} {spread(shares)}; last right {each(lasts)}")


def _picks(seed: str) -> dict[str, Picks]:
    return {**picks(seed), "the surest by sight": the_surest}


def _small_grids(seed: str) -> Iterator[Mapping[Cell, Sum]]:
    dice = Random(seed)
    for _ in range(PRACTICES):
        rows, columns = dice.sample(range(8), SIDE), dice.sample(range(8), SIDE)
        yield {cell: asked for cell, asked in CELLS.items() if cell.row in rows and cell.column in columns}


def _rights(seed: str, pick: Picks, share_known: float, grids: Iterable[Mapping[Cell, Sum]]) -> list[list[bool]]:
    """Of each practice that counts, whether each first answer was right: of a small grid all, of a large one some."""
    pupil, known, on = learner(seed, share_known, forgets=True), Pupil(), FIRST_DAY
    practices = []
    for grid in grids:
        on += timedelta(days=2)
        open_cells = dict(grid)
        rights: list[bool] = []
        while open_cells and (len(rights) < SUMS or len(grid) < len(CELLS)):
            cell = pick(pupil, known, open_cells, on)
            answers = asked_of(pupil, cell, open_cells.pop(cell), on)
            for said in answers:
                known = with_answer(known, said, on)
            rights.append(answers[0].right)
        practices.append(rights)
    return practices[LEARNING_IN:]
