"""Block after block against the whole, which is cut into blocks of another length."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.sound.resample import RateChange, resampled

RATES_HZ = (8_000, 11_025, 16_000, 22_050, 22_051, 24_000, 32_000, 44_100, 48_000, 96_000)
"""One of them shares no divisor with any other."""


@settings(max_examples=40, deadline=None)
@given(
    st.sampled_from(RATES_HZ),
    st.sampled_from(RATES_HZ),
    st.lists(st.integers(0, 2_000), max_size=8),
    st.integers(0, 2**32 - 1),
)
def test_blocks_give_what_the_whole_gives(from_hz: int, to_hz: int, blocks: list[int], seed: int) -> None:
    sound = np.random.default_rng(seed).standard_normal(sum(blocks)).astype(np.float32)
    change = RateChange(from_hz=from_hz, to_hz=to_hz)
    pieces = [change.feed(block) for block in np.split(sound, np.cumsum(blocks)[:-1])] if blocks else []
    pieces.append(change.rest())
    made = np.concatenate(pieces)
    whole = resampled(sound, from_hz=from_hz, to_hz=to_hz)
    assert len(made) == len(whole)
    assert np.allclose(made, whole, atol=1e-4)


@pytest.mark.parametrize(("from_hz", "to_hz"), [(48_000, 16_000), (44_100, 16_000), (22_050, 48_000)])
def test_little_is_kept_back(from_hz: int, to_hz: int) -> None:
    """The delay of the filter and one round of phases: 15 ms at the most."""
    made = RateChange(from_hz=from_hz, to_hz=to_hz).feed(np.zeros(from_hz, np.float32))
    assert to_hz - len(made) <= to_hz * 15 // 1000
