"""Help with taking away says what is true of the number and false of the right answer, in every length, both ways."""

from collections import Counter
from itertools import product
from random import Random

import pytest

from saythesum.core.exercises.exercise import Lead
from saythesum.core.exercises.taking import Difference
from saythesum.core.sums import Part
from saythesum.settings import Helping
from tests.proofs.taking_help import Told, Turn, flaws, is_true, turns

FROM_TEN = Helping(taking_away="from the ten")
SMALL = [Difference(start, amount) for start, amount in product(range(1, 100), range(1, 10)) if amount <= start]
CASES = [Difference(13, 4), Difference(11, 9), Difference(13, 3), Difference(60, 4), Difference(203, 8)]
SUMS = [*CASES, *Random(8).sample(SMALL, 9)]


@pytest.mark.parametrize("asked", SUMS, ids=lambda asked: asked.shown)
def test_every_turn_of_help(asked: Difference) -> None:
    found: Counter[str] = Counter()
    for exercise in {asked, asked.by_way_of(FROM_TEN)}:
        assert isinstance(exercise, Difference)
        for turn in turns(exercise):
            found += flaws(turn, "short")
    assert not found


@pytest.mark.parametrize("length", ["brief", "full"])
def test_in_the_other_lengths(length: str) -> None:
    found: Counter[str] = Counter()
    for asked in (Difference(63, 8), Difference(12, 5)):
        for turn in turns(asked):
            found += flaws(turn, "brief" if length == "brief" else "full")
    assert not found


@pytest.mark.parametrize(
    ("sentence", "part", "given"),
    [
        ("Sixty-five is less than sixty-three.", Part.WHOLE, 65),
        ("Fifty-three is six less than sixty.", Part.WHOLE, 53),
        ("Sixty take away three is fifty-eight.", Part.WHOLE, 57),
        ("We're taking away seven.", Part.WHOLE, 65),
        ("That's past sixty.", Part.GAP, 2),
        ("Sixty take away six?", Part.TOTAL, 54),
        ("Fifty is the ten before sixty-three.", Part.WHOLE, 50),
    ],
)
def test_the_reader_sees_what_is_not_so(sentence: str, part: Part, given: int) -> None:
    assert not is_true(sentence, Told(Difference(63, 8), part, given))


def _first(asked: Difference, name: str, given: int) -> Turn:
    (pattern,) = [one for one in asked.patterns if one.name == name]
    help = asked.help_from(pattern.help, given)
    lead = Lead(Part.WHOLE, given, remarks=help.remarks)
    question = None if help.part is Part.WHOLE else asked.question_for(help.part, lead)
    turn = Turn(asked, Part.WHOLE, given, help.remarks, question)
    assert turn in list(turns(asked))
    return turn


@pytest.mark.parametrize(
    ("name", "given", "text"),
    [
        ("ones-differenced", 65, "Sixty-five is more than sixty-three. Taking away goes down. What's the ten before"),
        ("stopped-at-the-ten", 60, "Sixty-three take away three is sixty. How many of the eight are still to take?"),
        ("whole-amount-after-bridging", 52, "Sixty take away eight is fifty-two. How many of the eight get you to"),
        ("first-jump-twice", 57, "Sixty take away three is fifty-seven. Three gets you to sixty. How many still to"),
        ("added", 71, "Seventy-one is more than sixty-three. Taking away goes down. Sixty-three take away eight."),
        ("did-not-compensate", 53, "Sixty-three take away ten is fifty-three. We're taking away eight. Sixty-three"),
        ("compensated-the-wrong-way", 51, "Fifty-one is more than ten below sixty-three. Eight is less than ten."),
        ("start-counted", 56, "Fifty-six is four less than sixty. How many of the eight get you to sixty?"),
        ("ones-only", 5, "Five is far below sixty-three. The tens count too. Sixty-three take away eight."),
        ("extra-ten-taken", 45, "Forty-five is more than ten below sixty-three. What's the ten before sixty-three?"),
    ],
)
def test_some_of_them_in_words(name: str, given: int, text: str) -> None:
    """What a teacher would say: our own wording of common practice."""
    assert _first(Difference(63, 8), name, given).text("short").startswith(text)
