"""Taking away's own mistakes as beliefs, beside those of adding. How often they are found is printed by the figures."""

from itertools import combinations

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.taking import Difference
from saythesum.core.mistakes.pattern import Mistake, Occasion
from saythesum.core.mistakes.taking import TAKE_MISTAKES
from saythesum.core.records.rows import By, RowId
from saythesum.core.sums import Kind, Part
from saythesum.learner.assessment.telling_apart import information
from saythesum.learner.diagnosis import NAMES, diagnosed, leaning, weighed
from saythesum.learner.evidence import Evidence
from saythesum.learner.findings import findings
from tests.learner.test_diagnosis import BUNS, OARS, told

CROSSING = [
    asked
    for asked in (Difference(start, amount) for start in range(11, 100) for amount in range(1, 10))
    if asked.kind is Kind.CROSSING
]
TELLING = (Difference(52, 8), Difference(63, 9), Difference(71, 6))
OWN = [mistake for mistake in TAKE_MISTAKES if mistake.name not in NAMES]


def took(*answers: tuple[Exercise, int]) -> list[Evidence]:
    return [
        Evidence(RowId(f"row {number}"), asked.key, Part.WHOLE, given, By.TEXT)
        for number, (asked, given) in enumerate(answers)
    ]


@pytest.mark.parametrize("mistake", OWN, ids=lambda mistake: mistake.name)
def test_each_of_its_own_is_first_after_three_telling_answers_and_is_named(mistake: Mistake) -> None:
    answers = took(*((asked, mistake.gives(asked)[0]) for asked in TELLING))
    assert diagnosed(answers).ranked[0] == mistake.name
    assert mistake.name in [finding.mistake for finding in findings(answers)]


def test_smaller_from_larger_comes_apart_from_a_ten_that_was_not_taken() -> None:
    """52 take away 7 is answered 55 by both; one answer to 63 take away 4 tells them apart."""
    alike = Difference(52, 7)
    weights = weighed(Occasion(alike), 55, leaning((), alike))
    assert weights["ones-differenced"] == pytest.approx(weights["ten-not-taken"])
    for given, likelier, other in (
        (69, "ten-not-taken", "ones-differenced"),
        (61, "ones-differenced", "ten-not-taken"),
    ):
        after = diagnosed(took((alike, 55), (Difference(63, 4), given))).shares
        assert after[likelier] > 10 * after[other]


def test_what_is_known_of_adding_has_no_mistake_of_taking_away_in_it() -> None:
    answers = told((OARS, 45), (BUNS, 35))
    assert set(diagnosed(answers).shares) == set(leaning(answers)) == set(NAMES)


def test_a_mistake_made_in_both_is_one_belief() -> None:
    stopped = [*told((OARS, 50), (BUNS, 40)), *took((TELLING[0], 50))]
    assert diagnosed(stopped).ranked[0] == "stopped-at-the-ten"


def test_two_that_give_the_same_number_are_told_apart_by_a_small_question() -> None:
    """For every sum across a ten below a hundred, and every two of the mistakes that meet in one number."""
    for asked in CROSSING:
        for one, other in combinations(TAKE_MISTAKES, 2):
            met = {given for given in one.gives(asked) if one.fits(asked, given) and other.fits(asked, given)}
            if met:
                halves = {one.name: 0.5, other.name: 0.5}
                assert max(information(asked, part, halves) for part in asked.small_questions) > 0.05, (asked, halves)


def test_a_wrong_answer_in_adding_is_weighed_as_before() -> None:
    asked = Sum(47, 5)
    assert leaning((), asked) == leaning(())
