"""Sound as a value."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:  # a practice in plain text starts without NumPy
    import numpy as np
    from numpy.typing import NDArray

LISTENING_RATE_HZ = 16_000
"""All sound that is listened to is mono float32 in -1..1 at this rate."""

Samples: TypeAlias = "NDArray[np.float32]"


@dataclass(frozen=True, slots=True, eq=False)
class Sound:
    """Mono sound. `samples` is float32 in -1..1."""

    samples: Samples
    rate_hz: int

    @property
    def duration_ms(self) -> int:
        return len(self.samples) * 1000 // self.rate_hz
