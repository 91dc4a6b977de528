"""Where a screen reader speaks nobody knows when it has finished: nothing is decided by time, Enter decides."""

from dataclasses import replace

from saythesum.dialogue.turns.effects import Ear, Listen
from saythesum.dialogue.turns.events import SpeakerChanged
from tests.talk import Talk, plan_of

HOURS_MS = 3_600_000


def talk(ear: Ear, *, is_screen_reader: bool = True) -> Talk:
    plan = plan_of((38, 57), (5, 8))
    window = replace(plan.settings.window, screen_reader=is_screen_reader)
    begun = Talk(replace(plan, settings=replace(plan.settings, window=window)), ear)
    begun.begin()
    return begun


def test_what_was_said_back_is_kept_on_enter_and_never_by_waiting() -> None:
    spoken = talk(Ear.PRESS)
    spoken.press()
    spoken.hear("forty-three")
    spoken.wait()
    assert spoken.said[-1] == "Forty-three."
    spoken.wait(HOURS_MS)
    assert spoken.answers == []
    spoken.press()
    assert [(answer.given, answer.right) for answer in spoken.answers] == [(43, True)]
    assert spoken.said[-1] == "Thirty-eight add eight."


def test_an_ear_that_would_open_by_itself_opens_by_key() -> None:
    spoken = talk(Ear.OPEN)
    assert spoken.listen is None
    spoken.press()
    assert spoken.listen is not None


def test_in_mid_practice_a_screen_reader_takes_over_and_the_tool_again() -> None:
    spoken = talk(Ear.OPEN, is_screen_reader=False)
    assert spoken.listen is not None
    effects = spoken.post(SpeakerChanged(is_screen_reader=True, at_ms=spoken.now_ms))
    assert not [effect for effect in effects if isinstance(effect, Listen)]
    spoken.press()
    spoken.hear("forty-three")
    spoken.wait(HOURS_MS)
    assert spoken.answers == []
    spoken.post(SpeakerChanged(is_screen_reader=False, at_ms=spoken.now_ms))
    spoken.press()
    spoken.hear("forty-three")
    spoken.wait()
    spoken.wait()
    assert [answer.given for answer in spoken.answers] == [43]
