"""Sound that was lost on its way from the microphone: the pupil is asked once more, whatever is left of it."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.core.meanings import LOST, Meaning, Number
from saythesum.core.records.rows import HeardId
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.turns.events import HeardSoFar, ListenId
from saythesum.dialogue.turns.segments import joined
from saythesum.settings import Waits
from tests.talk import Talk, plan_of


def begun(ear: Ear = Ear.OPEN) -> Talk:
    talk = Talk(plan_of((58,), (6,)), ear)
    talk.begin()
    if ear is Ear.PRESS:
        talk.press()
    return talk


@pytest.mark.parametrize("ear", [Ear.OPEN, Ear.PRESS])
def test_it_is_asked_for_once_more_also_in_the_open_ear(ear: Ear) -> None:
    talk = begun(ear)
    talk.hear(LOST)
    talk.wait()
    assert talk.said[-1] == "Say it once more, please."
    assert talk.answers == []


def test_a_machine_that_goes_on_losing_sound_has_the_keys_offered_once_and_asks_nothing_else() -> None:
    talk = begun()
    for _ in range(5):
        talk.hear(LOST)
        talk.wait()
    said = talk.said[-5:]
    assert said[1] == "Try the keys for this one."
    assert said[:1] + said[2:] == ["Say it once more, please."] * 4


def test_lost_where_a_part_is_asked() -> None:
    talk = begun()
    talk.answer("I don't know")
    talk.hear(LOST)
    talk.wait()
    assert talk.said[-1] == "Say it once more, please."


def test_lost_in_the_pause_has_it_said_back_again_and_nothing_kept() -> None:
    """It may have been a correction."""
    talk = begun()
    talk.hear("sixty-three")
    talk.wait()
    talk.hear(LOST)
    talk.wait()
    assert talk.said[-2:] == ["Sixty-three."] * 2
    assert talk.answers == []
    talk.hear("no, sixty-four")
    talk.wait()
    talk.wait()
    assert [answer.given for answer in talk.answers] == [64]


def test_lost_at_yes_or_no_has_it_asked_again() -> None:
    talk = begun()
    for _ in range(3):
        talk.hear("sixty-three", 0.4)
        talk.wait()
    question = talk.said[-1]
    talk.hear(LOST)
    talk.wait()
    assert talk.said[-2:] == [question] * 2


def stretch(number: int, heard: Meaning) -> HeardSoFar:
    at_ms = number * 1_000
    return HeardSoFar(ListenId(1), number, heard, "", at_ms, at_ms + 500, at_ms + 700, HeardId(f"heard {number}"))


@given(st.lists(st.sampled_from([40, 3, 43, None]), min_size=1, max_size=4))
def test_a_number_beside_something_lost_is_not_sure(spoken: list[int | None]) -> None:
    """ "Forty", and something, is perhaps forty-three."""
    meant = [LOST if value is None else Number(value, certainty=0.9) for value in spoken]
    heard = joined([stretch(at, each) for at, each in enumerate(meant)], frozenset(), Waits()).heard
    without = [stretch(at, each) for at, each in enumerate(meant) if each != LOST]
    if not without:
        assert heard == LOST
    elif None in spoken:
        usual = joined(without, frozenset(), Waits()).heard
        assert isinstance(usual, Number)
        assert heard == replace(usual, sure=False)
