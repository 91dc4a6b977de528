"""Lowering a sound, against what is known of made sounds and against another program that raises voices."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.hearing.vocal_tract.warp import lowered
from saythesum.ports import LISTENING_RATE_HZ, Samples

FACTORS = (1.1, 1.25, 1.5)


def tone(hz: float) -> Samples:
    at = np.arange(LISTENING_RATE_HZ) / LISTENING_RATE_HZ
    return (0.5 * np.sin(2 * np.pi * hz * at)).astype(np.float32)


def loudest_hz(samples: Samples) -> float:
    spectrum = np.abs(np.fft.rfft(samples * np.hanning(len(samples))))
    return float(np.argmax(spectrum)) * LISTENING_RATE_HZ / len(samples)


@pytest.mark.parametrize("factor", FACTORS)
@pytest.mark.parametrize("hz", [220, 1000, 3000])
def test_a_tone_comes_down_by_the_factor(hz: float, factor: float) -> None:
    assert loudest_hz(lowered(tone(hz), factor)) == pytest.approx(hz / factor, rel=0.01)


@pytest.mark.parametrize("factor", FACTORS)
def test_it_is_as_long_and_as_loud_as_before(factor: float) -> None:
    made = lowered(tone(440), factor)
    assert len(made) == LISTENING_RATE_HZ
    middle = slice(LISTENING_RATE_HZ // 10, -LISTENING_RATE_HZ // 10)
    assert np.sqrt(np.mean(made[middle] ** 2)) == pytest.approx(0.5 / np.sqrt(2), rel=0.02)


@pytest.mark.parametrize("factor", FACTORS)
def test_what_happens_stays_where_it_is_in_time(factor: float) -> None:
    """Speech goes on at its own pace: a burst in the second half is still there."""
    sound = np.zeros(LISTENING_RATE_HZ, np.float32)
    sound[10_000:12_000] = tone(500)[:2_000]
    made = np.abs(lowered(sound, factor)) > 0.1
    assert abs(np.flatnonzero(made)[0] - 10_000) < 512
    assert abs(np.flatnonzero(made)[-1] - 12_000) < 512


def test_a_factor_of_one_changes_nothing() -> None:
    sound = tone(440)
    assert lowered(sound, 1.0) is sound


@given(st.integers(0, 5_000), st.floats(0.8, 1.6))
def test_any_length_stays_and_no_number_is_lost(count: int, factor: float) -> None:
    made = lowered(np.random.default_rng(count).standard_normal(count).astype(np.float32), factor)
    assert len(made) == count
    assert np.isfinite(made).all()
