"""How unlike two sayings are, whatever their tempo.

Source: H. Sakoe and S. Chiba, Dynamic Programming Algorithm Optimization for Spoken Word Recognition, IEEE Transactions
on Acoustics, Speech and Signal Processing 26 (1978), 43-49: the symmetric form without slope constraint. Beside it the
ends are open, because where a word begins and ends is not known to the frame.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from saythesum.ports import Frames

OPEN_FRAMES = 3
"""So many at either end of either saying may be left out."""


class Stacked:
    """Sayings side by side, to be compared with another all at once."""

    def __init__(self, sayings: Sequence[Frames]) -> None:
        """Each [frames, features], of unit length; at least one."""
        self._lengths = np.array([len(saying) for saying in sayings])
        self._frames = np.zeros((len(sayings), self._lengths.max(), sayings[0].shape[1]), np.float32)
        for place, saying in enumerate(sayings):
            self._frames[place, : len(saying)] = saying

    def distances(self, said: Frames) -> NDArray[np.float32]:
        """Of `said`, [frames, features] of unit length, to each: the mean cosine distance along the best alignment."""
        count, longest, features = self._frames.shape
        likeness = said @ self._frames.reshape(-1, features).T
        costs = 1 - likeness.reshape(len(said), count, longest)
        means: NDArray[np.float32] = self._along_best_path(costs) / (len(said) + self._lengths)
        return means

    def _along_best_path(self, costs: NDArray[np.float32]) -> NDArray[np.float32]:
        """`costs`: [frames said, sayings, their frames]. Behind a saying's end the columns mean nothing, and no path
        leads back from there."""
        count = len(self._lengths)
        ends, last_rows = self._lengths - 1, len(costs) - 1
        best = np.full(count, np.inf, np.float32)
        before = np.full(costs.shape[1:], np.inf, np.float32)
        for row, cost in enumerate(costs):
            reached = before + cost
            reached[:, 1:] = np.minimum(reached[:, 1:], before[:, :-1] + 2 * cost[:, 1:])
            starts = OPEN_FRAMES + 1 if row == 0 else int(row <= OPEN_FRAMES)
            reached[:, :starts] = np.minimum(reached[:, :starts], 2 * cost[:, :starts])
            along = np.cumsum(cost, axis=1)
            before = along + np.minimum.accumulate(reached - along, axis=1)
            if row >= last_rows - OPEN_FRAMES:
                best = np.minimum(best, before[np.arange(count), ends])
        for left_out in range(1, OPEN_FRAMES + 1):
            best = np.minimum(best, before[np.arange(count), ends - left_out])
        return best
