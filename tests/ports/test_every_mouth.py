"""What every mouth must do for the speech queue: the live one with its thread, and the one of a rehearsal."""

from collections.abc import Iterator
from queue import SimpleQueue
from typing import Protocol

import pytest

from saythesum.app.rehearsal.computed_sound import SampleClock, Track, TrackLoudspeaker, TrackMouth
from saythesum.app.session.speech.mouth import CUES
from saythesum.app.session.speech.mouth import Mouth as LiveMouth
from saythesum.app.session.speech.speech_queue import Mouth
from saythesum.dialogue.turns.events import UtteranceId
from saythesum.ports import Over, OwnSound
from saythesum.settings import Speech
from saythesum.speaking.voice import ToolVoice
from tests.fakes.clock import FakeClock
from tests.fakes.sound_devices import NotedLoudspeaker


class Stage(Protocol):
    @property
    def mouth(self) -> Mouth: ...

    def next_over(self) -> Over:
        """Of what is heard to its end."""

    def next_cut(self) -> Over:
        """Of what is not."""

    def played_ms(self) -> list[int]:
        """How long each sound was that was played."""


class Live:
    def __init__(self, voice: ToolVoice) -> None:
        self._overs: SimpleQueue[object] = SimpleQueue()
        self._loudspeaker = NotedLoudspeaker(self._overs.put)
        self.mouth = LiveMouth(voice, self._loudspeaker, clock=FakeClock(), post=self._overs.put)

    def next_over(self) -> Over:
        self._loudspeaker.finish()
        return self.next_cut()

    def next_cut(self) -> Over:
        over = self._overs.get(timeout=30)
        assert isinstance(over, Over)
        return over

    def played_ms(self) -> list[int]:
        return [sound.duration_ms for _, sound in self._loudspeaker.played]


class Rehearsed:
    def __init__(self, voice: ToolVoice) -> None:
        self._clock, self._track, self._overs = SampleClock(), Track(), SimpleQueue[Over]()
        self._loudspeaker = TrackLoudspeaker(self._track, self._clock, self._overs.put)
        self.mouth = TrackMouth(voice, self._loudspeaker)

    def next_over(self) -> Over:
        end = self._loudspeaker.next_over
        assert end is not None, "nothing is playing"
        self._clock.samples = max(self._clock.samples, end)
        self._loudspeaker.report_over()
        return self.next_cut()

    def next_cut(self) -> Over:
        return self._overs.get_nowait()

    def played_ms(self) -> list[int]:
        return [len(piece.samples) // 16 for piece in self._track.pieces]


@pytest.fixture(params=["live", "rehearsed"])
def stage(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Stage]:
    voice = ToolVoice(Speech(), tmp_path_factory.getbasetemp() / "every mouth")
    if request.param == "live":
        live = Live(voice)
        yield live
        live.mouth.close()
    else:
        yield Rehearsed(voice)
        voice.close()


def test_sentences_follow_one_another(stage: Stage) -> None:
    for id, text in enumerate(("Forty-seven add five.", "Take your time.")):
        stage.mouth.say(UtteranceId(id), text)
    overs = [stage.next_over() for _ in range(2)]
    assert [(over.id, over.cut_ms) for over in overs] == [(0, None), (1, None)]
    assert all(500 < ms < 3_000 for ms in stage.played_ms())


@pytest.mark.parametrize("cue", CUES)
def test_a_cue_comes_in_its_turn(cue: str, stage: Stage) -> None:
    stage.mouth.say(UtteranceId(1), "Forty-seven add five.")
    stage.mouth.cue(OwnSound(1), cue)
    assert [stage.next_over().id for _ in range(2)] == [UtteranceId(1), OwnSound(1)]
    assert 0 < stage.played_ms()[1] < 1_000


def test_a_cut_ends_all_that_was_to_be_said_and_nothing_after_it(stage: Stage) -> None:
    for id in range(5):
        stage.mouth.say(UtteranceId(id), f"Row {id}.")
    stage.mouth.cut()
    cut = [stage.next_cut() for _ in range(5)]
    assert [over.id for over in cut] == [0, 1, 2, 3, 4]
    assert all(over.cut_ms is not None for over in cut)
    stage.mouth.say(UtteranceId(5), "Forty-seven add five.")
    after = stage.next_over()
    assert (after.id, after.cut_ms) == (5, None)


def test_what_is_only_prepared_is_not_said(stage: Stage) -> None:
    stage.mouth.prepare("Take your time.")
    stage.mouth.say(UtteranceId(1), "Forty-seven add five.")
    assert stage.next_over().id == 1
    assert len(stage.played_ms()) == 1


def test_slower_is_slower(stage: Stage) -> None:
    for id in range(2):
        stage.mouth.say(UtteranceId(id), "Forty-seven add five.")
        stage.next_over()
        stage.mouth.slow_down()
    before, after = stage.played_ms()
    assert after > 1.1 * before
