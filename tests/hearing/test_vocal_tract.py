"""When the factor changes, and when it does not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.hearing.vocal_tract import FACTORS, FEWEST_ANSWERS, LEAST_GAIN_NATS, Evidence, VocalTract

Scores = tuple[float, ...]
scores = st.tuples(*[st.floats(-30, 0) for _ in FACTORS])


def best_at(factor: float, by_nats: float = 1.0) -> Scores:
    return tuple(-2.0 + by_nats * (one == factor) for one in FACTORS)


def evidence(*answers: Scores) -> Evidence:
    added = Evidence()
    for answer in answers:
        added = added.with_answer(answer)
    return added


def test_too_few_answers_change_nothing() -> None:
    few = evidence(*[best_at(1.3)] * (FEWEST_ANSWERS - 1))
    assert VocalTract().after(few) == VocalTract()


@pytest.mark.parametrize("factor", FACTORS)
def test_enough_answers_choose_the_likeliest(factor: float) -> None:
    enough = evidence(*[best_at(factor)] * FEWEST_ANSWERS)
    assert VocalTract().after(enough) == VocalTract(factor, FEWEST_ANSWERS)


def test_one_answer_that_was_not_understood_outweighs_no_four_that_were() -> None:
    hopeless = tuple(-500.0 if one == 1.2 else -8.0 for one in FACTORS)
    assert VocalTract().after(evidence(hopeless, *[best_at(1.2)] * 4)).factor == 1.2


def test_a_small_gain_leaves_the_factor_in_use() -> None:
    """Whichever it is: so it does not go to and fro between two that are nearly as likely."""
    nearly = evidence(*[best_at(1.3, LEAST_GAIN_NATS / 2)] * 20)
    for factor in FACTORS:
        assert VocalTract(factor, 9).after(nearly) == VocalTract(factor, 20)


def test_a_factor_set_by_hand_between_two_counts_as_the_nearer() -> None:
    assert VocalTract(1.25).after(evidence(*[best_at(1.2)] * 5)).factor == 1.25
    assert VocalTract(1.25).after(evidence(*[best_at(1.5)] * 5)).factor == 1.5


@given(st.lists(scores, min_size=FEWEST_ANSWERS, max_size=12), st.sampled_from(FACTORS))
def test_deciding_twice_is_deciding_once(answers: list[Scores], factor: float) -> None:
    once = VocalTract(factor).after(evidence(*answers))
    assert once.after(evidence(*answers)) == once


@given(st.lists(scores, min_size=1, max_size=8))
def test_the_order_of_the_answers_is_nothing(answers: list[Scores]) -> None:
    there, back = evidence(*answers), evidence(*reversed(answers))
    assert there.answers == back.answers
    assert there.totals == pytest.approx(back.totals)
