"""The tables of what adults decide about a pupil."""

from enum import StrEnum


class Table(StrEnum):
    TARGETS = "targets"
    PLANS = "plans"
    OFFERS = "offers"
    CHANGES = "changes"
    SHEETS = "sheets"
