"""Made-up pupils who believe in a mistake, or only slip: seeded. They are no evidence about children."""

from collections.abc import Callable, Iterable, Sequence
from itertools import product
from random import Random
from typing import TypeAlias

from saythesum.app.rehearsal.kinds import believing_in, mind_of
from saythesum.app.rehearsal.simulated_pupil import Mind
from saythesum.core.exercises.adding import Sum
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.records.rows import By, RowId
from saythesum.core.sums import Part
from saythesum.learner.assessment.information import expected_information
from saythesum.learner.diagnosis import Diagnosis, diagnosed
from saythesum.learner.evidence import Evidence
from tests.core.made_sums import a_sum
from tests.core.mistakes.separation import BRIDGING_SUMS
from tests.learner.learners import FIRST_DAY


def heard(said: int, misheard: float, dice: Random) -> int:
    if dice.random() >= misheard:
        return said
    if 13 <= said <= 19:
        return (said - 10) * 10
    if said in range(30, 100, 10):
        return said // 10 + 10
    return max(said + dice.choice((-20, -10, 10, 20, -1, 1, -4, 4)), 0)


Next: TypeAlias = Callable[[Diagnosis, Sequence[Sum]], Sum]
"""What to ask after this diagnosis and these sums."""

GRID = [Sum(start, amount) for start, amount in product((16, 27, 38, 49, 57, 68), (4, 5, 6, 7, 8, 9))]
"""A grid such as a teacher makes; all its sums cross or land."""


def most_telling(sums: Iterable[Sum], diagnosis: Diagnosis) -> Sum:
    """Of equals, the first."""
    return max(sums, key=lambda asked: expected_information(asked, diagnosis))


def to_find_out(diagnosis: Diagnosis, before: Sequence[Sum]) -> Sum:
    return most_telling([asked for asked in BRIDGING_SUMS if asked not in before], diagnosis)


def grid_order(diagnosis: Diagnosis, before: Sequence[Sum]) -> Sum:
    return GRID[len(before)]


def shuffled(dice: Random) -> Next:
    order = dice.sample(GRID, len(GRID))
    return lambda diagnosis, before: order[len(before)]


def evidence(asked: Sum, given: int, *, number: int = 0, part: Part = Part.WHOLE) -> Evidence:
    return Evidence(RowId(f"row {number}"), asked.key, part, given, By.VOICE)


def questioned(pupil: Mind, next: Next, answers: int, misheard: float = 0.02) -> list[Evidence]:
    """`misheard` is how often another number is heard than was said."""
    dice = Random(f"{pupil.seed} hearing")
    told: list[Evidence] = []
    diagnosis = diagnosed(())
    for number in range(answers):
        asked = next(diagnosis, [a_sum(one.asked) for one in told])
        said = pupil.answer(asked, Part.WHOLE, FIRST_DAY).given
        told.append(evidence(asked, heard(said, misheard, dice), number=number))
        diagnosis = diagnosed(told)
    return told


def shares_ranked_first(next: Callable[[Random], Next], misheard: float, seed: int, *, each: int) -> list[float]:
    """For each of the seventeen, how often it came first after six answers."""
    shares = []
    for mistake in MISTAKES:
        firsts = 0
        for number in range(each):
            pupil = mind_of(believing_in(mistake), 1000 * seed + number, FIRST_DAY)
            told = questioned(pupil, next(Random(pupil.seed)), 6, misheard)
            firsts += diagnosed(told).ranked[0] == mistake.name
        shares.append(firsts / each)
    return shares
