"""The sound cues as they lie in audio."""

from itertools import combinations

import numpy as np
import pytest

from saythesum.ports import LISTENING_RATE_HZ, Sound
from saythesum.settings.shipped_files import audio_folder
from saythesum.sound.wav import read_wav
from saythesum.speaking.loudness import HIGHEST_PEAK, SPEECH_RMS, active_rms
from tests.tools.make_sound_cues import CUES, Note, cue

MS = LISTENING_RATE_HZ // 1000


def kept(name: str) -> Sound:
    return read_wav(audio_folder() / f"{name}.wav")


@pytest.mark.parametrize("name", CUES)
def test_the_script_makes_what_is_kept(name: str) -> None:
    assert np.abs(kept(name).samples - cue(CUES[name])).max() <= 1 / 32_768


@pytest.mark.parametrize("name", CUES)
def test_as_loud_as_speech_and_soft_at_both_ends(name: str) -> None:
    sound = kept(name)
    assert sound.rate_hz == LISTENING_RATE_HZ
    assert active_rms(sound) == pytest.approx(SPEECH_RMS, rel=0.02)
    loudest = np.abs(sound.samples).max()
    assert loudest <= HIGHEST_PEAK
    assert np.abs(sound.samples[: 2 * MS]).max() < 0.1 * loudest
    assert np.abs(sound.samples[-2 * MS :]).max() < 0.1 * loudest


@pytest.mark.parametrize("name", CUES)
def test_no_click_in_it(name: str) -> None:
    """A click spreads over all pitches; the highest overtone of the cues lies below 3 kHz."""
    power = np.abs(np.fft.rfft(kept(name).samples)) ** 2
    high = np.fft.rfftfreq(len(kept(name).samples), 1 / LISTENING_RATE_HZ) > 4_000
    assert power[high].sum() < 1e-6 * power.sum()


@pytest.mark.parametrize(("name", "other"), [*combinations(CUES, 2)])
def test_rhythm_alone_tells_them_apart(name: str, other: str) -> None:
    """Another number of notes, or one of them lasts at least half as long again."""
    ours, theirs = CUES[name], CUES[other]
    assert len(ours) != len(theirs) or any(_longer(one, two) for one, two in zip(ours, theirs, strict=True))


def _longer(one: Note, two: Note) -> bool:
    shorter, longer = sorted((one.long_ms, two.long_ms))
    return longer >= 1.5 * shorter


def test_the_ear_is_told_of_at_once_and_all_are_short() -> None:
    assert max(kept("ear-open").duration_ms, kept("ear-shut").duration_ms) <= 200
    assert all(kept(name).duration_ms <= 1_000 for name in CUES)
