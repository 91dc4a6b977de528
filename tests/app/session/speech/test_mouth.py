"""The mouth: every sentence comes to its end exactly once, whatever is cut, missing or lost."""

from collections.abc import Iterator
from queue import SimpleQueue

import pytest

from saythesum.app.session.speech.mouth import Mouth, VoiceLost
from saythesum.dialogue.turns.events import UtteranceId
from saythesum.errors import VoiceError
from saythesum.ports import Over, OwnSound, Sound
from saythesum.settings import Speech
from saythesum.speaking.voice import ToolVoice
from tests.fakes.clock import FakeClock
from tests.fakes.sound_devices import NotedLoudspeaker

News = SimpleQueue[Over | VoiceLost]


class NoVoice:
    def render(self, phrase: str) -> Sound:
        raise VoiceError("No voice: it has gone hoarse; have it drink something.")

    def slow_down(self) -> None:
        raise AssertionError("nobody asked for it")

    def speak_at(self, rate_wpm: int) -> None:
        raise AssertionError("nobody asked for it")

    def close(self) -> None:
        pass


@pytest.fixture
def news() -> News:
    return SimpleQueue()


@pytest.fixture
def voice(tmp_path_factory: pytest.TempPathFactory) -> ToolVoice:
    """Closed by the mouth."""
    return ToolVoice(Speech(), tmp_path_factory.mktemp("cache"))


@pytest.fixture
def loudspeaker(news: News) -> NotedLoudspeaker:
    return NotedLoudspeaker(news.put)


@pytest.fixture
def mouth(voice: ToolVoice, loudspeaker: NotedLoudspeaker, news: News) -> Iterator[Mouth]:
    mouth = Mouth(voice, loudspeaker, clock=FakeClock(), post=news.put)
    yield mouth
    mouth.close()


def next_over(news: News) -> Over:
    told = news.get(timeout=30)
    assert isinstance(told, Over)
    return told


def test_without_a_loudspeaker_it_is_over_as_soon_as_it_is_said(voice: ToolVoice, news: News) -> None:
    mouth = Mouth(voice, None, clock=FakeClock(), post=news.put)
    mouth.say(UtteranceId(1), "Forty-seven add five.")
    mouth.cue(OwnSound(1), "ear-open")
    assert [next_over(news), next_over(news)] == [Over(UtteranceId(1), 0), Over(OwnSound(1), 0)]
    mouth.close()


def test_where_a_screen_reader_speaks_only_cues_are_played(
    voice: ToolVoice, loudspeaker: NotedLoudspeaker, news: News
) -> None:
    mouth = Mouth(voice, loudspeaker, clock=FakeClock(), post=news.put, is_silent=True)
    mouth.say(UtteranceId(1), "Forty-seven add five.")
    assert next_over(news) == Over(UtteranceId(1), 0)
    mouth.cue(OwnSound(1), "ear-open")
    assert loudspeaker.finish() == OwnSound(1)
    assert [id for id, _ in loudspeaker.played] == [OwnSound(1)]
    mouth.close()


def test_a_voice_that_is_lost_is_told_once_and_everything_still_ends(loudspeaker: NotedLoudspeaker, news: News) -> None:
    mouth = Mouth(NoVoice(), loudspeaker, clock=FakeClock(), post=news.put)
    for id in range(3):
        mouth.say(UtteranceId(id), "Forty-seven add five.")
    told = [news.get(timeout=30) for _ in range(4)]
    assert [thing for thing in told if isinstance(thing, VoiceLost)] == [
        VoiceLost("No voice: it has gone hoarse; have it drink something.")
    ]
    assert [thing.id for thing in told if isinstance(thing, Over)] == [0, 1, 2]
    mouth.close()


def test_closed_in_mid_sentence_it_is_silent_and_ends(mouth: Mouth, loudspeaker: NotedLoudspeaker, news: News) -> None:
    mouth.say(UtteranceId(1), "Forty-seven add five.")
    mouth.close()
    assert next_over(news).cut_ms is not None
