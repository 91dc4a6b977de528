"""When a sample was recorded, by the run's clock: counted in samples, not in the moments at which blocks come in."""

from collections import deque

LATE_MS = 150
"""Later than any block that was only held up: a block and a half."""
LATE_BLOCKS = 20


class DeviceTime:
    """All numbers are samples, at one rate; `at` and results count from the start of the run.

    Blocks come in late as it pleases the machine, so being late moves nothing. Two things do: a block that is in
    before it can have been recorded (the device had begun earlier), and lateness that stays (the machine slept,
    or the device lost sound).
    """

    def __init__(self, began: int, *, rate_hz: int) -> None:
        self.began = began
        """Where the device's first sample stands."""
        self._late_samples = LATE_MS * rate_hz // 1000
        self._late: deque[int] = deque(maxlen=LATE_BLOCKS)

    def arrived(self, count: int, at: int) -> None:
        """A block is in; with it the device has given `count` samples."""
        late = at - (self.began + count)
        if late < 0:
            self.began += late
            self._late.clear()
            return
        self._late.append(late)
        if len(self._late) == LATE_BLOCKS and min(self._late) > self._late_samples:
            self.began += min(self._late)
            self._late.clear()
