"""Help with a missing number says what is true of the number and never the missing one, in every length."""

from collections import Counter
from itertools import product
from random import Random
from typing import get_args

import pytest

from saythesum.core.exercises.exercise import Exercise, Lead
from saythesum.core.exercises.missing.amount import AddedAmount, TakenAmount
from saythesum.core.exercises.missing.start import AddedToStart, TakenFromStart
from saythesum.core.sums import Part
from saythesum.settings import Length
from tests.proofs.plain_help import Turn, flaws, is_true, turns

KINDS = (AddedAmount, TakenAmount, AddedToStart, TakenFromStart)
LENGTHS: tuple[Length, ...] = get_args(Length)
PAIRS = [(start, amount) for start, amount in product(range(10, 100), range(1, 10))]
CASES = [(47, 5), (52, 5), (43, 7), (57, 5), (96, 8), (203, 8), (50, 4), (12, 9), (9, 6)]


def asked_of(pairs: list[tuple[int, int]]) -> list[Exercise]:
    return [kind(start, amount) for kind in KINDS for start, amount in pairs]


@pytest.mark.parametrize("asked", asked_of([*CASES, *Random(4).sample(PAIRS, 4)]), ids=lambda asked: asked.shown)
def test_every_turn_of_help(asked: Exercise) -> None:
    found: Counter[str] = Counter()
    for turn, length in product(turns(asked), LENGTHS):
        found += flaws(turn, length)
    assert not found


@pytest.mark.parametrize(
    ("sentence", "given"),
    [
        ("Forty-seven add six is fifty-four.", 6),
        ("We need fifty-three.", 6),
        ("Six is too few.", 6),
        ("Fifty-one is what it makes.", 51),
        ("Work back: fifty-two take away six.", 6),
    ],
)
def test_the_reader_sees_what_is_not_so(sentence: str, given: int) -> None:
    assert not is_true(sentence, Turn(AddedAmount(47, 5), Part.WHOLE, given, (), None))


@pytest.mark.parametrize(
    ("asked", "name", "given", "text"),
    [
        (AddedAmount(47, 5), "number-repeated", 52, "Fifty-two is what it makes. Forty-seven add what number makes"),
        (
            AddedAmount(47, 5),
            "stopped-at-the-ten",
            3,
            "Forty-seven add three is fifty. How many from fifty to fifty-two?",
        ),
        (AddedAmount(47, 5), "start-counted", 6, "Forty-seven add six is fifty-three. We need fifty-two. How many to"),
        (
            AddedToStart(47, 5),
            "not-undone",
            57,
            "Fifty-seven add five is sixty-two. We need fifty-two. What number add",
        ),
        (
            AddedToStart(47, 5),
            "one-too-many",
            46,
            "Forty-six add five is fifty-one. We need fifty-two. Work back. What's",
        ),
        (
            TakenFromStart(52, 5),
            "not-undone",
            42,
            "Forty-two take away five is thirty-seven. We need forty-seven. What",
        ),
    ],
)
def test_some_of_them_in_words(asked: Exercise, name: str, given: int, text: str) -> None:
    """What a teacher would say: our own wording of common practice, to put the number in and see."""
    (pattern,) = [one for one in asked.patterns if one.name == name]
    help = asked.help_from(pattern.help, given)
    lead = Lead(Part.WHOLE, given, remarks=help.remarks)
    question = None if help.part is Part.WHOLE else asked.question_for(help.part, lead)
    assert Turn(asked, Part.WHOLE, given, help.remarks, question).text("short").startswith(text)
