"""Which answers count, and which never do."""

from collections.abc import Sequence
from dataclasses import replace

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.grids.grid import Cell
from saythesum.core.records.rows import Answer, By, RowId, Settled, Support
from saythesum.core.sums import Part
from saythesum.learner.evidence import Tells, tells
from tests.learner.all_counted import all_counted
from tests.learner.learners import answer

OARS = Sum(38, 5)
SPOKEN = replace(answer(OARS, 45), certainty=0.9, by=By.VOICE, settled=Settled.SAID_BACK)
CLOSE = replace(SPOKEN, close_to=(35,))
AGAIN = replace(CLOSE, id=RowId("again"), tries=2, support=Support.ENCOURAGED)
PART = replace(
    answer(OARS, 3, part=Part.GAP, support=Support.ASKED), certainty=0.9, by=By.VOICE, settled=Settled.FOLLOWED
)


@pytest.mark.parametrize(
    ("given", "told"),
    [
        (SPOKEN, Tells.THE_SUM),
        (replace(SPOKEN, support=Support.REPEATED), Tells.THE_SUM),
        (replace(SPOKEN, support=Support.ENCOURAGED), Tells.NOTHING),
        (replace(SPOKEN, tries=2), Tells.NOTHING),
        (replace(SPOKEN, sure=False, settled=Settled.CONFIRMED), Tells.THE_SUM),
        (CLOSE, Tells.PERHAPS),
        (replace(answer(OARS, 43), close_to=(45,)), Tells.THE_SUM),
        (PART, Tells.A_STEP),
        (replace(PART, sure=False), Tells.NOTHING),
        (replace(PART, close_to=(4,)), Tells.NOTHING),
        (replace(PART, support=Support.FIRST_STEP), Tells.NOTHING),
        (replace(SPOKEN, right=True), Tells.NOTHING),
    ],
)
def test_what_an_answer_tells_by_itself(given: Answer, told: Tells) -> None:
    assert tells(given) is told


def test_first_answers_and_asked_steps_count_in_order() -> None:
    assert all_counted([SPOKEN, PART, replace(SPOKEN, tries=2)]) == (SPOKEN, PART)


@pytest.mark.parametrize(
    ("answers", "is_counted"),
    [
        ([CLOSE], False),
        ([CLOSE, replace(AGAIN, given=46)], False),
        ([CLOSE, replace(AGAIN, row=1)], False),
        ([CLOSE, replace(AGAIN, support=Support.MODELLED)], False),
        ([CLOSE, replace(AGAIN, sure=False, settled=Settled.FOLLOWED)], False),
        ([CLOSE, AGAIN], True),
        ([CLOSE, replace(AGAIN, by=By.KEYS, certainty=None, settled=Settled.KEYS)], True),
        ([CLOSE, answer(Sum(57, 3), 60, cell=Cell(1, 0)), AGAIN], True),
    ],
)
def test_a_hearing_close_to_another_number_counts_when_the_same_number_comes_again_in_its_cell(
    answers: Sequence[Answer], is_counted: bool
) -> None:
    assert (CLOSE in all_counted(answers)) is is_counted


def test_it_counts_once() -> None:
    assert all_counted([CLOSE, AGAIN, replace(AGAIN, tries=3)]) == (CLOSE,)
