"""What every loudspeaker must do: the one with a device, the one of a rehearsal, and the tests' own."""

from collections.abc import Callable, Iterator
from queue import Empty, SimpleQueue
from typing import Protocol

import pytest

from saythesum.app.rehearsal.computed_sound import SampleClock, Track, TrackLoudspeaker
from saythesum.dialogue.turns.events import UtteranceId
from saythesum.ports import Loudspeaker, Over, OwnSound, SoundId
from saythesum.sound.devices import Direction, chosen
from saythesum.sound.loudspeaker import PortAudioLoudspeaker
from saythesum.sound.portaudio import PortAudio
from tests.fakes.clock import FakeClock
from tests.fakes.one_loudspeaker import OneLoudspeaker
from tests.fakes.sound_devices import NotedLoudspeaker
from tests.tools.rig.in_process import Inbox, loudspeaker_on, portaudio_on
from tests.tools.rig.server import Rig, made_tone

TONE_MS = 400
FIRST, SECOND, THIRD = UtteranceId(1), OwnSound(1), UtteranceId(2)


class Stage(Protocol):
    @property
    def loudspeaker(self) -> Loudspeaker: ...

    def next_over(self) -> Over:
        """Lets time pass until there is one."""


class OnTrack:
    def __init__(self) -> None:
        self._clock, self._overs = SampleClock(), SimpleQueue[Over]()
        self.loudspeaker = TrackLoudspeaker(Track(), self._clock, self._overs.put)

    def next_over(self) -> Over:
        if self._overs.empty() and (end := self.loudspeaker.next_over) is not None:
            self._clock.samples = max(self._clock.samples, end)
            self.loudspeaker.report_over()
        return self._overs.get_nowait()


class OnDevice:
    def __init__(self) -> None:
        clock = FakeClock()
        self._device, self._overs = OneLoudspeaker(clock), SimpleQueue[object]()
        portaudio = PortAudio(self._device)
        device = chosen(portaudio.devices(), Direction.OUT, None)
        self.loudspeaker = PortAudioLoudspeaker(portaudio, device, clock=clock, post=self._overs.put, only_this=False)

    def next_over(self) -> Over:
        for _ in range(100_000):
            self._device.take_block()
            try:
                news = self._overs.get(timeout=0.001)
            except Empty:
                continue
            assert isinstance(news, Over), news
            return news
        raise AssertionError("nothing is ever over")


class Noted:
    def __init__(self) -> None:
        self._overs: SimpleQueue[Over] = SimpleQueue()
        self.loudspeaker = NotedLoudspeaker(self._overs.put)

    def next_over(self) -> Over:
        if self._overs.empty():
            self.loudspeaker.finish()
        return self._overs.get_nowait()


class OnRig:
    def __init__(self, loudspeaker: Loudspeaker, inbox: Inbox) -> None:
        self.loudspeaker, self._inbox = loudspeaker, inbox

    def next_over(self) -> Over:
        return self._inbox.wait_for(Over)


STAGES: dict[str, Callable[[], Stage]] = {"track": OnTrack, "device": OnDevice, "noted": Noted}


@pytest.fixture(params=[*STAGES, pytest.param("rig", marks=pytest.mark.rig)])
def stage(request: pytest.FixtureRequest) -> Iterator[Stage]:
    if request.param == "rig":
        rig: Rig = request.getfixturevalue("rig")
        inbox = Inbox()
        with portaudio_on(rig) as portaudio, loudspeaker_on(portaudio, rig.clock, inbox) as loudspeaker:
            yield OnRig(loudspeaker, inbox)
    else:
        stage = STAGES[request.param]()
        yield stage
        stage.loudspeaker.close()


def played(stage: Stage, *ids: SoundId) -> None:
    for id in ids:
        stage.loudspeaker.play(id, made_tone(TONE_MS, rate_hz=22_050))


def test_sounds_are_over_in_the_order_in_which_they_were_played(stage: Stage) -> None:
    played(stage, FIRST, SECOND, THIRD)
    overs = [stage.next_over() for _ in range(3)]
    assert [over.id for over in overs] == [FIRST, SECOND, THIRD]
    assert [over.cut_ms for over in overs] == [None, None, None]
    times = [over.at_ms for over in overs]
    assert times == sorted(times)


def test_a_cut_ends_all_that_was_played_and_nothing_after_it(stage: Stage) -> None:
    played(stage, FIRST, SECOND)
    stage.loudspeaker.cut()
    cut = [stage.next_over() for _ in range(2)]
    assert [over.id for over in cut] == [FIRST, SECOND]
    assert all(over.cut_ms is not None and 0 <= over.cut_ms < TONE_MS for over in cut)
    played(stage, THIRD)
    after = stage.next_over()
    assert (after.id, after.cut_ms) == (THIRD, None)


def test_a_cut_of_nothing_does_nothing(stage: Stage) -> None:
    stage.loudspeaker.cut()
    played(stage, FIRST)
    over = stage.next_over()
    assert (over.id, over.cut_ms) == (FIRST, None)


def test_a_sound_of_nothing_is_over(stage: Stage) -> None:
    stage.loudspeaker.play(FIRST, made_tone(0))
    assert stage.next_over().id == FIRST


def test_closing_ends_everything(stage: Stage) -> None:
    played(stage, FIRST, SECOND)
    stage.loudspeaker.close()
    assert [stage.next_over().id for _ in range(2)] == [FIRST, SECOND]
