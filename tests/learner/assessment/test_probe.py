"""Eight sums, as hard in every form by the model, and never the same within seven forms."""

from collections import Counter
from datetime import date

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.grids.grid import Cell
from saythesum.core.sums import Kind
from saythesum.learner.assessment.probe import form
from saythesum.learner.pupil import Pupil, with_answer
from tests.core.made_sums import a_sum
from tests.learner.learners import answer

DAY = date(2026, 3, 2)


def sums_of(number: int) -> tuple[Sum, ...]:
    return tuple(map(a_sum, form(number).sums))


def expected_right(sums: tuple[Sum, ...], pupil: Pupil) -> list[float]:
    return sorted(pupil.chance(asked, DAY) for asked in sums)


@pytest.mark.parametrize("number", range(24))
def test_every_form_is_as_hard(number: int) -> None:
    ours, first = sums_of(number), sums_of(0)
    assert len(ours) == 8
    assert expected_right(ours, Pupil()) == pytest.approx(expected_right(first, Pupil()), abs=1e-12)
    kinds = Counter(asked.kind for asked in ours)
    assert kinds == {Kind.CROSSING: 6, Kind.LANDING: 1, Kind.WITHIN: 1}


def test_forms_in_a_row_have_no_sum_in_common() -> None:
    for begun in range(10):
        sums = [asked for number in range(begun, begun + 7) for asked in sums_of(number)]
        assert len(set(sums)) == 7 * 8


def test_no_teens_and_no_hundred() -> None:
    assert all(20 <= asked.start <= 89 for number in range(42) for asked in sums_of(number))


def test_the_cells_are_cells_of_the_grid() -> None:
    for number in range(14):
        probe = form(number)
        assert all(cell in probe.grid for cell in probe.cells)
        assert [cell.row for cell in probe.cells] == list(range(8))
        assert len(set(probe.grid.starts)) == 8
    assert Cell(8, 0) not in form(0).grid


def test_a_pupil_who_learned_is_expected_to_do_better() -> None:
    pupil = Pupil()
    for asked in sums_of(1):
        pupil = with_answer(pupil, answer(asked, asked.total), DAY)
    assert sum(expected_right(sums_of(2), pupil)) > sum(expected_right(sums_of(2), Pupil()))
