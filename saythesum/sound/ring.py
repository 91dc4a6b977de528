"""The last two seconds of sound, between the thread that records and the thread that listens."""

import numpy as np
from numpy.typing import NDArray

Frames = NDArray[np.int16]
"""[frame, channel], as devices give and take them."""


class Ring:
    """One thread writes, one reads, neither ever waits for the other. When it is full, the oldest sound goes.

    No lock is needed: each count is written by one thread only. `_claimed` runs ahead of `_written` while a block
    is being copied, so that the reader sees which frames it may have read half old, half new.
    """

    def __init__(self, *, frames: int, channels: int) -> None:
        self._frames: Frames = np.zeros((frames, channels), np.int16)
        self._claimed = self._written = self._read = 0
        self.overflows = 0
        """Blocks that were written over sound nobody had read."""

    @property
    def written(self) -> int:
        """Frames since the beginning."""
        return self._written

    def write(self, block: Frames) -> None:
        """A block longer than the ring leaves its end."""
        size = len(self._frames)
        end = self._written + len(block)
        self._claimed = end
        if end - self._read > size:
            self.overflows += 1
        kept = block[-size:]
        at = (end - len(kept)) % size
        first = min(len(kept), size - at)
        self._frames[at : at + first] = kept[:first]
        self._frames[: len(kept) - first] = kept[first:]
        self._written = end

    def read(self) -> tuple[int, Frames]:
        """What was written since the last time, and the number of its first frame: higher where some was lost."""
        size = len(self._frames)
        end = self._written
        begin = max(self._read, end - size)
        indices = np.arange(begin, end) % size
        frames = self._frames[indices]
        overwritten = max(0, min(self._claimed - size, end) - begin)
        self._read = end
        return begin + overwritten, frames[overwritten:]
