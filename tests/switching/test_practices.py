"""Whole practices by switch, by made-up hands: the rows that were meant, and nothing that was not pressed.

`python -m tests.tools.one_switch` prints the figures of 300 of them.
"""

import pytest

from tests.switching.hands import Kind, Way, practised


@pytest.mark.parametrize("kind", Kind)
@pytest.mark.parametrize("way", Way)
def test_a_grid_with_a_miss_a_call_for_help_and_a_pause(kind: Kind, way: Way) -> None:
    came = practised(kind, way, seed=1_000)
    assert came.reason == "finished"
    assert came.kept == came.meant
    assert len(came.kept) > 6
    assert (came.unpressed, came.from_bounces, came.others) == (0, 0, 0)
    assert set(came.support) > {"independent"}
