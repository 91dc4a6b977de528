"""Whatever a child says, wherever the practice is: no number is kept that is none, and the talk stays short."""

from functools import cache

import pytest

from saythesum.core.meanings import Awaiting, Choice, Meaning
from saythesum.core.records.rows import Answer, Ask
from saythesum.dialogue.messages import AdultMayHelp, TakeYourTime, WhichSum
from saythesum.dialogue.turns.effects import Ear, Say, Settle
from saythesum.settings import Settings, Waits
from saythesum.wording.understand.understood import understood
from tests.dialogue.made_topics import PLACES, open_ear, talk_at
from tests.dialogue.turns.test_turn_taking import talk_with
from tests.talk import Talk
from tests.tools.children import KNOWN, NO_WISH, sentences

CHILDREN = list(sentences(KNOWN))
MOST_WORDS = 6
SAYS_AN_ANSWER_BACK = ("saying back", "saying back within help", "confirming", "saying back a command")
"""There something waits to be let stand: a number that was said before is kept once nobody objects."""


@pytest.mark.parametrize("place", [place for place in PLACES if place not in SAYS_AN_ANSWER_BACK])
@pytest.mark.parametrize("ear", [Ear.TEXT, Ear.OPEN])
def test_nothing_that_is_no_number_is_kept_as_one(place: str, ear: Ear) -> None:
    """Meanings that differ in nothing are tried once."""
    listen = talk_at(place, ear).listen
    assert listen
    meant = {_meant(said.text, listen.awaiting, ear is Ear.TEXT): said for said in CHILDREN if said.number is None}
    assert len(meant) > 10
    for said in meant.values():
        talk = talk_at(place, ear)
        answered = len(talk.answers)
        if ear is Ear.TEXT:
            talk.type(said.text)
        else:
            talk.hear(said.text)
            talk.wait()
            talk.wait()
        assert len(talk.answers) <= answered, said


@cache
def _meant(text: str, awaiting: Awaiting, typed: bool) -> Meaning:
    return understood(text, awaiting, typed=typed)


@pytest.mark.parametrize("ear", [Ear.TEXT, Ear.PRESS])
def test_what_is_no_wish_gets_six_words_at_most(ear: Ear) -> None:
    for said in CHILDREN:
        if said.means not in NO_WISH:
            continue
        talk = talk_at("asking", ear)
        before = len(talk.said)
        if ear is Ear.TEXT:
            talk.type(said.text)
        else:
            open_ear(talk)
            talk.hear(said.text)
            talk.wait()
        assert 1 <= len(" ".join(talk.said[before:]).split()) <= MOST_WORDS, said


@pytest.mark.parametrize("place", PLACES)
def test_what_an_adult_may_help_with_is_waited_for_and_its_words_go_nowhere(place: str) -> None:
    talk = talk_at(place, Ear.TEXT)
    kept = list(talk.rows)
    effects = talk.type("my tummy hurts")
    assert [effect.message for effect in effects if isinstance(effect, Say)] == [AdultMayHelp()]
    assert [effect.text for effect in effects if isinstance(effect, Settle)] == [""]
    assert talk.rows == kept


@pytest.mark.parametrize("ear", list(Ear))
def test_forty_times_enter_is_kept_once_at_most(ear: Ear) -> None:
    talk = talk_at("asking", ear)
    for _ in range(40):
        talk.press()
    assert len([row for row in talk.rows if isinstance(row, Ask)]) <= 2
    assert not any(isinstance(row, Answer) for row in talk.rows)


@pytest.mark.parametrize("ear", [Ear.TEXT, Ear.OPEN])
def test_a_pupil_who_only_says_no_takes_nothing_back_but_the_own_answer(ear: Ear) -> None:
    talk = talk_at("next cell", ear)
    for _ in range(20):
        _no(talk, ear)
    assert [answer.given for answer in talk.answers] == [43]
    assert any(
        message == WhichSum(talk.plan.exercise_at(talk.plan.activities[0].cells[0])) for message in talk.messages
    )


def _no(talk: Talk, ear: Ear) -> None:
    if ear is Ear.TEXT:
        talk.type("no")
        return
    talk.hear("no")
    talk.wait()


def test_a_bare_no_after_yes_takes_back_only_what_the_pupil_says_is_meant() -> None:
    talk = talk_at("next cell", Ear.OPEN)
    talk.hear("no")
    talk.wait()
    assert [answer.given for answer in talk.answers] == [43]
    talk.hear(Choice(True))
    talk.wait()
    assert talk.said[-1] == "Thirty-eight add five."


def test_take_your_time_is_said_once_and_only_where_it_was_chosen() -> None:
    patient = talk_with(Settings(waits=Waits(take_your_time_ms=20_000)))
    for _ in range(3):
        patient.wait(60_000)
    assert patient.messages.count(TakeYourTime()) == 1
    assert patient.messages[-1] == TakeYourTime()
    silent = talk_with(Settings())
    silent.wait(3_600_000)
    assert TakeYourTime() not in silent.messages


def test_take_your_time_is_not_said_to_a_pupil_who_has_begun() -> None:
    talk = talk_with(Settings(waits=Waits(take_your_time_ms=20_000)))
    talk.wait(19_000)
    talk.hear("thirty-nine")
    talk.wait(3_000)
    assert TakeYourTime() not in talk.messages
