import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.ports import Samples, Sound
from saythesum.speaking.loudness import HIGHEST_PEAK, SPEECH_RMS, active_rms, levelled, trimmed

RATE_HZ = 16_000


def tone(amplitude: float, long_ms: int = 500) -> Samples:
    samples: Samples = (amplitude * np.sin(np.arange(RATE_HZ * long_ms // 1000) * 0.3)).astype(np.float32)
    return samples


def silence(long_ms: int) -> Samples:
    return np.zeros(RATE_HZ * long_ms // 1000, np.float32)


def test_a_tone_is_measured_as_the_textbook_says() -> None:
    """A sine's root mean square is its amplitude over the square root of two."""
    assert active_rms(Sound(tone(0.5), RATE_HZ)) == pytest.approx(0.5 / 2**0.5, rel=0.01)


def test_pauses_do_not_count() -> None:
    spoken = np.concatenate([tone(0.5), silence(2_000), tone(0.5)])
    assert active_rms(Sound(spoken, RATE_HZ)) == pytest.approx(0.5 / 2**0.5, rel=0.02)


@given(amplitude=st.floats(0.001, 1.0), long_ms=st.integers(1, 900))
def test_every_level_comes_to_one(amplitude: float, long_ms: int) -> None:
    even = levelled(Sound(tone(amplitude, long_ms), RATE_HZ))
    assert np.abs(even.samples).max() <= HIGHEST_PEAK + 1e-6
    if np.abs(even.samples).max() < HIGHEST_PEAK - 1e-6:
        assert active_rms(even) == pytest.approx(SPEECH_RMS, rel=0.001)


def test_a_peak_bounds_the_level() -> None:
    click = tone(0.01)
    click[100] = 1.0
    even = levelled(Sound(click, RATE_HZ))
    assert np.abs(even.samples).max() == pytest.approx(HIGHEST_PEAK, rel=0.001)
    assert active_rms(even) < SPEECH_RMS


def test_silence_stays_silence() -> None:
    assert not levelled(Sound(silence(100), RATE_HZ)).samples.any()
    assert trimmed(Sound(silence(100), RATE_HZ)).duration_ms == 0
    assert trimmed(Sound(silence(0), RATE_HZ)).duration_ms == 0
    assert levelled(Sound(silence(0), RATE_HZ)).duration_ms == 0


def test_ends_are_cut_and_the_middle_is_not() -> None:
    spoken = np.concatenate([silence(400), tone(0.5), silence(300), tone(0.5), silence(700)])
    assert trimmed(Sound(spoken, RATE_HZ)).duration_ms == pytest.approx(20 + 500 + 300 + 500 + 80, abs=2)
