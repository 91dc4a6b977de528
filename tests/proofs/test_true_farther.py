"""Help with amounts of tens says what is true of the number and never the right answer, in every length."""

from collections import Counter
from itertools import product
from random import Random

import pytest

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.registry import exercise
from saythesum.core.sums import Part
from saythesum.settings import Length
from tests.proofs.plain_help import Turn, flaws, is_true, turns

UP = [(47, 25), (47, 30), (42, 25), (40, 25), (45, 25), (7, 25), (86, 47), (238, 85), (11, 19), (5, 15)]
DOWN = [(72, 25), (77, 30), (77, 25), (75, 25), (70, 25), (25, 25), (130, 47), (204, 86), (22, 15)]
SOME = Random(6).sample(list(product(range(10, 100), range(10, 100))), 8)
ASKED = [
    *(exercise("add", *pair) for pair in (*UP, *SOME)),
    *(exercise("take", *pair) for pair in (*DOWN, *SOME) if pair[0] >= pair[1]),
]


@pytest.mark.parametrize("asked", ASKED, ids=lambda asked: asked.shown)
def test_every_turn_of_help(asked: Exercise) -> None:
    lengths: tuple[Length, ...] = ("brief", "short", "full")
    found: Counter[str] = Counter()
    for turn, length in product(turns(asked), lengths):
        found += flaws(turn, length)
    assert not found


@pytest.mark.parametrize(
    ("sentence", "given"),
    [
        ("Forty-seven add twenty is sixty-eight.", 68),
        ("Ninety is more than forty-seven add fifty.", 90),
        ("Six more to add.", 67),
        ("Sixty-seven is too many.", 67),
    ],
)
def test_the_reader_sees_what_is_not_so(sentence: str, given: int) -> None:
    assert not is_true(sentence, Turn(exercise("add", 47, 25), Part.WHOLE, given, (), None))
