"""Times as the pages say them."""

from datetime import date, datetime


def day(at: str | date) -> str:
    """ "14 May 2031"."""
    on = at if isinstance(at, date) else datetime.fromisoformat(at).astimezone().date()
    return f"{on.day} {on:%B %Y}"


def day_and_time(at: str | datetime) -> str:
    """ "14 May 2031, 10:05", by the clock of this machine. `at`: UTC, ISO 8601."""
    moment = (at if isinstance(at, datetime) else datetime.fromisoformat(at)).astimezone()
    return f"{moment.day} {moment:%B %Y, %H:%M}"
