from dataclasses import dataclass
from typing import Protocol

from saythesum.ports.sound import Samples


@dataclass(frozen=True, slots=True, eq=False)
class Captured:
    """Mono at LISTENING_RATE_HZ. May be empty."""

    at_sample: int
    """Where the first sample stands, counted from the start of the run: sample 16,000 is at 1,000 ms."""
    samples: Samples

    @property
    def end_sample(self) -> int:
        return self.at_sample + len(self.samples)

    def since(self, sample: int) -> "Captured":
        """The part from `sample` on: an ear that opens must not hear what was before."""
        before = min(max(0, sample - self.at_sample), len(self.samples))
        return Captured(self.at_sample + before, self.samples[before:])


class Microphone(Protocol):
    def read(self, timeout_s: float = 0.5) -> Captured:
        """What came since the last time, in one thread; waits while there is nothing new, and then gives nothing."""

    def close(self) -> None: ...
