"""A practice ends by itself after so many sums or minutes, between two sums, and goes on from there next time."""

from dataclasses import replace

import pytest

from saythesum.core.aims import Aim
from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.records.rows import Answer, End, EndReason
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.tutor.plan import Activity, activity, planned
from saythesum.dialogue.tutor.progress import folded
from saythesum.settings import Patterns, Settings, Sitting
from tests.talk import PRACTICE, Talk

FERRY = activity(Grid("Seats on the ferry", (47, 36), (5, 8)), 0)
PROBE = activity(Grid("Rolls in the bakery", (28, 65), (6,)), 0, Aim.PROBE, (Cell(1, 0), Cell(0, 0)))


def talk_of(*activities: Activity, sums: int | None = None, minutes: int | None = None) -> Talk:
    settings = replace(Settings(), sitting=Sitting(sums, minutes), patterns=Patterns(offer=False))
    return Talk(planned(PRACTICE, activities, settings), Ear.TEXT)


def last_line(talk: Talk, *lines: str) -> str:
    for line in lines:
        talk.type(line)
    return talk.said[-1]


def test_after_so_many_sums_it_ends_and_keeps_the_place() -> None:
    talk = talk_of(FERRY, sums=2)
    talk.begin()
    assert last_line(talk, "52") == "Forty-seven add eight."
    assert last_line(talk, "55") == "Two done. That's it for today. Bye for now."
    assert talk.finished
    assert isinstance(talk.rows[-1], End) and talk.rows[-1].reason is EndReason.STOPPED
    talk = talk.again()
    talk.begin()
    assert talk.said[-1] == "Thirty-six add five."
    assert last_line(talk, "41", "44").endswith("That's all four done. Bye for now.")


def test_a_missed_sum_is_worked_through_before_it_ends() -> None:
    talk = talk_of(FERRY, sums=1)
    talk.begin()
    last_line(talk, "51")
    assert not talk.finished
    assert last_line(talk, "52") == "One done. That's it for today. Bye for now."


@pytest.mark.parametrize("minute, is_over", [(4, False), (5, True), (50, True)])
def test_after_so_many_minutes_the_sum_in_hand_is_the_last(minute: int, is_over: bool) -> None:
    talk = talk_of(FERRY, minutes=5)
    talk.begin()
    talk.wait(minute * 60_000)
    talk.type("52")
    assert talk.finished is is_over


def test_minutes_alone_never_end_it() -> None:
    talk = talk_of(FERRY, minutes=5)
    talk.begin()
    talk.wait(3_600_000)
    assert not talk.finished


def test_a_probe_is_not_cut_short() -> None:
    talk = talk_of(PROBE, FERRY, sums=1)
    talk.begin()
    assert last_line(talk, "71") == "Twenty-eight add six."
    assert last_line(talk, "34") == "Two done. That's it for today. Bye for now."


def test_with_nothing_left_to_ask_the_grid_is_what_ends() -> None:
    talk = talk_of(FERRY, sums=4)
    talk.begin()
    assert last_line(talk, "52", "55", "41", "44") == "That's all four done. Bye for now."
    assert folded(talk.rows).closed_since == 0 and len([row for row in talk.rows if isinstance(row, Answer)]) == 4
