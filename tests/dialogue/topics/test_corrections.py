"""Taking back, by voice and by keys, early and late."""

import pytest

from saythesum.core.meanings import Number
from saythesum.core.records.rows import EndReason, Support, Void
from saythesum.core.sums import Part
from saythesum.dialogue.turns.effects import Ear, Finish
from tests.talk import Talk, plan_of


def talk_after(*lines: str, ear: Ear = Ear.OPEN) -> Talk:
    talk = Talk(plan_of((38, 57), (5, 8)), ear)
    talk.begin()
    for line in lines:
        talk.type(line)
    return talk


def test_an_unsure_objection_takes_back_and_is_asked_for_once_more() -> None:
    talk = talk_after()
    talk.answer("forty-five")
    talk.hear("I said forty-three", 0.5)
    talk.wait()
    assert talk.said[-2:] == ["Sorry, I misheard.", "Say it once more, please."]
    assert not talk.answers
    talk.answer("forty-three")
    assert [(answer.given, answer.support) for answer in talk.answers] == [(43, Support.INDEPENDENT)]


def test_with_nothing_to_object_to_it_is_an_answer_like_any_other() -> None:
    talk = talk_after()
    talk.answer("I said forty-three")
    assert [(answer.given, answer.right) for answer in talk.answers] == [(43, True)]
    talk = talk_after("help")
    talk.answer("no, forty")
    assert [(answer.given, answer.part) for answer in talk.answers] == [(40, Part.NEXT_TEN)]


def test_an_objection_at_a_part_takes_back_that_part_where_it_is_of_its_size() -> None:
    talk = talk_after("45", "3")
    talk.answer("I said two")
    assert [(answer.part, answer.given) for answer in talk.answers] == [(Part.WHOLE, 45), (Part.GAP, 2)]


def test_no_and_the_number_that_is_asked_for_answers_the_part() -> None:
    talk = talk_after("45")
    talk.answer("no, two")
    assert [(answer.part, answer.given) for answer in talk.answers] == [(Part.WHOLE, 45), (Part.GAP, 2)]
    talk = talk_after("45")
    talk.answer("no, forty-three")
    assert [(answer.part, answer.given) for answer in talk.answers] == [(Part.WHOLE, 43)]


def test_an_objection_to_a_part_after_i_dont_know() -> None:
    talk = talk_after("help", "50")
    talk.answer("I said forty")
    assert [(answer.part, answer.given) for answer in talk.answers] == [(Part.NEXT_TEN, 40)]


def test_an_objection_with_a_whole_number_takes_back_the_whole_answer_and_all_of_the_help() -> None:
    talk = talk_after("45", "3", "I don't know")
    talk.answer("I said forty-three")
    assert [(answer.given, answer.support) for answer in talk.answers] == [(43, Support.INDEPENDENT)]


def test_a_wrong_total_is_what_is_objected_to_once_there_is_one() -> None:
    talk = talk_after("40", "3", "44")
    talk.type("I said forty-three")
    assert [(answer.part, answer.given) for answer in talk.answers] == [
        (Part.WHOLE, 40),
        (Part.REST, 3),
        (Part.TOTAL, 43),
    ]


def test_what_was_typed_was_not_misheard() -> None:
    talk = talk_after("45", "no, 43")
    assert talk.said[-3:] == ["Taken back.", "Yes.", "Thirty-eight add eight."]


def test_taking_back_again_and_again_goes_back_answer_by_answer() -> None:
    talk = talk_after("45", "2", "3", ear=Ear.TEXT)
    for left in ([45, 2], [45], []):
        talk.type("not what I said")
        assert [answer.given for answer in talk.answers] == left
        assert talk.said[-2] == "Taken back."
    talk.type("not what I said")
    assert talk.said[-2:] == ["There is nothing to take back.", "Thirty-eight add five."]


def test_taken_back_after_moving_on_the_cell_that_was_answered_is_played_on() -> None:
    talk = talk_after("43", "right", "down", "not what I said", ear=Ear.TEXT)
    assert talk.said[-2:] == ["Taken back.", "Thirty-eight add five."]
    assert isinstance(talk.rows[-1], Void)
    again = talk.again()
    again.begin()
    again.type("43")
    assert [(answer.row, answer.column, answer.given) for answer in again.answers] == [(0, 0, 43)]


@pytest.mark.parametrize("line", ["that's what I said first", "I said that first"])
def test_said_first_of_nothing_only_asks_again(line: str) -> None:
    for before in ((), ("43",), ("45",)):
        talk = talk_after(*before)
        rows = list(talk.rows)
        talk.type(line)
        assert talk.rows == rows
        assert talk.listen


def test_said_first_in_the_pause() -> None:
    talk = talk_after()
    talk.answer(Number(45, alternatives=(43,)))
    talk.hear("forty-three")
    talk.wait()
    talk.hear("that's what I said first")
    talk.wait()
    talk.wait()
    assert [(answer.given, answer.support) for answer in talk.answers] == [(43, Support.INDEPENDENT)]


def test_a_correction_in_the_pause_takes_back_nothing_that_was_kept() -> None:
    talk = talk_after("45", "2", "3")
    talk.hear("forty-four")
    talk.wait()
    talk.answer("no, forty-three")
    assert [answer.given for answer in talk.answers] == [45, 2, 3, 43]
    talk = talk_after("45", "2", "3")
    talk.hear("forty-four")
    talk.wait()
    talk.type("no, forty-three")
    assert [answer.given for answer in talk.answers] == [45, 2, 3, 43]


def test_the_same_number_again_in_the_pause_is_sure_and_close_to_nothing() -> None:
    talk = talk_after()
    talk.hear(Number(45, close_to=(35,)), 0.8)
    talk.wait()
    talk.hear("forty-five", 0.6)
    talk.wait()
    (answer,) = talk.answers
    assert (answer.close_to, answer.certainty, answer.settled) == ((), 0.8, "said-again")


def test_an_unsure_correction_is_asked_for_once_more_and_counts_towards_the_keys() -> None:
    talk = talk_after()
    talk.hear("forty-five")
    talk.wait()
    talk.hear("no, forty-three", 0.5)
    talk.wait()
    assert talk.said[-1] == "Say it once more, please."
    talk.hear("forty-three", 0.5)
    talk.wait()
    assert talk.said[-1] == "Try the keys for this one."


def test_the_keys_are_offered_once_a_practice() -> None:
    talk = talk_after()
    for cell in range(2):
        for _ in range(2):
            talk.hear(Number(43 if cell == 0 else 46), 0.5)
            talk.wait()
        if cell == 0:
            talk.type("43")
    assert talk.said.count("Try the keys for this one.") == 1
    assert talk.said[-1] == "Was that forty-six? Yes or no."
    talk.hear("forty-six", 0.5)
    talk.wait()
    assert [answer.settled for answer in talk.answers] == ["keys", "said-again"]


def test_no_is_a_correction_while_confirming_and_voids_nothing() -> None:
    talk = talk_after("45", "2", "3")
    for _ in range(3):
        talk.hear("forty-four", 0.5)
        talk.wait()
    talk.hear(Number(43, objecting=True))
    talk.wait()
    talk.wait()
    assert [answer.given for answer in talk.answers] == [45, 2, 3, 43]


def test_begun_again_when_everything_is_finished_it_says_so_and_keeps_nothing() -> None:
    talk = talk_after("43", "46", "62", "65", ear=Ear.TEXT)
    assert talk.finished
    again = talk.again()
    effects = again.begin()
    assert again.said == ["That's all four done. Bye for now."]
    assert effects[-1] == Finish(EndReason.FINISHED)
    assert again.rows == talk.rows


def test_begun_again_with_cells_left_for_another_day_it_asks_them() -> None:
    talk = talk_after("skip", "46", "62", "65", "skip", ear=Ear.TEXT)
    assert talk.said[-1] == "Three done, one left for another day. Bye for now."
    again = talk.again()
    again.begin()
    assert again.said == ["Thirty-eight add five."]
    again.type("skip")
    assert not again.finished
    again.type("43")
    assert again.said[-1] == "That's all four done. Bye for now."
