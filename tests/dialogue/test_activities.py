"""A practice of several activities: one being over leads to the next, and only the last one ends the practice."""

from collections.abc import Sequence

import pytest

from saythesum.core.aims import Aim
from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.records.rows import Answer, Ask, End, Purpose
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.tutor.plan import Plan, activity, planned
from saythesum.settings import Settings
from tests.talk import PRACTICE, Talk

FERRY = activity(Grid("Seats on the ferry", (47,), (5, 8)), 0)
BAKERY = activity(Grid("Rolls in the bakery", (28, 65), (6,)), 0)
ROLLS_ALONE = activity(Grid("Rolls in the bakery", (28, 65), (6,)), 0, Aim.PROBE, (Cell(1, 0), Cell(0, 0)))


def talk_of(*activities: object, ear: Ear = Ear.TEXT) -> Talk:
    plan: Plan = planned(PRACTICE, activities, Settings())  # type: ignore[arg-type]
    return Talk(plan, ear)


def told(talk: Talk, line: str) -> Sequence[str]:
    before = len(talk.said)
    talk.type(line)
    return talk.said[before:]


def test_one_grid_leads_to_the_next_and_the_last_ends_the_practice() -> None:
    talk = talk_of(FERRY, BAKERY)
    talk.begin()
    assert talk.said == ["One row, two sums.", "Forty-seven add five."]
    assert told(talk, "52") == ["Yes.", "Forty-seven add eight."]
    assert told(talk, "55") == ["Yes.", "That's both done.", "Two rows, one sum in each.", "Twenty-eight add six."]
    assert not talk.finished
    assert told(talk, "34") == ["Yes.", "New row, sixty-five.", "Sixty-five add six."]
    assert told(talk, "71") == ["Yes.", "That's both done. Bye for now."]
    assert talk.finished
    ends = [row for row in talk.rows if isinstance(row, End)]
    assert [(end.cells, end.right_first_time) for end in ends] == [(4, 4)]
    assert [row.activity for row in talk.rows if isinstance(row, Ask)] == [0, 0, 1, 1]


def test_a_probe_between_two_grids_is_kept_as_one_and_helps_nobody() -> None:
    talk = talk_of(FERRY, ROLLS_ALONE, BAKERY)
    talk.begin()
    told(talk, "52")
    assert told(talk, "55")[-2:] == ["Two sums on your own. I won't say which are right.", "Sixty-five add six."]
    assert told(talk, "70") == ["Thank you.", "Twenty-eight add six."]
    assert told(talk, "read this row")[0] == "The sums come one by one here."
    assert told(talk, "33") == [
        *("Thank you.", "That's all two.", "Two rows, one sum in each.", "Twenty-eight add six."),
    ]
    assert told(talk, "33")[0] == "Not yet."
    answers = [row for row in talk.rows if isinstance(row, Answer)]
    assert [answer.purpose for answer in answers] == [Purpose.PRACTICE] * 2 + [Purpose.PROBE] * 2 + [Purpose.PRACTICE]


def test_each_activity_has_its_own_place_and_its_own_cells() -> None:
    talk = talk_of(FERRY, BAKERY)
    talk.begin()
    told(talk, "52")
    told(talk, "55")
    assert told(talk, "where am I")[0] == "Row twenty-eight, add six. Zero of two done."
    assert told(talk, "how many more")[0] == "Two more."
    assert told(talk, "read this column")[0] == "Add six. Row twenty-eight, not done. Row sixty-five, not done."
    assert told(talk, "go back")[0] == "Nothing more to do before this one."


def test_what_is_taken_back_after_the_next_has_begun_is_asked_again_where_it_was() -> None:
    talk = talk_of(FERRY, BAKERY)
    talk.begin()
    told(talk, "52")
    told(talk, "65")
    told(talk, "55")
    assert told(talk, "not what I said")[0] == "Taken back."
    ask = talk.state.progress.ask
    assert ask is not None and ask.activity == 0
    assert told(talk, "55")[-2:] == ["Two rows, one sum in each.", "Twenty-eight add six."]


@pytest.mark.parametrize("lines", [("52", "54", "I don't know", "3", "5", "55", "33", "34", "71")])
def test_killed_after_any_row_it_goes_on_in_the_same_words(lines: tuple[str, ...]) -> None:
    talk = talk_of(FERRY, BAKERY)
    talk.begin()
    for line in lines:
        again = talk.again()
        again.begin()
        assert again.said[-1] == talk.said[-1]
        talk.type(line)


def test_a_sum_left_twice_waits_for_another_day_and_comes_back_when_all_is_over() -> None:
    talk = talk_of(FERRY, BAKERY)
    talk.begin()
    told(talk, "52")
    told(talk, "skip this one")
    assert told(talk, "skip this one")[:2] == ["One done, one left for another day.", "Two rows, one sum in each."]
    told(talk, "34")
    assert told(talk, "71")[-1] == "That's both done. Bye for now."
    again = talk.again()
    again.begin()
    assert again.said[-1] == "Forty-seven add eight."
    assert told(again, "55")[-1] == "That's both done. Bye for now."
