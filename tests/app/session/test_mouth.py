"""The mouth: every sentence comes to its end exactly once, whatever is cut, missing or lost."""

from collections.abc import Iterator
from pathlib import Path
from queue import SimpleQueue

import pytest

from saythesum.app.session.mouth import CUES, Mouth, VoiceLost
from saythesum.errors import VoiceError
from saythesum.ports import Sound
from saythesum.settings import Speech
from saythesum.sound.device_events import Over
from saythesum.speaking.voice import ToolVoice
from tests.fakes.clock import FakeClock
from tests.fakes.sound_devices import NotedLoudspeaker

News = SimpleQueue[Over | VoiceLost]


class NoVoice(ToolVoice):
    def render(self, phrase: str) -> Sound:
        raise VoiceError("No voice: it has gone hoarse; have it drink something.")


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


def test_sentences_follow_one_another(mouth: Mouth, loudspeaker: NotedLoudspeaker, news: News) -> None:
    for id, text in enumerate(("Forty-seven add five.", "Take your time.")):
        mouth.say(id, text)
    for id in range(2):
        assert loudspeaker.finish() == id
        assert next_over(news) == Over(id, 0)
    assert [id for id, _ in loudspeaker.played] == [0, 1]
    assert all(500 < sound.duration_ms < 3_000 for _, sound in loudspeaker.played)


def test_a_cut_ends_all_that_was_to_be_said_and_nothing_after_it(
    mouth: Mouth, loudspeaker: NotedLoudspeaker, news: News
) -> None:
    for id in range(5):
        mouth.say(id, f"Row {id}.")
    mouth.cut()
    mouth.say(5, "Forty-seven add five.")
    cut = [next_over(news) for _ in range(5)]
    assert [over.id for over in cut] == [0, 1, 2, 3, 4]
    assert all(over.cut_ms is not None for over in cut)
    assert loudspeaker.finish() == 5
    assert next_over(news) == Over(5, 0)


@pytest.fixture
def one_by_one(voice: ToolVoice, loudspeaker: NotedLoudspeaker, news: News) -> Iterator[Mouth]:
    mouth = Mouth(voice, loudspeaker, clock=FakeClock(), post=news.put, one_by_one=True)
    yield mouth
    mouth.close()


def test_one_by_one_a_sentence_and_its_cue_wait_until_they_may_begin(
    one_by_one: Mouth, loudspeaker: NotedLoudspeaker, news: News
) -> None:
    one_by_one.say(1, "Forty-seven add five.")
    one_by_one.cue(-1, "ten-reached")
    one_by_one.say(2, "Take your time.")
    assert loudspeaker.finish() == 1
    assert next_over(news) == Over(1, 0)
    one_by_one.go_on(0)
    assert [id for id, _ in loudspeaker.played] == [1], "another sentence was over"
    one_by_one.go_on(1)
    assert [loudspeaker.finish(), loudspeaker.finish()] == [-1, 2]


def test_one_by_one_what_waits_is_dropped_by_a_cut(
    one_by_one: Mouth, loudspeaker: NotedLoudspeaker, news: News
) -> None:
    one_by_one.say(1, "Forty-seven add five.")
    one_by_one.say(2, "Take your time.")
    assert loudspeaker.finish() == 1
    assert next_over(news) == Over(1, 0)
    one_by_one.cut()
    assert next_over(news) == Over(2, 0, 0)
    one_by_one.say(3, "Forty-seven add six.")
    assert loudspeaker.finish() == 3


@pytest.mark.parametrize("cue", CUES)
def test_a_cue_comes_in_its_turn(cue: str, mouth: Mouth, loudspeaker: NotedLoudspeaker, news: News) -> None:
    mouth.say(1, "Forty-seven add five.")
    mouth.cue(-1, cue)
    assert [loudspeaker.finish(), loudspeaker.finish()] == [1, -1]
    assert loudspeaker.played[1][1].duration_ms < 1_000


def test_without_a_loudspeaker_it_is_over_as_soon_as_it_is_said(voice: ToolVoice, news: News) -> None:
    mouth = Mouth(voice, None, clock=FakeClock(), post=news.put)
    mouth.say(1, "Forty-seven add five.")
    mouth.cue(-1, "ear-open")
    assert [next_over(news), next_over(news)] == [Over(1, 0), Over(-1, 0)]
    mouth.close()


def test_a_voice_that_is_lost_is_told_once_and_everything_still_ends(
    loudspeaker: NotedLoudspeaker, news: News, tmp_path: Path
) -> None:
    mouth = Mouth(NoVoice(Speech(), tmp_path), loudspeaker, clock=FakeClock(), post=news.put)
    for id in range(3):
        mouth.say(id, "Forty-seven add five.")
    told = [news.get(timeout=30) for _ in range(4)]
    assert [thing for thing in told if isinstance(thing, VoiceLost)] == [
        VoiceLost("No voice: it has gone hoarse; have it drink something.")
    ]
    assert [thing.id for thing in told if isinstance(thing, Over)] == [0, 1, 2]
    mouth.close()


def test_closed_in_mid_sentence_it_is_silent_and_ends(mouth: Mouth, loudspeaker: NotedLoudspeaker, news: News) -> None:
    mouth.say(1, "Forty-seven add five.")
    mouth.close()
    assert next_over(news).cut_ms is not None


def test_slower_is_slower(mouth: Mouth, loudspeaker: NotedLoudspeaker) -> None:
    for id in range(2):
        mouth.say(id, "Forty-seven add five.")
        loudspeaker.finish()
        mouth.slow_down()
    (_, before), (_, after) = loudspeaker.played
    assert after.duration_ms > 1.1 * before.duration_ms
