"""The microphone on the rig: what the pupil's sink plays, and when."""

import numpy as np
import pytest

from saythesum.ports import LISTENING_RATE_HZ, Captured, Microphone, Samples
from saythesum.sound.device_events import MicrophoneFound, MicrophoneLost
from tests.tools.rig.in_process import Inbox, microphone_on, portaudio_on, read_until
from tests.tools.rig.monitors import SOUND_FROM
from tests.tools.rig.only_48k_stereo import Only48kStereo
from tests.tools.rig.server import Rig, made_tone

on_rig = pytest.mark.rig
SAMPLES_A_MS = LISTENING_RATE_HZ // 1000
BLOCK_MS = 100


@on_rig
@pytest.mark.parametrize("only_48k_stereo", [False, True])
def test_it_hears_the_pupil_at_the_right_time(rig: Rig, *, only_48k_stereo: bool) -> None:
    import sounddevice

    library = Only48kStereo(sounddevice) if only_48k_stereo else sounddevice
    with portaudio_on(rig, library) as portaudio, microphone_on(portaudio, rig.clock, Inbox()) as microphone:
        _read_for(microphone, rig, 500)
        asked_ms = rig.clock.since_start_ms()
        rig.play_as_pupil(made_tone(700))
        began_ms, ended_ms, heard = _tone_in(_read_for(microphone, rig, 1_800))
        truth_ms = rig.pupil.first_sound_ms(asked_ms)
    assert truth_ms is not None
    assert abs(began_ms - truth_ms) <= BLOCK_MS
    assert abs(ended_ms - began_ms - 700) <= 40
    if only_48k_stereo:
        assert library.opened == [(48_000, 2)]
    assert np.abs(heard).max() == pytest.approx(0.3, abs=0.02)


@on_rig
def test_what_nobody_reads_is_lost_but_time_stays_right(rig: Rig) -> None:
    with portaudio_on(rig) as portaudio, microphone_on(portaudio, rig.clock, Inbox()) as microphone:
        before = _read_for(microphone, rig, 500)[-1]
        end_ms = rig.clock.since_start_ms() + 3_000
        assert rig.pupil.first_sound_ms(end_ms - 3_000, within_ms=3_000) is None  # time passes, nobody reads
        after = microphone.read()
        now_ms = rig.clock.since_start_ms()
    assert microphone.overflows > 0
    assert after.at_sample > before.end_sample
    assert len(after.samples) <= 2 * LISTENING_RATE_HZ
    assert abs(after.end_sample / SAMPLES_A_MS - now_ms) <= 2.5 * BLOCK_MS


@on_rig
def test_a_lost_microphone_is_told_once_and_used_again(rig: Rig) -> None:
    inbox = Inbox()
    with portaudio_on(rig) as portaudio, microphone_on(portaudio, rig.clock, inbox) as microphone:
        _read_for(microphone, rig, 300)
        rig.lose()
        try:
            assert "plug it in again" in inbox.wait_for(MicrophoneLost).sentence
            assert len(microphone.read(0.1).samples) == 0
        finally:
            rig.come_back()
        inbox.wait_for(MicrophoneFound)
        _read_for(microphone, rig, 300)
        rig.play_as_pupil(made_tone(400))
        _tone_in(_read_for(microphone, rig, 1_500))
    assert sum(isinstance(news, MicrophoneLost) for news in inbox.all) == 1


def test_only_what_came_since_a_moment() -> None:
    captured = Captured(1_000, np.arange(100, dtype=np.float32))
    assert captured.since(900) is not None
    assert (captured.since(900).at_sample, len(captured.since(900).samples)) == (1_000, 100)
    later = captured.since(1_040)
    assert (later.at_sample, later.samples[0], later.end_sample) == (1_040, 40.0, 1_100)
    assert (captured.since(5_000).at_sample, len(captured.since(5_000).samples)) == (1_100, 0)


def _read_for(microphone: Microphone, rig: Rig, ms: int) -> list[Captured]:
    return read_until(microphone, rig.clock.since_start_ms() + ms, rig.clock)


def _tone_in(captured: list[Captured]) -> tuple[float, float, Samples]:
    """When it began and ended, in ms of the run, and what it was."""
    whole = np.concatenate([each.samples for each in captured])
    stands = np.concatenate([each.at_sample + np.arange(len(each.samples)) for each in captured])
    loud = np.flatnonzero(np.abs(whole) >= SOUND_FROM)
    assert len(loud), "the microphone heard nothing"
    first, last = loud[0], loud[-1]
    return stands[first] / SAMPLES_A_MS, (stands[last] + 1) / SAMPLES_A_MS, whole[first : last + 1]
