"""The distances, against the recursion written out as the paper has it."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from saythesum.hearing.embedded.own_words.comparable import of_unit_length
from saythesum.hearing.embedded.own_words.warping import OPEN_FRAMES, Stacked
from saythesum.ports import Frames


def frames(count: int, seed: int) -> Frames:
    return of_unit_length(np.random.default_rng(seed).standard_normal((count, 6)).astype(np.float32))


def written_out(one: Frames, other: Frames) -> float:
    """Source: Sakoe and Chiba (1978), symmetric form without slope constraint; and the ends open."""
    cost = 1 - one @ other.T
    best = np.full(cost.shape, np.inf)
    for i, j in np.ndindex(*cost.shape):
        if (i == 0 and j <= OPEN_FRAMES) or (j == 0 and i <= OPEN_FRAMES):
            best[i, j] = 2 * cost[i, j]
        if i:
            best[i, j] = min(best[i, j], best[i - 1, j] + cost[i, j])
        if j:
            best[i, j] = min(best[i, j], best[i, j - 1] + cost[i, j])
        if i and j:
            best[i, j] = min(best[i, j], best[i - 1, j - 1] + 2 * cost[i, j])
    ends: NDArray[np.float64] = np.concatenate([best[-1, -1 - OPEN_FRAMES :], best[-1 - OPEN_FRAMES :, -1]])
    return float(ends.min()) / (len(one) + len(other))


@settings(max_examples=40, deadline=None)
@given(st.lists(st.integers(8, 30), min_size=1, max_size=4), st.integers(8, 30), st.integers(0, 999))
def test_all_at_once_are_as_one_by_one(lengths: list[int], count: int, seed: int) -> None:
    said = frames(count, seed)
    others = [frames(length, seed + place + 1) for place, length in enumerate(lengths)]
    assert Stacked(others).distances(said) == pytest.approx([written_out(said, other) for other in others], abs=1e-5)


def test_a_saying_is_no_distance_from_itself_however_slowly_it_is_said() -> None:
    said = frames(12, 1)
    assert Stacked([said, np.repeat(said, 3, axis=0)]).distances(said) == pytest.approx([0, 0], abs=1e-5)


def test_one_is_as_far_from_another_as_that_from_it() -> None:
    one, other = frames(15, 1), frames(22, 2)
    assert Stacked([one]).distances(other) == pytest.approx(Stacked([other]).distances(one), abs=1e-6)
