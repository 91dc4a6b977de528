"""Counting on in ones is heard as such and kept; once a practice a way with two jumps is offered."""

import pytest

from saythesum.core.records.rows import Answer, Way
from saythesum.dialogue.turns.effects import Ear
from tests.talk import Talk, plan_of

OFFER = "That works. There's a way with two jumps: want it? Yes or no."


def counted(*numbers: str, starts: tuple[int, ...] = (38, 57), amounts: tuple[int, ...] = (5, 8)) -> Talk:
    talk = Talk(plan_of(starts, amounts), Ear.OPEN)
    talk.begin()
    count_on(talk, *numbers)
    return talk


def count_on(talk: Talk, *numbers: str) -> None:
    for number in numbers:
        talk.hear(number)
        talk.wait(1200)
    talk.wait()
    talk.wait()


IN_PAUSES = ("thirty-nine", "forty", "forty-one", "forty-two", "forty-three")


@pytest.mark.parametrize("numbers", [IN_PAUSES, (" ".join(IN_PAUSES),), ("thirty-eight", *IN_PAUSES)])
def test_in_pauses_and_in_one_breath_it_is_kept_as_counted_and_right(numbers: tuple[str, ...]) -> None:
    talk = counted(*numbers)
    (answer,) = talk.answers
    assert (answer.given, answer.right, answer.way, answer.tries) == (43, True, Way.COUNTED, 1)
    assert talk.said[-3:] == ["Forty-three.", "Yes.", OFFER]


def test_yes_tells_the_two_jumps_and_goes_on() -> None:
    talk = counted(*IN_PAUSES)
    talk.answer("yes")
    assert talk.said[-2:] == ["Thirty-eight and two is forty. Three more is forty-three.", "Thirty-eight add eight."]


@pytest.mark.parametrize("reply", ["no", "go on", "skip this one", "forty-six"])
def test_anything_else_goes_on(reply: str) -> None:
    talk = counted(*IN_PAUSES)
    talk.answer(reply)
    assert talk.said[-1] == "Thirty-eight add eight."
    assert len(talk.answers) == 1


def test_said_again_it_is_offered_again() -> None:
    talk = counted(*IN_PAUSES)
    talk.type("say that again")
    assert talk.said[-1] == "A way with two jumps: want it? Yes or no."


def test_once_a_practice() -> None:
    talk = counted(*IN_PAUSES)
    talk.answer("no")
    count_on(
        talk,
        *("thirty-nine", "forty", "forty-one", "forty-two", "forty-three", "forty-four"),
        "forty-five",
        "forty-six",
    )
    assert [answer.way for answer in talk.answers] == [Way.COUNTED, Way.COUNTED]
    assert talk.said.count(OFFER) == 1


def test_a_correction_is_no_count_and_a_wrong_count_is_offered_nothing() -> None:
    talk = counted("forty-two", "forty-three")
    assert [answer.way for answer in talk.answers] == [None]
    talk = counted("thirty-nine", "forty", "forty-one", "forty-two")
    assert [(answer.given, answer.way) for answer in talk.answers] == [(42, Way.COUNTED)]
    assert OFFER not in talk.said


def test_three_steps_are_as_well_counted() -> None:
    talk = counted("thirty-nine", "forty", "forty-one", amounts=(3, 5))
    assert [answer.way for answer in talk.answers] == [Way.COUNTED]
    assert OFFER not in talk.said


def test_after_a_kill_the_next_sum_is_asked() -> None:
    again = counted(*IN_PAUSES).again()
    again.begin()
    assert again.said == ["Thirty-eight add eight."]
    assert [row.given for row in again.rows if isinstance(row, Answer)] == [43]


def test_the_adults_turn_goes_on_with_the_next_sum() -> None:
    talk = counted(*IN_PAUSES)
    talk.adult_takes()
    talk.adult_gives()
    assert talk.said[-1] == "Thirty-eight add eight."


def test_stop_means_stop() -> None:
    talk = counted(*IN_PAUSES)
    talk.type("stop")
    assert talk.finished
    assert talk.said[-1] == "We'll stop there. One done. Bye for now."
