from datetime import datetime
from typing import Protocol


class Clock(Protocol):
    def now(self) -> datetime:
        """UTC."""

    def since_start_ms(self) -> int:
        """Milliseconds since this run began; never runs backwards."""
