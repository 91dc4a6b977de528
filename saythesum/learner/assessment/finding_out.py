"""A practice whose purpose is to find out what a pupil's mistake could be: what it asks, and when it is over."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.grids.grid import Cell, Grid, Order, walk
from saythesum.core.sums import Part
from saythesum.learner.assessment.information import CONCLUSIVE, expected_information, is_found_out
from saythesum.learner.diagnosis import ALL_NAMES, diagnosed, numbers_shown
from saythesum.learner.evidence import Evidence
from saythesum.learner.findings import LEAST_SHARE, findings

GRID = Grid("Finding out", tuple(range(10, 100)), tuple(range(1, 10)), Order.CHOSEN)

FEWEST, MOST = 6, 12
"""Sums. Made-up pupils are found out after two; a child's answers are less regular than theirs."""
NEARLY = 0.9
"""Of the sums that tell nearly as much as the best, one is taken from a ten that was asked least."""


def cells_to_choose_from(seed: int) -> tuple[Cell, ...]:
    """All 405 that cross or land on a ten, mixed by the seed, so that equal ones are not always the same."""
    mixed = walk(replace(GRID, order=Order.SHUFFLED), seed)
    return tuple(cell for cell in mixed if Part.GAP in GRID.exercise_at(cell).parts)


def is_over(evidence: Sequence[Evidence], asked: int) -> bool:
    """After `asked` sums: as soon as one mistake can be named, or it is nearly certain that there is none."""
    if asked < FEWEST:
        return False
    diagnosis = diagnosed(evidence)
    is_clear = diagnosis.none >= CONCLUSIVE or bool(findings(evidence, diagnosis))
    return asked >= MOST or (is_found_out(diagnosis) and is_clear)


def in_question(asked: Exercise, evidence: Sequence[Evidence]) -> tuple[str, ...]:
    """At most two mistakes that the pupil may well believe in and that give numbers of their own in this sum."""
    diagnosis = diagnosed(evidence)
    shown = dict(zip(ALL_NAMES, numbers_shown(asked), strict=True))
    likely = [name for name in diagnosis.ranked if diagnosis.shares[name] >= LEAST_SHARE and shown[name]]
    apart = [name for name in likely[1:] if not set(shown[name]) & set(shown[likely[0]])]
    return (*likely[:1], *apart[:1])


def next_to_ask(sums: Sequence[Exercise], evidence: Sequence[Evidence], before: Sequence[Exercise]) -> Exercise:
    """`before`: what was asked already. Of equals, the first."""
    diagnosis = diagnosed(evidence)
    bits = {asked: expected_information(asked, diagnosis) for asked in sums}
    enough = NEARLY * max(bits.values())
    tens = Counter(asked.start // 10 for asked in before)
    return min((asked for asked in sums if bits[asked] >= enough), key=lambda asked: tens[asked.start // 10])
