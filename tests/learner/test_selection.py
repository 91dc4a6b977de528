"""What is asked next, rule by rule; how much it helps made-up pupils is printed by the figures."""

import re
from datetime import date, timedelta
from statistics import mean

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.core.exercises.adding import Sum
from saythesum.core.grids.grid import Cell
from saythesum.core.records.rows import Support
from saythesum.core.sums import Kind, Part
from saythesum.errors import CallerError
from saythesum.learner.pupil import Pupil, with_answer
from saythesum.learner.selection import (
    HELD_BACK_FROM,
    LOOKED_BACK,
    LOW_CONFIDENCE,
    NO_BAND_SET,
    Band,
    Choice,
    ChoiceReason,
    band_of,
    choose,
)
from saythesum.settings import Choosing
from tests.core.made_sums import a_sum
from tests.learner.learners import CELLS, FIRST_DAY, answer, by_choice, learner, practise

DAY = date(2026, 3, 2)


def cells(*sums: Sum) -> dict[Cell, Sum]:
    return {Cell(number, 0): asked for number, asked in enumerate(sums)}


def knowing(*sums: Sum, times: int = 4, since: int = 0) -> Pupil:
    """A pupil who gave right answers to these sums, once a day, the last `since` days ago."""
    pupil = Pupil()
    for number in range(times):
        on = DAY - timedelta(days=since + times - 1 - number)
        for asked in sums:
            pupil = with_answer(pupil, answer(asked, asked.total), on)
    return pupil


def chosen(pupil: Pupil, *sums: Sum, band: Band = NO_BAND_SET) -> Choice:
    return choose(pupil, cells(*sums), DAY, band)


FEW = (Sum(38, 5), Sum(47, 8), Sum(56, 9), Sum(69, 4), Sum(27, 6), Sum(76, 7), Sum(88, 3), Sum(39, 8))
MANY = (
    *FEW,
    Sum(29, 5),
    Sum(37, 7),
    Sum(58, 6),
    Sum(66, 5),
    Sum(79, 7),
    Sum(45, 6),
    Sum(57, 4),
    Sum(89, 2),
    Sum(68, 9),
)
"""So many that none is held back yet."""
assert len(MANY) > HELD_BACK_FROM


def test_the_first_cells_follow_the_order_of_teaching() -> None:
    plus_one, within, landing = Sum(59, 1), Sum(52, 3), Sum(36, 4)
    why = chosen(Pupil(), *MANY, landing, within, plus_one).why
    assert (why.reason, why.asked) == (ChoiceReason.NEW, plus_one)
    assert chosen(Pupil(), *MANY, landing, within).why.asked == within
    assert chosen(Pupil(), *MANY, landing).why.asked == landing
    assert a_sum(chosen(Pupil(), *MANY).why.asked).kind is Kind.CROSSING


@pytest.mark.parametrize(
    ("choosing", "band"),
    [
        (Choosing(), NO_BAND_SET),
        (Choosing(confidence="low"), LOW_CONFIDENCE),
        (Choosing(right_percent=(60, 90)), Band(0.6, 0.9)),
        (Choosing(right_percent=(60, 90), confidence="low"), Band(0.6, 0.9)),
    ],
)
def test_the_band_that_the_settings_say(choosing: Choosing, band: Band) -> None:
    assert band_of(choosing) == band


def test_one_cell_left_is_the_last() -> None:
    assert chosen(Pupil(), Sum(47, 8)).why.reason is ChoiceReason.LAST


def test_the_surest_of_a_few_is_kept_for_the_end() -> None:
    sure = Sum(47, 8)
    pupil = knowing(sure, since=1)
    assert all(chosen(pupil, *MANY[2:count], sure).why.asked != sure for count in range(3, HELD_BACK_FROM))


def test_too_few_right_lately_calls_for_something_easier() -> None:
    known = Sum(47, 8)
    pupil = knowing(known, since=1)
    for asked in (Sum(39, 7), Sum(28, 6), Sum(66, 9)):
        pupil = with_answer(pupil, answer(asked, 777), DAY)
    why = chosen(pupil, *MANY).why
    assert (why.reason, why.asked) == (ChoiceReason.EASIER, known)
    assert why.chance > 0.7


def test_what_broke_is_met_again_in_its_simplest_kind() -> None:
    pupil = knowing(*MANY, since=1)
    step = answer(Sum(46, 7), 5, part=Part.GAP, support=Support.ASKED)
    pupil = with_answer(pupil, step, DAY)
    why = chosen(pupil, Sum(56, 9), Sum(36, 4), *MANY).why
    assert (why.reason, why.item, why.asked) == (ChoiceReason.BROKEN, Sum(46, 7).bond, Sum(36, 4))
    assert why.asked.needs(why.item)


@pytest.mark.parametrize(("band", "missed"), [(NO_BAND_SET, 2), (LOW_CONFIDENCE, 1), (Band(0.3, 0.5), 5)])
def test_something_easier_comes_before_too_few_are_right(band: Band, missed: int) -> None:
    """Of eight answers, this many missed and one more would leave fewer right than the band's lowest."""
    rights = [Sum(20 + number, 1) for number in range(7)]

    def reason(wrong: int) -> ChoiceReason:
        pupil = Pupil()
        for number, asked in enumerate(rights):
            pupil = with_answer(pupil, answer(asked, 777 if number < wrong else asked.total), DAY)
        return chosen(pupil, *MANY, band=band).why.reason

    assert [reason(wrong) is ChoiceReason.EASIER for wrong in range(7)] == [wrong >= missed for wrong in range(7)]


@pytest.mark.parametrize(
    ("band", "rights", "is_new"), [(Band(0, 1), 4, False), (Band(0, 1), 5, True), (Band(0, 0.9), 4, True)]
)
def test_something_new_comes_in_the_upper_half_of_the_band(band: Band, rights: int, is_new: bool) -> None:
    """Though much is shaky; of the last eight answers so many were right."""
    pupil = Pupil()
    for asked in FEW:
        pupil = with_answer(pupil, answer(asked, 777), DAY - timedelta(days=2))
    for number in range(LOOKED_BACK):
        asked = Sum(20 + number, 1)
        pupil = with_answer(pupil, answer(asked, asked.total if number < rights else 777), DAY)
    assert chosen(pupil, *MANY, band=band).why.reason is (ChoiceReason.NEW if is_new else ChoiceReason.SHAKY)


def test_where_enough_is_right_what_is_learned_is_hard() -> None:
    pupil = Pupil()
    for asked in FEW:
        pupil = with_answer(pupil, answer(asked, 777), DAY - timedelta(days=2))
    for asked in (Sum(20 + number, 1) for number in range(LOOKED_BACK)):
        pupil = with_answer(pupil, answer(asked, asked.total), DAY)
    worth_most = chosen(pupil, *MANY, band=Band(0, 0.9)).why
    assert chosen(pupil, *MANY, band=Band(worth_most.chance, 0.9)).why.chance < worth_most.chance


def test_what_is_due_is_mixed_with_the_rest() -> None:
    """At most one question in five: weeks away would else bring a practice of nothing but what is known."""
    due = [Sum(38, 5), Sum(56, 9), Sum(69, 4), Sum(27, 6), Sum(76, 7)]
    pupil = knowing(*due, since=30)
    open_cells, reasons = cells(*MANY), []
    for _ in range(10):
        choice = choose(pupil, open_cells, DAY)
        reasons.append(choice.why.reason)
        asked = open_cells.pop(choice.cell)
        pupil = with_answer(pupil, answer(asked, asked.total), DAY)
    assert [number for number, reason in enumerate(reasons) if reason is ChoiceReason.UPKEEP] == [0, 5]


@pytest.mark.parametrize(("since", "is_due"), [(5, False), (7, True), (30, True)])
def test_what_is_known_is_asked_again_after_a_week(since: int, is_due: bool) -> None:
    """Common practice: upkeep after 1, 2 and 4 weeks."""
    pupil = knowing(Sum(47, 8), since=since)
    why = chosen(pupil, *MANY).why
    assert (why.reason is ChoiceReason.UPKEEP) == is_due
    assert (why.asked == Sum(47, 8)) == is_due
    assert why.last_asked == (DAY - timedelta(days=since) if is_due else None)


def test_no_fact_twice_in_a_short_while() -> None:
    pupil = with_answer(Pupil(), answer(Sum(47, 8), 55), DAY)
    assert chosen(pupil, Sum(67, 8), Sum(58, 7), *MANY).why.asked not in (Sum(67, 8), Sum(58, 7), Sum(47, 8))


def test_low_confidence_gets_more_of_what_is_known() -> None:
    def share_right(band: Band) -> float:
        rights = []
        for number in range(8):
            pupil = learner(f"band {number}", 0.5)
            known = Pupil()
            for day in range(4):
                known, _ = practise(pupil, known, by_choice(band), FIRST_DAY + timedelta(days=day))
            rights.append(mean(seen.right for seen in known.recent))
        return mean(rights)

    assert share_right(LOW_CONFIDENCE) > share_right(Band(0.3, 0.5))


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(sorted(CELLS)), st.booleans()), max_size=15), st.data())
def test_an_open_cell_is_chosen_and_why_is_true_of_it(asked: list[tuple[Cell, bool]], data: st.DataObject) -> None:
    pupil = Pupil()
    for cell, right in asked:
        pupil = with_answer(pupil, answer(CELLS[cell], CELLS[cell].total if right else 7, cell=cell), DAY)
    open_cells = {cell: CELLS[cell] for cell in data.draw(st.sets(st.sampled_from(sorted(CELLS)), min_size=1))}
    choice = choose(pupil, open_cells, DAY)
    assert open_cells[choice.cell] == choice.why.asked
    assert 0 <= choice.why.chance <= 1
    assert choice.why.reason is not ChoiceReason.NEW or choice.why.last_asked is None
    assert choose(pupil, open_cells, DAY) == choice


@pytest.mark.parametrize(("lowest", "highest"), [(0.9, 0.7), (-0.1, 0.5), (0.5, 1.2)])
def test_bad_band(lowest: float, highest: float) -> None:
    said = f"The share of right answers from {lowest} to {highest} is no band"
    with pytest.raises(CallerError, match=re.escape(said)):
        Band(lowest, highest)
