from datetime import UTC, datetime, timedelta

EPOCH = datetime(2031, 5, 12, 9, 30, tzinfo=UTC)


class FakeClock:
    """Stands still until it is moved on."""

    def __init__(self, at_ms: int = 0) -> None:
        self._at_ms = at_ms

    def pass_ms(self, ms: int) -> None:
        self._at_ms += ms

    def now(self) -> datetime:
        return EPOCH + timedelta(milliseconds=self._at_ms)

    def since_start_ms(self) -> int:
        return self._at_ms
