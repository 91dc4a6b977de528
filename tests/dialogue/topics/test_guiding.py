"""An answer to a guided part is followed by its best reading; only what the gate took counts."""

import pytest

from saythesum.core.meanings import Number
from saythesum.core.records.rows import Support
from saythesum.core.sums import Part
from saythesum.dialogue.tutor.progress import known
from tests.judged import judged_at
from tests.talk import Talk, plan_of


def at_the_gap() -> Talk:
    """Of thirty-eight and five: two."""
    talk = Talk(plan_of((38,), (5,)))
    talk.begin()
    talk.type("45")
    return talk


def test_the_gate_itself_is_what_tests_are_fed_by() -> None:
    assert judged_at(Number(3), 0.9) == Number(3, certainty=0.9, sure=True)
    assert judged_at(Number(3), 0.9, is_clear=False) == Number(3, certainty=0.9, sure=False)


def supports_after_two_misses(certainty: float, *, is_clear: bool) -> tuple[Part, Support]:
    talk = at_the_gap()
    for number in ("three", "four"):
        talk.answer(number, certainty, is_clear=is_clear)
    assert [answer.sure for answer in talk.answers[1:]] == [is_clear] * 2
    ask = talk.state.progress.ask
    assert ask
    return ask.part, ask.support


def test_a_part_without_a_clear_margin_raises_no_support_however_certain() -> None:
    assert supports_after_two_misses(0.9, is_clear=True) == (Part.TOTAL, Support.FIRST_STEP)
    assert supports_after_two_misses(0.9, is_clear=False) == (Part.GAP, Support.ASKED)


@pytest.mark.parametrize("number", ["three", "two"])
def test_a_part_without_a_clear_margin_is_followed_and_is_no_evidence(number: str) -> None:
    talk = at_the_gap()
    before = known(talk.plan, talk.state.progress)
    talk.answer(number, 0.9, is_clear=False)
    answer = talk.answers[-1]
    assert (answer.part, answer.sure, answer.certainty) == (Part.GAP, False, 0.9)
    followed = "How many of the five are left?" if number == "two" else "How many to forty?"
    assert talk.said[-1] == followed
    assert known(talk.plan, talk.state.progress) == before


def test_a_part_that_the_gate_took_is_evidence() -> None:
    talk = at_the_gap()
    before = known(talk.plan, talk.state.progress)
    talk.answer("three", 0.9)
    assert known(talk.plan, talk.state.progress) != before
