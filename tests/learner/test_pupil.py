"""What an answer changes in what is known about a pupil, and what changes nothing."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.grids.grid import Cell
from saythesum.core.records.rows import Answer, By, Settled, Support
from saythesum.core.sums import Part
from saythesum.learner.pupil import Pupil, with_answer
from saythesum.learner.skills import fact_of, item_of, steps_of
from tests.core.made_rows import answers
from tests.learner.learners import answer

DAY = date(2026, 3, 2)
OARS = Sum(47, 8)  # three to fifty, five left
STEP = Support.ASKED


def after(*said: Answer, pupil: Pupil | None = None) -> Pupil:
    known = pupil or Pupil()
    for one in said:
        known = with_answer(known, one, DAY)
    return known


def changed(before: Pupil, later: Pupil) -> set[Item]:
    return {item for item in later.beliefs if later.belief(item) != before.belief(item)}


def test_a_step_changes_its_own_skill_only() -> None:
    expected = {
        Part.NEXT_TEN: Item(Skill.NEXT_TEN),
        Part.GAP: OARS.bond,
        Part.REST: OARS.partition,
        Part.TOTAL: Item(Skill.JOIN),
    }
    for part in OARS.parts:
        right = answer(OARS, OARS.answer_to(part), part=part, support=STEP)
        assert changed(Pupil(), after(right)) == {expected[part]}


def test_a_right_whole_answer_changes_no_step() -> None:
    told = changed(Pupil(), after(answer(OARS, 55)))
    assert told == {item_of(OARS), fact_of(OARS), Item(Skill.HEARS), Item(Skill.BRIDGES)}
    assert not told & set(steps_of(OARS))


def test_a_wrong_whole_answer_changes_what_its_diagnosis_bears() -> None:
    """53 is the gap used twice: the splitting of eight broke, not the bond."""
    told = changed(Pupil(), after(answer(OARS, 53)))
    assert OARS.partition in told and OARS.bond not in told
    assert after(answer(OARS, 50)).broken == OARS.partition


def test_a_misheard_question_is_no_lack_of_the_fact() -> None:
    """39 is the amount taken away: the question was not held, the sum was never tried."""
    pupil = after(answer(OARS, 39))
    assert pupil.belief(item_of(OARS)).known == Pupil().belief(item_of(OARS)).known
    assert pupil.belief(Item(Skill.HEARS)).known < Pupil().belief(Item(Skill.HEARS)).known


def test_an_unexplained_answer_lowers_the_sum_alone() -> None:
    pupil = after(answer(OARS, 777))
    assert changed(Pupil(), pupil) == {item_of(OARS)}
    assert pupil.broken is None


def test_a_fact_known_in_one_ten_is_not_yet_known_in_another() -> None:
    """Thorndike: 8 and 7 known at ten is not always 38 and 7."""
    pupil = after(*(answer(Sum(47, 8), 55) for _ in range(4)))
    assert pupil.is_sure(item_of(Sum(47, 8)))
    assert not pupil.is_sure(item_of(Sum(67, 8)))
    assert pupil.belief(item_of(Sum(67, 8))).known > Pupil().belief(item_of(Sum(67, 8))).known
    assert pupil.belief(item_of(Sum(48, 7))) == pupil.belief(item_of(Sum(47, 8)))


def test_one_lucky_answer_makes_nothing_sure() -> None:
    assert not after(answer(OARS, 55)).is_sure(item_of(OARS))


SILENT = (
    replace(answer(OARS, 55), support=Support.ENCOURAGED),
    replace(answer(OARS, 55), support=Support.ADULT_HELP),
    replace(answer(OARS, 55), tries=2),
    replace(answer(OARS, 55, part=Part.TOTAL), support=Support.MODELLED),
    replace(answer(OARS, 5, part=Part.REST), support=Support.FIRST_STEP),
    replace(
        answer(OARS, 3, part=Part.GAP, support=STEP), certainty=0.4, sure=False, settled=Settled.FOLLOWED, by=By.VOICE
    ),
    replace(answer(OARS, 30, part=Part.GAP, support=STEP), close_to=(13,)),
    replace(answer(OARS, 55), operation="take"),
    replace(answer(OARS, 55), given=5000, right=False),
    replace(answer(OARS, 55), right=False),  # marked against its own sum
)


@pytest.mark.parametrize("said", SILENT, ids=range(len(SILENT)))
def test_what_tells_nothing_changes_nothing(said: Answer) -> None:
    assert after(said) == Pupil()


def test_hearing_the_question_again_is_not_help() -> None:
    assert after(replace(answer(OARS, 55), support=Support.REPEATED)) == after(answer(OARS, 55))


# A wrong hearing that is easily confused with another number.

NEAR = replace(answer(Sum(37, 6), 30), close_to=(40, 13), by=By.VOICE, certainty=0.9, settled=Settled.SAID_BACK)


def test_a_close_hearing_is_nothing_until_it_comes_again() -> None:
    once = after(NEAR)
    assert once.beliefs == {} and once.evidence == ()
    again = replace(NEAR, tries=2, support=Support.ENCOURAGED)
    assert after(again, pupil=once).beliefs == after(replace(NEAR, close_to=())).beliefs


def test_or_until_it_comes_by_keys() -> None:
    keyed = replace(NEAR, tries=2, support=Support.ENCOURAGED, by=By.KEYS, certainty=None, close_to=())
    assert after(NEAR, keyed).evidence == after(replace(NEAR, close_to=())).evidence


def test_another_number_bears_nothing_out() -> None:
    other = replace(NEAR, given=43, right=True, tries=2, support=Support.ENCOURAGED, close_to=())
    assert after(NEAR, other).beliefs == {}


def test_a_close_hearing_of_the_right_number_counts() -> None:
    assert after(replace(NEAR, given=43, right=True)).beliefs == after(answer(Sum(37, 6), 43)).beliefs


# Invariants.


def first_answers() -> st.SearchStrategy[Answer]:
    sums = st.builds(Sum, st.integers(10, 99), st.integers(1, 9))
    wrong = st.builds(answer, sums, st.integers(0, 200))
    return st.one_of(wrong, sums.map(lambda asked: answer(asked, asked.total)))


@settings(max_examples=60, deadline=None)
@given(st.lists(first_answers(), max_size=6), first_answers())
def test_belief_never_moves_the_wrong_way_on_a_first_answer(before: list[Answer], said: Answer) -> None:
    known = after(*before)
    later = after(said, pupil=known)
    for item in {*known.beliefs, *later.beliefs}:
        change = later.belief(item).known - known.belief(item).known
        is_prior = item not in known.beliefs and item not in later.beliefs
        assert is_prior or (change >= -1e-9 if said.right else change <= 1e-9), item


@settings(deadline=None)
@given(st.lists(first_answers(), max_size=5), st.sampled_from(Support))
def test_helped_success_never_raises_more_than_success_alone(before: list[Answer], support: Support) -> None:
    known = after(*before)
    alone = after(answer(OARS, 55), pupil=known)
    helped = after(replace(answer(OARS, 55), support=support), pupil=known)
    for item in alone.beliefs:
        assert helped.belief(item).known <= alone.belief(item).known + 1e-9


@settings(max_examples=60, deadline=None)
@given(st.lists(answers(), max_size=8))
def test_any_rows_at_all_can_be_learned_from(rows: Iterable[Answer]) -> None:
    pupil = Pupil()
    for row in rows:
        pupil = with_answer(pupil, row, DAY)
    assert all(0 <= belief.known <= 1 + 1e-9 for belief in pupil.beliefs.values())


# Times.


def test_times_are_kept_apart_by_the_way_of_answering() -> None:
    spoken = replace(answer(OARS, 55), took_ms=4000, by=By.VOICE)
    keyed = [replace(answer(OARS, 55), took_ms=took) for took in (2000, 3000, 10_000)]
    wrong = replace(answer(OARS, 45), took_ms=60_000)
    pupil = after(spoken, *keyed, wrong)
    assert pupil.times_ms == {By.VOICE: (4000,), By.KEYS: (2000, 3000, 10_000)}


def test_a_time_that_was_not_taken_is_left_out() -> None:
    assert after(replace(answer(OARS, 55), took_ms=None)).times_ms == {}


def test_an_answer_that_took_long_was_worked_out() -> None:
    quick = [answer(Sum(20 + number, 1), 21 + number) for number in range(9)]
    slow = replace(answer(OARS, 55), took_ms=9000)
    assert after(*quick, slow).worked_out == {item_of(OARS)}
    assert after(*quick, slow, answer(OARS, 55)).worked_out == frozenset()
    assert after(slow).worked_out == frozenset()


def test_what_broke_is_mended_by_its_step_or_by_a_sum_that_needs_it() -> None:
    broken = after(answer(OARS, 50))
    assert broken.broken == OARS.partition
    assert after(answer(OARS, 5, part=Part.REST, support=STEP), pupil=broken).broken is None
    assert after(answer(Sum(67, 8), 75), pupil=broken).broken is None
    assert after(answer(Sum(39, 4), 43), pupil=broken).broken == broken.broken


def test_a_cell_elsewhere_settles_nothing() -> None:
    other = replace(NEAR, row=3, tries=2, support=Support.ENCOURAGED)
    assert Cell(0, 0) in after(NEAR, other).unsettled
