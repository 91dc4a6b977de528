"""Which names are kept with a wrong answer, and in which order."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.core.exercises.adding import Sum
from saythesum.core.mistakes.pattern import Occasion
from saythesum.core.records.rows import Answer, By, Settled
from saythesum.core.sums import CLOSING_PARTS, Part
from saythesum.learner.findings import fitting_names
from saythesum.learner.pupil import Pupil, with_answer
from tests.core.made_sums import explaining
from tests.learner.learners import answer

DAY = date(2026, 3, 2)
FLOUR = Sum(36, 9)  # 44 is one short, and the gap of 4 used twice
SPOKEN = Occasion(FLOUR)
ONE_SHORT = (answer(Sum(46, 6), 51), answer(Sum(28, 7), 34))
GAP_TWICE = (answer(Sum(27, 8), 33), answer(Sum(57, 9), 63))


def after(*said: Answer) -> Pupil:
    pupil = Pupil()
    for one in said:
        pupil = with_answer(pupil, one, DAY)
    return pupil


def test_of_a_pupil_of_whom_nothing_is_known_the_catalogue_has_its_order() -> None:
    assert fitting_names(Pupil(), SPOKEN, Part.WHOLE, 44) == ("one-short", "gap-used-twice")
    assert fitting_names(Pupil(), SPOKEN, Part.TOTAL, 40) == ("total-unjoined", "stopped-at-the-ten")
    assert fitting_names(Pupil(), SPOKEN, Part.GAP, 44) == ()


@pytest.mark.parametrize(("before", "first"), [(ONE_SHORT, "one-short"), (GAP_TWICE, "gap-used-twice")])
def test_what_also_fits_the_last_answers_comes_first(before: tuple[Answer, ...], first: str) -> None:
    names = fitting_names(after(*before), SPOKEN, Part.WHOLE, 44)
    assert names[0] == first
    assert set(names) == {"one-short", "gap-used-twice"}


def test_an_answer_that_may_have_been_misheard_moves_no_name() -> None:
    spoken = [replace(one, by=By.VOICE, certainty=0.9, settled=Settled.SAID_BACK) for one in GAP_TWICE]
    misheard = [replace(one, close_to=(one.given - 10,)) for one in spoken]
    unsure = [replace(one, certainty=0.4, sure=False, settled=Settled.FOLLOWED) for one in spoken]
    assert after(*spoken).evidence
    for said in (misheard, unsure):
        names = fitting_names(after(*said), SPOKEN, Part.WHOLE, 44)
        assert names == fitting_names(Pupil(), SPOKEN, Part.WHOLE, 44)


def test_a_wrong_step_is_named_by_what_its_habit_gives_elsewhere() -> None:
    asked = Sum(37, 7)  # gap 3, rest 4: a 3 is the gap once more, one off the rest, and the amount's partner to ten
    names = fitting_names(Pupil(), Occasion(asked), Part.REST, 3)
    assert set(names) == {"rest-as-gap", "rest-off-by-one", "rest-from-ten"}
    assert fitting_names(after(*GAP_TWICE), Occasion(asked), Part.REST, 3)[0] == "rest-as-gap"
    assert fitting_names(after(*ONE_SHORT), Occasion(asked), Part.REST, 3)[0] == "rest-off-by-one"


@given(st.integers(0, 999), st.integers(1, 9), st.integers(0, 1099), st.data())
def test_all_that_fit_are_named_once_and_nothing_else(start: int, amount: int, given: int, data: st.DataObject) -> None:
    asked = Occasion(Sum(start, amount), True, (Sum(start, amount % 9 + 1),), before=given // 2)
    part = data.draw(st.sampled_from([Part.WHOLE, *asked.asked.parts]))
    names = fitting_names(after(*data.draw(st.permutations(ONE_SHORT + GAP_TWICE))), asked, part, given)
    fits = [mistake.name for mistake in asked.asked.part_mistakes_giving(part, given)]
    if part in CLOSING_PARTS:
        fits += [pattern.name for pattern in explaining(asked, given)]
    assert sorted(names) == sorted(fits)
