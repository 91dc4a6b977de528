"""Sound as a value."""

import numpy as np
from numpy.typing import NDArray

from saythesum.values import dataclass

LISTENING_RATE_HZ = 16_000
"""All sound that is listened to is mono float32 in -1..1 at this rate."""

Samples = NDArray[np.float32]


@dataclass(frozen=True, slots=True, eq=False)
class Sound:
    """Mono sound. `samples` is float32 in -1..1."""

    samples: Samples
    rate_hz: int

    @property
    def duration_ms(self) -> int:
        return len(self.samples) * 1000 // self.rate_hz
