"""Failing is met: an easier sum, then back; the third time a rest; and the end says what was done."""

from saythesum.core.exercises.adding import Sum
from saythesum.core.records.rows import Ask, Form
from saythesum.core.sums import CLOSING_PARTS, Kind, Part
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.turns.stack import Paused
from saythesum.dialogue.tutor.progress import cell_of
from tests.talk import Talk, plan_of


def missing_all() -> Talk:
    talk = Talk(plan_of((38, 57, 46), (5, 8, 3, 1)), Ear.TEXT)
    talk.begin()
    return talk


def miss_a_sum(talk: Talk) -> None:
    """Every question of one sum is answered wrongly, to the worked line and past it."""
    cell = cell_of(ask_of(talk))
    while not talk.finished and cell_of(ask_of(talk)) == cell:
        talk.type("999" if ask_of(talk).part in CLOSING_PARTS else "0")


def ask_of(talk: Talk) -> Ask:
    ask = talk.state.progress.ask
    assert ask is not None
    return ask


def asked_of(talk: Talk) -> Sum:
    asked = talk.plan.exercise_at(cell_of(ask_of(talk)))
    assert isinstance(asked, Sum)
    return asked


def test_after_two_sums_to_the_worked_line_an_easier_one_comes_and_then_the_next_in_order() -> None:
    talk = missing_all()
    for _ in range(2):
        miss_a_sum(talk)
    assert ask_of(talk).form is Form.EASIER
    assert asked_of(talk).kind is Kind.WITHIN
    assert talk.said[-2:] == ["This one first.", "Thirty-eight add one."]
    again = talk.again()
    again.begin()
    assert again.said == talk.said[-2:]
    talk.type("39")
    assert (ask_of(talk).row, ask_of(talk).column) == (0, 2)
    assert ask_of(talk).form is not Form.EASIER


def test_after_five_times_not_yet_as_well() -> None:
    """Each sum is missed at first, and found with help: no worked line."""
    talk = Talk(plan_of((38, 57, 46), (5, 8, 6, 1)), Ear.TEXT)
    talk.begin()
    missed = 0
    while ask_of(talk).form is not Form.EASIER:
        is_whole = ask_of(talk).part is Part.WHOLE and not ask_of(talk).because
        missed += is_whole
        talk.type("999" if is_whole else str(asked_of(talk).answer_to(ask_of(talk).part)))
    assert (missed, talk.said.count("Not yet.")) == (5, 5)
    assert asked_of(talk).amount == 1


def test_the_third_time_a_rest_is_offered_and_the_next_sum_waits() -> None:
    talk = missing_all()
    rests = 0
    while not talk.finished and not rests:
        miss_a_sum(talk)
        rests = sum("Time for a rest" in line for line in talk.said)
    assert sum(line == "This one first." for line in talk.said) == 2
    assert isinstance(talk.state.talk.topics[-1], Paused)
    assert talk.said[-1] == "Time for a rest. When you're ready, say go on, or press Enter."
    next_sum = asked_of(talk)
    talk.type("go on")
    assert talk.said[-1].lower().startswith(("fifty", "forty", "thirty", "add"))
    assert asked_of(talk) == next_sum


def test_a_sum_that_was_left_is_not_called_done() -> None:
    talk = Talk(plan_of((38,), (5,)), Ear.TEXT)
    talk.begin()
    miss_a_sum(talk)
    assert talk.said[-1] == "We'll have that one another day. Bye for now."
    talk = Talk(plan_of((38, 57), (5,)), Ear.TEXT)
    talk.begin()
    miss_a_sum(talk)
    talk.type("62")
    assert talk.said[-1] == "One done, one left for another day. Bye for now."


def test_those_who_do_well_hear_of_none_of_it() -> None:
    talk = missing_all()
    while not talk.finished:
        talk.type(str(asked_of(talk).total))
    assert not any(row.form is Form.EASIER for row in talk.rows if isinstance(row, Ask))
