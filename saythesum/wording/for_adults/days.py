"""Days in words, for the adult."""

from datetime import date

_MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


def day_said(day: date) -> str:
    return f"{day.day} {_MONTHS[day.month - 1]}"
