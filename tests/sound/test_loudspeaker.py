"""The loudspeaker on the rig: what was asked for against what a recorder hears."""

from collections.abc import Iterator

import numpy as np
import pytest

from saythesum.dialogue.turns.events import UtteranceId
from saythesum.ports import Over, Samples, Sound
from saythesum.sound.device_events import LoudspeakerFound, LoudspeakerLost
from tests.tools.rig.in_process import Inbox, loudspeaker_on, portaudio_on
from tests.tools.rig.monitors import RATE_HZ
from tests.tools.rig.only_48k_stereo import Only48kStereo
from tests.tools.rig.server import Rig, made_tone

pytestmark = pytest.mark.rig

BLOCK_MS = 100
RECORDER_MS = 15
"""How far off the recorder's own times may be."""


@pytest.fixture
def inbox() -> Inbox:
    return Inbox()


@pytest.fixture
def quiet(rig: Rig) -> Iterator[float]:
    """A moment from which on only the test makes sound."""
    now_ms = rig.clock.since_start_ms()
    assert rig.tool.silent_from_ms(now_ms, for_ms=100) is not None
    yield now_ms


def test_a_tone_arrives_whole_and_its_end_is_told(rig: Rig, quiet: float, inbox: Inbox) -> None:
    with portaudio_on(rig) as portaudio, loudspeaker_on(portaudio, rig.clock, inbox) as loudspeaker:
        loudspeaker.play(UtteranceId(7), made_tone(600, rate_hz=22_050))
        over = inbox.wait_for(Over)
        begin_ms = rig.tool.first_sound_ms(quiet)
        assert begin_ms is not None
        end_ms = rig.tool.silent_from_ms(begin_ms)
        assert end_ms is not None
    assert over.id == 7
    assert over.cut_ms is None
    assert abs(end_ms - begin_ms - 600) <= RECORDER_MS
    assert end_ms - RECORDER_MS <= over.at_ms <= end_ms + BLOCK_MS
    assert _purity(rig.tool.since(begin_ms)[: RATE_HZ // 2]) > 0.99


def test_sounds_follow_one_another_with_the_pause_asked_for(rig: Rig, quiet: float, inbox: Inbox) -> None:
    with portaudio_on(rig) as portaudio, loudspeaker_on(portaudio, rig.clock, inbox) as loudspeaker:
        for id in (1, 2):
            loudspeaker.play(UtteranceId(id), made_tone(300), after_ms=200)
        assert [inbox.wait_for(Over).id for _ in range(2)] == [1, 2]
        first_ms = rig.tool.first_sound_ms(quiet)
        assert first_ms is not None
        pause_ms = rig.tool.silent_from_ms(first_ms, for_ms=100)
        assert pause_ms is not None
        second_ms = rig.tool.first_sound_ms(pause_ms + 10)
        assert second_ms is not None
    assert abs(second_ms - pause_ms - 200) <= RECORDER_MS


def test_cut_is_silence_and_drops_what_waits(rig: Rig, quiet: float, inbox: Inbox) -> None:
    with portaudio_on(rig) as portaudio, loudspeaker_on(portaudio, rig.clock, inbox) as loudspeaker:
        for id in (1, 2, 3):
            loudspeaker.play(UtteranceId(id), made_tone(4_000))
        begin_ms = rig.tool.first_sound_ms(quiet)
        assert begin_ms is not None
        cut_ms = rig.clock.since_start_ms()
        loudspeaker.cut()
        cuts = [inbox.wait_for(Over) for _ in range(3)]
        end_ms = rig.tool.silent_from_ms(begin_ms, for_ms=800)
        assert end_ms is not None
        loudspeaker.play(UtteranceId(4), made_tone(200))
        after = inbox.wait_for(Over)
        assert (after.id, after.cut_ms) == (4, None)
    assert end_ms - cut_ms <= 100
    assert [cut.id for cut in cuts] == [1, 2, 3]
    assert cuts[0].cut_ms == pytest.approx(end_ms - begin_ms, abs=50)
    assert [cut.cut_ms for cut in cuts[1:]] == [0, 0]


def test_a_sound_of_nothing_is_over_at_once(rig: Rig, inbox: Inbox) -> None:
    with portaudio_on(rig) as portaudio, loudspeaker_on(portaudio, rig.clock, inbox) as loudspeaker:
        loudspeaker.play(UtteranceId(1), Sound(np.zeros(0, np.float32), 22_050))
        assert inbox.wait_for(Over).cut_ms is None


def test_closing_tells_the_end_of_everything(rig: Rig, inbox: Inbox) -> None:
    with portaudio_on(rig) as portaudio, loudspeaker_on(portaudio, rig.clock, inbox) as loudspeaker:
        loudspeaker.play(UtteranceId(1), made_tone(3_000))
        loudspeaker.play(UtteranceId(2), made_tone(3_000))
    assert [inbox.wait_for(Over).id for _ in range(2)] == [1, 2]


def test_a_device_of_48_khz_stereo_is_served(rig: Rig, quiet: float, inbox: Inbox) -> None:
    import sounddevice

    library = Only48kStereo(sounddevice)
    with portaudio_on(rig, library) as portaudio, loudspeaker_on(portaudio, rig.clock, inbox) as loudspeaker:
        loudspeaker.play(UtteranceId(1), made_tone(1_000, rate_hz=22_050))
        inbox.wait_for(Over)
        begin_ms = rig.tool.first_sound_ms(quiet)
        assert begin_ms is not None
        end_ms = rig.tool.silent_from_ms(begin_ms)
    assert set(library.opened) == {(48_000, 2)}
    assert end_ms is not None
    assert abs(end_ms - begin_ms - 1_000) <= RECORDER_MS
    assert _purity(rig.tool.since(begin_ms)[: RATE_HZ // 2]) > 0.99


def test_a_lost_device_is_told_once_and_used_again(rig: Rig, inbox: Inbox) -> None:
    with portaudio_on(rig) as portaudio, loudspeaker_on(portaudio, rig.clock, inbox) as loudspeaker:
        asked_ms = rig.clock.since_start_ms()
        for id in (1, 2):
            loudspeaker.play(UtteranceId(id), made_tone(5_000))
        assert rig.tool.first_sound_ms(asked_ms) is not None
        rig.lose()
        try:
            lost = inbox.wait_for(LoudspeakerLost)
            assert [inbox.wait_for(Over).id for _ in range(2)] == [1, 2]
            loudspeaker.play(UtteranceId(3), made_tone(5_000))
            away = inbox.wait_for(Over)
            assert (away.id, away.cut_ms) == (3, 0)
        finally:
            rig.come_back()
        assert "plug it in again" in lost.sentence
        inbox.wait_for(LoudspeakerFound)
        asked_ms = rig.clock.since_start_ms()
        loudspeaker.play(UtteranceId(4), made_tone(300))
        assert inbox.wait_for(Over).cut_ms is None
        assert rig.tool.first_sound_ms(asked_ms) is not None
    assert sum(isinstance(news, LoudspeakerLost) for news in inbox.all) == 1


def _purity(samples: Samples, hz: float = 440.0) -> float:
    """The share of the power that is one unbroken tone of `hz`: 1 for it, near 0 for another, between for gaps."""
    turning = np.exp(-2j * np.pi * hz * np.arange(len(samples)) / RATE_HZ)
    return float(2 * np.abs(samples @ turning) ** 2 / len(samples) / np.sum(samples.astype(np.float64) ** 2))
