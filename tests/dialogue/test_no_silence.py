"""Whatever a pupil does, wherever the practice is, there is an answer."""

from itertools import product

import pytest

from saythesum.core.meanings import Choice, Command, Given, Meaning, Number, Unclear, WhyUnclear
from saythesum.dialogue.turns.effects import Ear, Effect, Settle
from tests.dialogue.made_topics import PLACES, open_ear, talk_at
from tests.talk import Talk

NUMBERS = (
    *(Number(value) for value in (0, 2, 3, 5, 40, 43, 45, 62, 1099)),
    Number(43, objecting=True),
    Number(2, objecting=True),
    Number(43, said_first=True),
    Number(45, close_to=(35,), alternatives=(43,)),
)
MEANINGS: tuple[Meaning, ...] = (
    *NUMBERS,
    *(Given(command) for command in Command),
    *(Given(command, alone=True) for command in (Command.STOP, Command.HELP, Command.WAIT, Command.NOT_WHAT_I_SAID)),
    Choice(True),
    Choice(False),
    *(Unclear(why) for why in WhyUnclear),
)


def is_answered(talk: Talk, effects: list[Effect]) -> bool:
    """Something is said, or the ear that opens afresh or the pause that goes on shows that it was heard."""
    return any(not isinstance(effect, Settle) for effect in effects) and not is_dead(talk)


def is_dead(talk: Talk) -> bool:
    """Nothing is being said, nothing is waited for, and the practice is not over."""
    channel = talk.state.channel
    is_quiet = channel.speaking is None and channel.open_ear is None and channel.timer is None
    return is_quiet and not talk.finished and talk.ear is not Ear.PRESS


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("ear", Ear)
def test_a_key_or_a_line_is_answered(place: str, ear: Ear) -> None:
    for meaning in MEANINGS:
        talk = talk_at(place, ear)
        effects = talk.type(meaning)
        if ear is Ear.PRESS and meaning == Given(Command.HUSH):
            continue  # nothing is being said and no ear is open: silence is the answer
        assert is_answered(talk, effects), meaning


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("ear", [Ear.OPEN, Ear.PRESS])
@pytest.mark.parametrize("certainty", [0.4, 0.9])
def test_speech_is_answered(place: str, ear: Ear, certainty: float) -> None:
    for meaning in MEANINGS:
        talk = talk_at(place, ear)
        open_ear(talk)
        talk.hear(meaning, certainty)
        effects = talk.wait()
        if isinstance(meaning, Unclear) and ear is Ear.OPEN:
            assert not is_dead(talk), meaning  # a sound in the open ear may be anybody's
        else:
            assert is_answered(talk, effects), meaning


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("ear", Ear)
def test_the_key_that_opens_the_ear_is_answered(place: str, ear: Ear) -> None:
    talk = talk_at(place, ear)
    assert is_answered(talk, talk.press())
    assert talk.finished or is_answered(talk, talk.press())


@pytest.mark.parametrize(("place", "ear"), list(product(PLACES, Ear)))
def test_stop_and_the_end_of_the_input_end_it_from_anywhere(place: str, ear: Ear) -> None:
    for end in (Talk.end_input, lambda talk: talk.type(Given(Command.STOP))):
        talk = talk_at(place, ear)
        end(talk)
        assert talk.finished
