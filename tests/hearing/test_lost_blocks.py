"""Blocks that a device loses, from its callback to what the dialogue is told."""

from collections.abc import Iterator

import numpy as np
import pytest

from saythesum.core.meanings import LOST, Awaiting, Number
from saythesum.dialogue.turns.events import Event, HeardSoFar, ListenId
from saythesum.hearing.ear import Ear
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.ports import LISTENING_RATE_HZ, Captured, Samples
from saythesum.sound.devices import Direction, chosen
from saythesum.sound.microphone import PortAudioMicrophone
from saythesum.sound.portaudio import PortAudio
from tests.by_sound import recorded
from tests.fakes.clock import FakeClock
from tests.fakes.one_microphone import COMES_IN_AFTER_MS, OneMicrophone

SAMPLES_A_MS = LISTENING_RATE_HZ // 1000
BLOCK_MS = 50


def quiet(ms: int) -> Samples:
    return (np.random.default_rng(ms).standard_normal(ms * SAMPLES_A_MS) * 1e-4).astype(np.float32)


class Bench:
    """A microphone whose device is the test's."""

    def __init__(self, *, tells_time: bool = True) -> None:
        self.clock = FakeClock()
        self.device = OneMicrophone(self.clock, tells_time=tells_time)
        portaudio = PortAudio(self.device)
        named = chosen(portaudio.devices(), Direction.IN, None)
        self.microphone = PortAudioMicrophone(portaudio, named, clock=self.clock, post=lambda _: None, only_this=True)
        self._at_ms = 0

    def gives(self, sound: Samples, *, lost: range = range(0)) -> Iterator[None]:
        """One block after the other; those that begin in `lost`, in ms from the start, are never given."""
        size = BLOCK_MS * SAMPLES_A_MS
        for begin in range(0, len(sound) // size * size, size):
            self._at_ms += BLOCK_MS
            if begin // SAMPLES_A_MS not in lost:
                self.device.give(sound[begin : begin + size], self._at_ms)
                yield


@pytest.fixture(params=[True, False], ids=["tells its time", "says no more than that a block is there"])
def bench(request: pytest.FixtureRequest) -> Iterator[Bench]:
    bench = Bench(tells_time=request.param)
    yield bench
    bench.microphone.close()


@pytest.mark.parametrize("lost_ms", [0, 100, 350, 1_500])
def test_samples_stand_where_they_were_recorded_also_after_a_loss(lost_ms: int) -> None:
    """Each second has a click of its own; the device says when it recorded, so three blocks are enough."""
    bench = Bench()
    sound = quiet(6_000)
    clicks_ms = (500, 1_500, 2_500, 4_500, 5_500)
    for click_ms in clicks_ms:
        sound[click_ms * SAMPLES_A_MS] = 0.9
    read: list[Captured] = []
    for _ in bench.gives(sound, lost=range(2_600, 2_600 + lost_ms)):
        read.append(bench.microphone.read())
    bench.microphone.close()
    found = [
        (each.at_sample + int(at)) / SAMPLES_A_MS for each in read for at in np.flatnonzero(np.abs(each.samples) > 0.5)
    ]
    assert found == [pytest.approx(click_ms, abs=1) for click_ms in clicks_ms]


def test_a_device_that_tells_no_time_is_right_as_far_as_its_blocks_come_in_time() -> None:
    bench = Bench(tells_time=False)
    read = [bench.microphone.read() for _ in bench.gives(quiet(2_000))]
    bench.microphone.close()
    assert read[-1].end_sample / SAMPLES_A_MS == pytest.approx(2_000 + COMES_IN_AFTER_MS, abs=COMES_IN_AFTER_MS)


def test_what_nobody_reads_in_time_is_lost_and_counted(bench: Bench) -> None:
    blocks = bench.gives(quiet(9_000))
    for _ in range(20):
        next(blocks)
        before = bench.microphone.read()
    for _ in range(100):
        next(blocks)
    after = bench.microphone.read()
    assert bench.microphone.overflows == 100 - 2_000 // BLOCK_MS
    assert after.at_sample - before.end_sample == (100 * BLOCK_MS - 2_000) * SAMPLES_A_MS
    assert len(after.samples) == 2_000 * SAMPLES_A_MS


@pytest.mark.parametrize("lost_ms", [100, 300])
@pytest.mark.parametrize("into_ms", range(-100, 700, 100))
def test_a_number_that_lost_blocks_is_never_taken(into_ms: int, lost_ms: int) -> None:
    """Wherever in it they were lost: "fifty-two" may have become fifty, two, or sixty-two."""
    bench, told = Bench(), list[Event]()
    ear = Ear(NeuralRecogniser(), told.append)
    ear.open(ListenId(1), Awaiting.NUMBER, 0)
    spoken = recorded("fifty-two")
    sound = np.concatenate([quiet(1_000), spoken, quiet(2_000)])
    begin_ms = 1_000 + into_ms + int(np.flatnonzero(np.abs(spoken) > 0.02)[0]) // SAMPLES_A_MS // BLOCK_MS * BLOCK_MS
    for _ in bench.gives(sound, lost=range(begin_ms, begin_ms + lost_ms)):
        captured = bench.microphone.read()
        ear.feed(captured.samples, captured.at_sample)
    bench.microphone.close()
    heard = [event.heard for event in told if isinstance(event, HeardSoFar)]
    assert heard
    for each in heard:
        assert each == LOST or (isinstance(each, Number) and not each.sure), heard
