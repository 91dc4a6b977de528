"""When a sample was recorded, by the run's clock: counted in samples, not in the moments at which blocks come in."""

from collections import deque

LATE_MS = 150
"""Later than any block that was only held up: a block and a half of 100 ms."""
LATE_BLOCKS = 20
OFF_MS = 20
"""The time that a device reports is right to 10 ms (measured through PulseAudio, with all cores busy)."""
OFF_BLOCKS = 3
"""Now and then it is wrong by seconds, for one block (measured, likewise)."""


class DeviceTime:
    """All numbers are samples, at one rate; `at` and results count from the start of the run."""

    def __init__(self, began: int, *, rate_hz: int) -> None:
        self.began = began
        """Where the device's first sample stands."""
        self._late_samples = LATE_MS * rate_hz // 1000
        self._off_samples = OFF_MS * rate_hz // 1000
        self._late: deque[int] = deque(maxlen=LATE_BLOCKS)
        self._off: deque[int] = deque(maxlen=OFF_BLOCKS)
        self._is_set = False

    def recorded(self, count: int, at: int) -> None:
        """The device says when it recorded the last sample of a block; with it, it has given `count` samples.

        If this keeps differing from the count, sound was lost, the machine slept, or its clock runs at another pace.
        """
        off = at - (self.began + count)
        if not self._is_set:
            self.began += off
            self._is_set = True
            return
        if abs(off) <= self._off_samples:
            self._off.clear()
            return
        self._off.append(off)
        if len(self._off) == OFF_BLOCKS and (min(self._off) > 0 or max(self._off) < 0):
            self.began += min(self._off, key=abs)
            self._off.clear()

    def arrived(self, count: int, at: int) -> None:
        """A block is in; with it the device has given `count` samples. For a device that reports no times.

        Blocks come in late as it pleases the machine, so being late moves nothing. Two things do: a block that is in
        before it can have been recorded (the device had begun earlier), and lateness that stays (the machine slept,
        or the device lost sound).
        """
        late = at - (self.began + count)
        if late < 0:
            self.began += late
            self._late.clear()
            return
        self._late.append(late)
        if len(self._late) == LATE_BLOCKS and min(self._late) > self._late_samples:
            self.began += min(self._late)
            self._late.clear()
