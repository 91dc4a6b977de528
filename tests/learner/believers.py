"""Made-up pupils who believe in a mistake, or only slip: seeded. They are no evidence about children."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import product
from random import Random
from typing import TypeAlias

from saythesum.core.catalogue.apart import BRIDGING_SUMS
from saythesum.core.mistakes import MISTAKES, Mistake
from saythesum.core.rows import By, RowId
from saythesum.core.sums import Part, Sum
from saythesum.learner.diagnosis import Diagnosis, diagnosed
from saythesum.learner.evidence import Evidence
from saythesum.learner.telling_apart import most_telling

SLIPS = 0.05


@dataclass(frozen=True, slots=True)
class Believer:
    """Makes the mistakes wherever they can show; of two, the one or the other by chance."""

    mistakes: tuple[Mistake, ...]
    misheard: float

    def answer(self, asked: Sum, dice: Random) -> int:
        return _heard(self._said(asked, dice), self.misheard, dice)

    def _said(self, asked: Sum, dice: Random) -> int:
        if dice.random() < SLIPS:
            return _slipped(asked.total, dice)
        shown = [
            [number for number in mistake.gives(asked) if mistake.fits(asked, number) and 0 <= number < 1100]
            for mistake in self.mistakes
        ]
        numbers = [number for number in shown if number]
        return dice.choice(dice.choice(numbers)) if numbers else asked.total


def _slipped(right: int, dice: Random) -> int:
    steps = dice.choices((1, -1, 2, -2, 10, -10, 0), (6, 6, 2, 2, 2, 2, 2))[0]
    return max(right + steps, 0) if steps else dice.randrange(200)


def _heard(said: int, misheard: float, dice: Random) -> int:
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


def to_find_out(diagnosis: Diagnosis, before: Sequence[Sum]) -> Sum:
    return most_telling([asked for asked in BRIDGING_SUMS if asked not in before], diagnosis)


def grid_order(diagnosis: Diagnosis, before: Sequence[Sum]) -> Sum:
    return GRID[len(before)]


def shuffled(dice: Random) -> Next:
    order = dice.sample(GRID, len(GRID))
    return lambda diagnosis, before: order[len(before)]


def evidence(asked: Sum, given: int, *, number: int = 0, part: Part = Part.WHOLE) -> Evidence:
    return Evidence(RowId(f"row {number}"), asked, part, given, By.VOICE)


def questioned(pupil: Believer, next: Next, answers: int, dice: Random) -> list[Evidence]:
    heard: list[Evidence] = []
    diagnosis = diagnosed(())
    for number in range(answers):
        asked = next(diagnosis, [one.sum for one in heard])
        heard.append(evidence(asked, pupil.answer(asked, dice), number=number))
        diagnosis = diagnosed(heard)
    return heard


def shares_ranked_first(next: Callable[[Random], Next], misheard: float, seed: int, *, each: int) -> list[float]:
    """For each of the seventeen, how often it came first after six answers."""
    shares = []
    for mistake in MISTAKES:
        firsts = 0
        for number in range(each):
            dice = Random(f"{seed} {mistake.code} {number}")
            heard = questioned(Believer((mistake,), misheard), next(dice), 6, dice)
            firsts += diagnosed(heard).ranked[0] == mistake.name
        shares.append(firsts / each)
    return shares
