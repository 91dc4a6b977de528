"""Diagnosis on answers made by hand. How often it is right for made-up pupils is printed by the figures."""

from random import Random

import pytest

from saythesum.app.rehearsal.kinds import SLIPS_ONLY, believing_in, mind_of
from saythesum.core.exercises.adding import Sum
from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.mistakes.pattern import Mistake, Occasion
from saythesum.core.sums import Part
from saythesum.learner.assessment.information import expected_information, is_found_out
from saythesum.learner.diagnosis import NAMES, chance_of_slip, diagnosed, leaning, weighed
from saythesum.learner.evidence import Evidence
from saythesum.learner.findings import findings
from tests.core.mistakes.separation import BRIDGING_SUMS, separating
from tests.learner.believers import evidence, most_telling, questioned, shuffled, to_find_out
from tests.learner.learners import FIRST_DAY

OARS, BUNS, SEATS, FLOUR = Sum(47, 8), Sum(38, 7), Sum(69, 4), Sum(56, 9)


def told(*answers: tuple[Sum, int]) -> list[Evidence]:
    return [evidence(asked, given, number=number) for number, (asked, given) in enumerate(answers)]


def test_at_first_no_belief_is_likeliest_and_all_are_equal() -> None:
    first = diagnosed(())
    assert first.none == pytest.approx(0.5)
    assert max(first.shares.values()) == pytest.approx(min(first.shares.values()))


def test_right_answers_speak_for_no_belief() -> None:
    right = diagnosed(told(*((asked, asked.total) for asked in (OARS, BUNS, SEATS, FLOUR))))
    assert right.none > 0.9


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda mistake: mistake.name)
def test_each_of_the_seventeen_is_first_after_three_telling_answers(mistake: Mistake) -> None:
    answers = [(asked, mistake.gives(asked)[0]) for asked in separating()[:3]]
    assert diagnosed(told(*answers)).ranked[0] == mistake.name


def test_what_fits_other_answers_is_weighed_heavier() -> None:
    """44 for 36 add 9 could be one short, or the gap used twice; 51 for 46 add 6 only the first."""
    asked = Occasion(Sum(36, 9))
    before = list(weighed(asked, 44, leaning(())))
    after = list(weighed(asked, 44, leaning(told((Sum(46, 6), 51)))))
    assert set(before) == set(after) and after[0] == "one-short"
    assert sum(weighed(asked, 44, leaning(())).values()) == pytest.approx(1)
    assert weighed(asked, 777, leaning(())) == {}


def test_neighbours_in_the_grid_are_weighed_too() -> None:
    grid = Grid("Buns", (38, 57), (5, 8))
    weights = weighed(grid.occasion_at(Cell(0, 1), is_typed=False, before=51), 43, leaning(()))
    assert "neighbour-cell" in weights
    assert set(weighed(grid.occasion_at(Cell(0, 0), is_typed=False, before=51), 51, leaning(()))) == {"previous-answer"}


def test_a_guided_step_foretells_the_mistake_of_the_same_habit() -> None:
    asked = Sum(48, 7)
    plain = diagnosed(())
    step = diagnosed([evidence(asked, 2, part=Part.REST)])
    assert step.shares["gap-used-twice"] > plain.shares["gap-used-twice"]
    assert step.shares["subtracted"] < plain.shares["subtracted"] * 1.01
    right = diagnosed([evidence(asked, 5, part=Part.REST)])
    assert right.shares["gap-used-twice"] < plain.shares["gap-used-twice"]


def test_the_chances_of_all_slips_add_up_to_one() -> None:
    assert sum(chance_of_slip(FLOUR, given) for given in range(1100)) == pytest.approx(1, abs=1e-9)
    assert chance_of_slip(FLOUR, 65) == 0


# What may be named to an adult.


def test_nothing_is_named_after_one_answer() -> None:
    assert findings(told((OARS, 45))) == ()


def test_two_that_agree_are_named_with_the_answers_for_and_against() -> None:
    heard = told((OARS, 45), (BUNS, 35), (SEATS, 73), (FLOUR, 55))
    (first, *_) = findings(heard)
    assert first.mistake == "new-ten-lost"
    assert first.for_ == tuple(one.of for one in (heard[0], heard[1], heard[3]))
    assert first.against == (heard[2].of,)


def test_the_same_sum_twice_is_one_answer() -> None:
    assert findings(told((OARS, 45), (OARS, 45))) == ()


def test_only_the_last_four_that_could_show_it_count() -> None:
    old = told((OARS, 45), (BUNS, 35), *((asked, asked.total) for asked in separating()[:4]))
    assert findings(old) == ()


def test_mistakes_that_nothing_told_apart_are_found_together() -> None:
    """Where the ones of the start are the larger, subtracting and differencing the ones are one number."""
    heard = told((Sum(48, 5), 43), (Sum(59, 3), 56), (Sum(37, 6), 31))
    assert {finding.mistake for finding in findings(heard)} == {"subtracted", "ones-differenced"}


def test_unexplained_answers_are_forced_into_nothing() -> None:
    heard = told((OARS, 777), (BUNS, 391), (SEATS, 608), (FLOUR, 222))
    assert findings(heard) == ()


# Choosing sums to find out.


def test_the_first_sum_to_ask_tells_all_seventeen_apart() -> None:
    assert most_telling(BRIDGING_SUMS, diagnosed(())) in separating()


def test_a_tie_is_split() -> None:
    """After two answers that leave two mistakes open, the next sum gives them different numbers."""
    heard = told((Sum(48, 5), 43), (Sum(59, 3), 56))
    left = diagnosed(heard)
    assert set(left.ranked[:2]) == {"subtracted", "ones-differenced"}
    chosen = most_telling([asked for asked in BRIDGING_SUMS if asked not in {one.asked for one in heard}], left)
    first, second = (next(m for m in MISTAKES if m.name == name) for name in left.ranked[:2])
    assert first.gives(chosen) != second.gives(chosen)


def test_information_is_never_less_than_nothing() -> None:
    diagnosis = diagnosed(told((OARS, 45), (BUNS, 35)))
    assert min(expected_information(asked, diagnosis) for asked in BRIDGING_SUMS) > -1e-9


def test_finding_out_comes_to_an_end() -> None:
    assert not is_found_out(diagnosed(()))
    lost = next(mistake for mistake in MISTAKES if mistake.name == "new-ten-lost")
    assert is_found_out(diagnosed(questioned(mind_of(believing_in(lost), 5, FIRST_DAY), to_find_out, 6, misheard=0)))


# Made-up pupils, a few of each; the figures have the measure.


def test_made_up_pupils_are_found_out_in_six_answers() -> None:
    found = 0
    for mistake in MISTAKES:
        heard = questioned(mind_of(believing_in(mistake), 1, FIRST_DAY), to_find_out, 6)
        found += diagnosed(heard).ranked[0] == mistake.name
    assert found >= 16


def test_pupils_who_only_slip_are_seldom_named() -> None:
    named = 0
    for number in range(100):
        heard = questioned(mind_of(SLIPS_ONLY, number, FIRST_DAY), shuffled(Random(number)), 20)
        named += any(findings(heard[:answers]) for answers in range(2, 21))
    assert named <= 4


def test_what_can_be_believed_in() -> None:
    assert set(NAMES) >= {mistake.name for mistake in MISTAKES}
    assert not {"fact-slip", "neighbour-cell", "previous-answer", "key-slip"} & set(NAMES)
