"""Times as the records have them."""

from datetime import UTC, datetime


def utc_text(moment: datetime) -> str:
    """ISO 8601 with milliseconds: 2031-05-12T09:30:00.250Z."""
    return moment.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
