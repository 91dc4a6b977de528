"""When the factor changes, and when it does not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.hearing.vocal_tract.factor import FACTORS, FEWEST_ANSWERS, MOST_ANSWERS, Evidence, VocalTract

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


def test_a_gain_that_may_be_chance_is_none() -> None:
    """So a grown-up who was once thought to be smaller is heard as they are again."""
    nearly = evidence(*[best_at(1.3), best_at(1.4), best_at(1.0), best_at(1.2), best_at(1.5)] * 4)
    for factor in FACTORS:
        assert VocalTract(factor, 9).after(nearly) == VocalTract(1.0, 20)


def test_the_one_in_use_stays_where_another_is_hardly_likelier() -> None:
    alike = tuple(-1.0 if one == 1.3 else -1.04 if one == 1.4 else -2.0 for one in FACTORS)
    for factor in (1.3, 1.4):
        assert VocalTract(factor, 9).after(evidence(*[alike] * 20)).factor == factor
    assert VocalTract(1.0, 9).after(evidence(*[alike] * 20)).factor == 1.3


def test_a_pupil_who_grows_up_is_heard_anew() -> None:
    grown = evidence(*[best_at(1.4)] * MOST_ANSWERS, *[best_at(1.1)] * MOST_ANSWERS)
    assert VocalTract(1.4).after(grown) == VocalTract(1.1, MOST_ANSWERS)


def test_a_factor_set_by_hand_between_two_counts_as_the_nearer() -> None:
    assert VocalTract(1.25).after(evidence(*[best_at(1.2)] * 5)).factor == 1.25
    assert VocalTract(1.25).after(evidence(*[best_at(1.5)] * 5)).factor == 1.5


@given(st.lists(scores, min_size=FEWEST_ANSWERS, max_size=12), st.sampled_from(FACTORS))
def test_it_comes_to_rest(answers: list[Scores], factor: float) -> None:
    """Each change makes the same answers likelier, so none is taken back by them."""
    seen = [VocalTract(factor)]
    for _ in FACTORS:
        seen.append(seen[-1].after(evidence(*answers)))
    assert seen[-1] == seen[-2]


@given(st.lists(scores, min_size=FEWEST_ANSWERS, max_size=8), st.sampled_from(FACTORS))
def test_the_order_of_the_answers_is_nothing(answers: list[Scores], factor: float) -> None:
    there, back = (VocalTract(factor).after(evidence(*order)) for order in (answers, answers[::-1]))
    assert there == back
