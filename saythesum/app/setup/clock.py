"""The one place that asks what time it is."""

import time
from datetime import UTC, datetime


class RealClock:
    def __init__(self) -> None:
        self._began_s = time.monotonic()  # noqa: TID251

    def now(self) -> datetime:
        return datetime.now(UTC)  # noqa: TID251

    def since_start_ms(self) -> int:
        return int((time.monotonic() - self._began_s) * 1000)  # noqa: TID251
