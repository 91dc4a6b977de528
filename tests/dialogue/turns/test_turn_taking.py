"""The mouth, the ear and the waits, as they show from outside."""

from dataclasses import replace

import pytest

from saythesum.core.meanings import Number
from saythesum.core.records.rows import HeardId, Support
from saythesum.dialogue.messages import SaidBack, Worked
from saythesum.dialogue.turns.effects import Ear, Hush, Listen, Say, Settle, ShutEar
from saythesum.dialogue.turns.events import HeardSoFar, ListenId, SpeechBegan, UtteranceEnded, UtteranceId
from saythesum.settings import Helping, Settings, Waits
from tests.talk import Talk, plan_of


def talk_with(settings: Settings, ear: Ear = Ear.OPEN, *, speech_ms: int = 0) -> Talk:
    talk = Talk(replace(plan_of((38, 57), (5, 8)), settings=settings), ear, speech_ms)
    talk.begin()
    return talk


def test_the_key_pressed_after_speech_says_that_this_was_all() -> None:
    talk = talk_with(Settings())
    talk.hear("forty-three")
    effects = talk.press()
    assert any(isinstance(effect, Settle) for effect in effects)
    assert SaidBack(43) in [effect.message for effect in effects if isinstance(effect, Say)]


def test_the_key_pressed_while_the_pupil_speaks_cuts_nothing() -> None:
    talk = talk_with(Settings())
    assert talk.listen
    talk.post(SpeechBegan(talk.listen.id, talk.now_ms))
    assert talk.press() == []
    assert talk.listen


def test_the_key_pressed_in_the_open_ear_opens_it_afresh() -> None:
    talk = talk_with(Settings())
    assert [type(effect) for effect in talk.press()] == [ShutEar, Listen]


def test_waits_that_are_for_ever_end_by_the_key() -> None:
    talk = talk_with(Settings(waits=Waits(None, None, None, None, None)))
    talk.hear("forty-three")
    assert not talk.is_waiting
    talk.press()
    assert talk.said[-1] == "Forty-three."
    assert not talk.is_waiting
    talk.hear("forty-three")
    talk.press()
    assert [answer.given for answer in talk.answers] == [43]


@pytest.mark.parametrize("ear", [Ear.OPEN, Ear.PRESS])
def test_a_pause_that_is_for_ever_ends_by_going_on(ear: Ear) -> None:
    talk = talk_with(Settings(waits=Waits(said_back_ms=None)), ear)
    if ear is Ear.PRESS:
        talk.press()
    talk.hear("forty-three")
    talk.wait()
    assert talk.said[-1] == "Forty-three."
    assert not talk.is_waiting
    talk.type("go on")
    assert [answer.given for answer in talk.answers] == [43]


def test_stale_events_change_nothing() -> None:
    talk = talk_with(Settings(), speech_ms=1000)
    state = talk.state
    for event in (
        UtteranceEnded(UtteranceId(99), 0),
        SpeechBegan(ListenId(99), 0),
        HeardSoFar(ListenId(99), 0, Number(43), "", 0, 0, 0, HeardId("x")),
    ):
        assert talk.post(event) == []
        assert talk.state == state


def test_a_segment_that_went_on_takes_the_place_of_its_beginning() -> None:
    talk = talk_with(Settings())
    talk.hear("fifty")
    talk._segment -= 1
    talk.hear("fifty-two")
    talk.wait()
    assert talk.said[-1] == "Fifty-two."


def test_an_answer_is_timed_from_the_end_of_a_new_question_and_from_nothing_else() -> None:
    talk = talk_with(Settings(), speech_ms=1000)
    talk.wait()
    talk.wait(2500)
    talk.hear("forty-five")
    talk.wait(10_000)
    assert talk.answers[-1].took_ms == 2500
    talk.wait(700)
    talk.type("where am i")
    talk.wait(5000)
    talk.type("2")
    assert talk.answers[-1].took_ms is None


def test_a_question_that_was_cut_has_no_time() -> None:
    talk = talk_with(Settings(), Ear.PRESS, speech_ms=1000)
    talk.wait(300)
    assert isinstance(talk.press()[0], Hush)
    talk.hear("forty-three")
    talk.wait(10_000)
    assert [answer.took_ms for answer in talk.answers] == [None]


def test_help_ends_with_the_worked_line_after_enough_of_the_tools_own_speech() -> None:
    """The turns since help began take two seconds each; looked at between turns."""
    talk = talk_with(Settings(helping=Helping(most_help_speech_ms=5000)), speech_ms=2000)
    talk.wait()
    for line in ("45", "3", "2"):
        talk.type(line)
        talk.wait()
    assert not any(isinstance(message, Worked) for message in talk.messages)
    talk.type("3")
    assert isinstance(talk.messages[-1], Worked)
    assert talk.state.progress.ask
    assert talk.state.progress.ask.support is Support.MODELLED


def test_speech_that_was_cut_counts_as_far_as_it_went_and_a_new_cell_starts_from_nothing() -> None:
    talk = talk_with(Settings(helping=Helping(most_help_speech_ms=5000)), speech_ms=4000)
    talk.wait()
    talk.type("45")
    talk.wait(1500)
    talk.type("2")
    assert talk.state.channel.help_speech_ms == 1500
    talk.type("43")
    assert talk.state.channel.help_speech_ms == 0


def test_help_ends_with_the_worked_line_after_enough_turns() -> None:
    talk = talk_with(Settings(helping=Helping(most_help_turns=3)), Ear.TEXT)
    for line in ("45", "40", "2"):
        talk.type(line)
    assert not any(isinstance(message, Worked) for message in talk.messages)
    talk.type("3")
    assert isinstance(talk.messages[-1], Worked)


def test_at_most_six_turns_of_help_then_the_worked_line() -> None:
    talk = talk_with(Settings(), Ear.TEXT)
    talk.type("45")
    turns = 1
    while not isinstance(talk.messages[-1], Worked):
        talk.type("40")  # the ten, over and over: right each time
        turns += 1
    assert turns == 7
