"""What of the adult's list is said: all of it the first time in a turn, then only the lines that have changed."""


class ChangedLines:
    """Remembers what the adult has heard in this turn, for the list of marks and each list of kinds behind it."""

    def __init__(self) -> None:
        self._heard: dict[str, tuple[str, ...]] = {}

    def to_say(self, lines: tuple[str, ...]) -> tuple[str, ...]:
        """`lines`: as they are shown; none once the turn is given back. Where nothing has changed, what it is about."""
        if not lines:
            self._heard.clear()
            return ()
        heading = next((line for line in lines if line.endswith(":")), "")
        before = self._heard.get(heading, ())
        self._heard[heading] = lines
        return tuple(line for line in lines if line not in before) or lines[:1]
