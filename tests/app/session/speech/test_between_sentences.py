"""On a loudspeaker, in sample time: the ear between two sentences, and the tool's own voice in its microphone."""

from collections.abc import Callable, Iterator

import pytest

from saythesum.app.rehearsal.sample_time import Room
from saythesum.core.records.rows import Answer
from saythesum.dialogue.turns.effects import OpenWhen
from saythesum.settings import Settings
from saythesum.speaking.voice import ToolVoice
from tests.by_sound import Practice, connected, recorded, said_by_the_pupil, tool_voice
from tests.talk import plan_of

LEAK = 10 ** (-10 / 20)
ON_LOUDSPEAKER = Room(has_headset=False, leak=LEAK, echo_ms=Settings().sound.echo_ms)
FIRST, QUESTION = "Tool:  One row, one sum.", "Tool:  Thirty-eight add five."


@pytest.fixture(scope="module")
def voice(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ToolVoice]:
    with tool_voice(tmp_path_factory.mktemp("cache")) as voice:
        yield voice


@pytest.fixture
def begun(voice: ToolVoice) -> Callable[..., Practice]:
    """38 add 5 in a room where the tool's voice is 10 dB below the pupil's; the pupil has said these."""

    def begin(*replies: str, open_when: OpenWhen = OpenWhen.BETWEEN_SENTENCES) -> Practice:
        practice = Practice(voice, said_by_the_pupil(*replies), room=ON_LOUDSPEAKER)
        connected(practice, plan_of((38,), (5,)), open_when=open_when).begin()
        return practice

    return begin


def answers(practice: Practice) -> list[int]:
    return [row.given for row in practice.state.progress.live if isinstance(row, Answer)]


def test_the_tool_never_hears_itself(begun: Callable[..., Practice]) -> None:
    practice = begun("forty-five", "", "two", "three", "forty-three", "")
    practice.pass_until(lambda: practice.runner.finished is not None)
    assert answers(practice) == [45, 2, 3, 43]
    assert len(practice.heard_sounds) == 4


def test_with_the_ear_always_open_it_would(begun: Callable[..., Practice]) -> None:
    practice = begun(open_when=OpenWhen.ALWAYS)
    practice.pass_ms(4_000)
    assert practice.heard_sounds


def test_what_is_said_into_a_sentence_is_not_heard(begun: Callable[..., Practice]) -> None:
    practice = begun()
    practice.overheard(recorded("two"), after_ms=300)
    practice.pass_ms(10_000)
    assert practice.lines == [FIRST, QUESTION]
    assert not practice.heard_sounds


@pytest.mark.parametrize("after_ms", [50, 300, 700])
def test_what_begins_between_two_sentences_keeps_the_next_from_beginning(
    after_ms: int, begun: Callable[..., Practice]
) -> None:
    practice = begun()
    practice.pass_until_listening()
    assert practice.lines == [FIRST]
    practice.overheard(recorded("forty-three"), after_ms=after_ms)
    practice.pass_until(lambda: bool(answers(practice)))
    assert answers(practice) == [43]
    assert practice.lines[:2] == [FIRST, "Tool:  Forty-three."]


def test_a_noise_between_two_sentences_only_holds_up_the_next(begun: Callable[..., Practice]) -> None:
    practice = begun()
    practice.pass_until_listening()
    practice.overheard(recorded("please wait")[: 16 * 200], after_ms=100)
    practice.pass_ms(10_000)
    assert practice.lines == [FIRST, QUESTION]
    assert len(practice.heard_sounds) == 1
