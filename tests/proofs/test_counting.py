"""Proof 2: counting aloud is listened to to its end, and only its last number is an answer."""

import pytest

from saythesum.core.meanings import Number
from saythesum.core.records.rows import Settled, Support
from saythesum.core.sums import Part
from tests.proofs.counting import counted, counts
from tests.talk import SILENCE_MS, Talk, plan_of


def test_a_count_and_each_of_its_prefixes_give_one_answer_and_nothing_is_said_in_between() -> None:
    """`python -m tests.proofs` looks at every count; 19 comes to each prefix and each gap."""
    for count in [*counts()][::19]:
        talk, said_during = counted(count)
        assert said_during == 0, count
        (answer,) = talk.answers
        assert (answer.given, answer.part, answer.tries) == (count.last, Part.WHOLE, 1), count
        assert (answer.support, answer.settled) == (Support.INDEPENDENT, Settled.SAID_BACK), count
        assert answer.right == (count.last == count.asked.total), count


def test_thirty_nine_forty_forty_three() -> None:
    talk = Talk(plan_of((38,), (5,)))
    talk.begin()
    talk.said.clear()
    for value, gap_ms in ((39, 0), (40, 2000), (43, 2000)):
        talk.hear(Number(value), after_ms=gap_ms)
        assert talk.said == []
    talk.wait()
    talk.wait()
    (answer,) = talk.answers
    assert (answer.given, answer.right, answer.tries, answer.support) == (43, True, 1, Support.INDEPENDENT)


@pytest.mark.parametrize("gap_ms", [0, 500, 1500, 2200])
def test_forty_and_a_while_later_three_is_forty_three(gap_ms: int) -> None:
    """2.2 s of silence; the bare ten waits 2.5 s."""
    talk = Talk(plan_of((38,), (5,)))
    talk.begin()
    talk.hear("forty")
    talk.hear("three", after_ms=max(0, gap_ms - SILENCE_MS))
    talk.wait()
    talk.wait()
    (answer,) = talk.answers
    assert (answer.given, answer.right) == (43, True)
    assert "stopped-at-the-ten" not in answer.could_be


def test_one_mumbled_number_does_not_end_the_counting() -> None:
    talk = Talk(plan_of((38,), (5,)))
    talk.begin()
    for value, certainty in ((39, 0.9), (14, 0.4), (41, 0.9), (42, 0.9), (43, 0.9)):
        talk.hear(Number(value), certainty, after_ms=2500)
    talk.wait()
    talk.wait()
    assert [answer.given for answer in talk.answers] == [43]
