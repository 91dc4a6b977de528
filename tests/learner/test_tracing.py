"""Knowledge tracing against published and worked values; and that belief never moves the wrong way."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.learner.tracing import Belief, Tracing, chance_right, given_answer, stepped, traced
from tests.learner.published import TRACED, Worked, beliefs_after

chances = st.floats(0, 1)
tracings = st.builds(Tracing, chances, chances, slip=st.floats(0, 0.45), guess=st.floats(0, 0.45))


@pytest.mark.parametrize("worked", TRACED, ids=lambda worked: worked.answers)
def test_worked_values(worked: Worked) -> None:
    assert beliefs_after(worked) == list(worked.beliefs)


def test_worked_posteriors() -> None:
    """Of the first of them, before anything is learned from each answer; worked out by hand."""
    tracing, posteriors = TRACED[0].tracing, []
    known = tracing.known_at_first
    for answer in TRACED[0].answers:
        posteriors.append(round(given_answer(known, tracing, right=answer == "1"), 4))
        known = stepped(known, tracing, right=answer == "1")
    assert posteriors == [0.2, 0.5765, 0.8503]


def test_one_lucky_answer_nearly_masters_where_guesses_are_rare() -> None:
    """Worked out by hand from the same formulas: why a belief alone does not make a skill sure."""
    known, tracing, beliefs = 0.3, Tracing(0.3, 0.1, slip=0.1, guess=0.05), []
    for _ in range(3):
        known = stepped(known, tracing, right=True)
        beliefs.append(round(known, 4))
    assert beliefs == [0.8967, 0.9943, 0.9997]


@given(chances, tracings, chances)
def test_belief_never_moves_the_wrong_way(known: float, tracing: Tracing, weight: float) -> None:
    belief = Belief(known)
    rounding = 1e-9
    assert traced(belief, tracing, right=True, weight=weight).known >= known - rounding
    assert traced(belief, tracing, right=False, weight=weight).known <= known


@given(chances, tracings, st.booleans())
def test_beliefs_and_chances_stay_chances(known: float, tracing: Tracing, right: bool) -> None:
    assert 0 <= traced(Belief(known), tracing, right=right).known <= 1 + 1e-9
    assert 0 <= chance_right(known, tracing) <= 1


def test_doubt_is_most_in_the_middle() -> None:
    assert [Belief(known).doubt for known in (0.0, 0.5, 1.0)] == [0.0, 0.5, 0.0]


def test_guessing_right_more_often_than_knowing_is_refused() -> None:
    with pytest.raises(ValueError, match="below 1"):
        Tracing(0.3, 0.1, slip=0.6, guess=0.5)
    with pytest.raises(ValueError, match="from 0 to 1"):
        Tracing(1.3, 0.1, slip=0.1, guess=0.1)
