"""Questions put by somebody who sees into the made-up pupil: what could be reached at all, and so which aims can be."""

from collections.abc import Mapping
from datetime import date
from math import prod
from random import Random

from saythesum.app.rehearsal.simulated_pupil import Mind
from saythesum.core.exercises.adding import Sum
from saythesum.core.grids.grid import Cell
from saythesum.learner.pupil import Pupil
from saythesum.learner.selection import LOOKED_BACK, Band
from saythesum.learner.skills import item_of, steps_of
from tests.learner.learners import Goal, Picks, is_reached


def what_is_missing(goal: Goal, band: Band, dice: Random) -> Picks:
    """Only what is not known yet; what is known, only where else too few answers would be right."""

    def pick(mind: Mind, known: Pupil, open_cells: Mapping[Cell, Sum], on: date) -> Cell:
        missed = sum(not seen.right for seen in known.recent[1 - LOOKED_BACK :])
        wants_success = missed + 1 > LOOKED_BACK * (1 - band.lowest)
        wanted = [cell for cell, asked in open_cells.items() if is_reached(mind, asked, goal) == wants_success]
        return dice.choice(wanted or list(open_cells))

    return pick


def the_surest(mind: Mind, known: Pupil, open_cells: Mapping[Cell, Sum], on: date) -> Cell:
    """Never anything but the sum that is likeliest to be answered rightly."""
    return max(open_cells, key=lambda cell: _chance(mind, open_cells[cell], on))


def _chance(mind: Mind, asked: Sum, on: date) -> float:
    by_steps = prod(mind.recall(step, on) for step in steps_of(asked))
    return 1 - (1 - mind.recall(item_of(asked), on)) * (1 - by_steps)
