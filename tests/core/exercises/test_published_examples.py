"""Worked examples of published curricula come out step for step.

Each names its source. Where the text of a source could not be read again, its numbers are from memory, and it says so.
"""

import pytest

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.grids.written_sums import exercise_from
from saythesum.core.sums import Part
from saythesum.settings import Helping

UP = (Part.NEXT_TEN, Part.GAP, Part.REST, Part.TOTAL)
BACK = (Part.TEN_BEFORE, Part.GAP, Part.REST, Part.TOTAL)


@pytest.mark.parametrize(
    ("written", "parts", "answers"),
    [
        # US Common Core, 1.OA.C.6, making ten: 8 + 6 = 8 + 2 + 4 = 10 + 4 = 14
        ("8+6", UP, [10, 2, 4, 14]),
        # US Common Core, 1.OA.C.6, decomposing a number leading to a ten: 13 - 4 = 13 - 3 - 1 = 10 - 1 = 9
        ("13-4", BACK, [10, 3, 1, 9]),
        # Australia, AC9M1N04, elaboration: 7 + 5 = 7 + 3 + 2 = 10 + 2 = 12
        ("7+5", UP, [10, 3, 2, 12]),
        # England, National Strategies (QCA 1999, Teaching mental calculation strategies), Year 1: 8 + 3 = 8 + 2 + 1
        ("8+3", UP, [10, 2, 1, 11]),
        # The same, Year 1, what to add to make ten: 3 + [ ] = 10; there is no step on the way
        ("3+?=10", (), []),
        # England, NCETM topic 1.11, teaching point 5, "make ten" (numbers from memory): 7 + 5 = 7 + 3 + 2
        ("7+?=12", UP, [10, 3, 2, 5]),
        # NCETM topic 1.13, teaching point 1, adding one across a ten (numbers from memory): 39 + 1 = 40
        ("39+1", (Part.GAP, Part.TOTAL), [1, 40]),
        # NCETM topic 1.13, teaching point 2, a known fact within ten (numbers from memory): 4 + 3, so 24 + 3
        ("24+3", (Part.ONES, Part.TOTAL), [7, 27]),
        # NCETM topic 1.13, teaching point 3, a bond to ten where the sum is a ten (numbers from memory): 26 + 4 = 30
        ("26+4", (Part.GAP, Part.TOTAL), [4, 30]),
        # NCETM topic 1.13, teaching point 4, bridging a multiple of ten (numbers from memory): 27 + 5 = 27 + 3 + 2 = 32
        ("27+5", UP, [30, 3, 2, 32]),
        # The same, taking away: 32 - 5 = 32 - 2 - 3 = 27
        ("32-5", BACK, [30, 2, 3, 27]),
        # Australia, AC9M2N04, partitioning and bridging ten with two-digit numbers (numbers our own)
        ("27+15", (Part.AFTER_TENS, *UP), [37, 40, 3, 2, 42]),
        # England, National curriculum, Year 1: 7 = [ ] - 9, as it stands in the programme of study
        ("?-9=7", UP, [10, 3, 6, 16]),
        # England, National curriculum, Year 2: a two-digit number and tens (numbers our own)
        ("45+30", (Part.TENS_TOGETHER, Part.TOTAL), [70, 75]),
    ],
)
def test_step_for_step(written: str, parts: tuple[Part, ...], answers: list[int]) -> None:
    asked = exercise_from(written)
    assert asked.parts == parts
    assert [asked.answer_to(part) for part in parts] == answers


@pytest.mark.parametrize(
    ("written", "answers"),
    [
        # NCETM topic 1.11, teaching point 6, subtracting from ten: 13 - 5 is 10 - 5, and 3
        ("13-5", [10, 5, 8]),
        ("15-7", [10, 3, 8]),
    ],
)
def test_from_the_ten_step_for_step(written: str, answers: list[int]) -> None:
    asked: Exercise = exercise_from(written).by_way_of(Helping(taking_away="from the ten"))
    assert asked.parts == (Part.TEN_BEFORE, Part.FROM_TEN, Part.TOTAL)
    assert [asked.answer_to(part) for part in asked.parts] == answers
