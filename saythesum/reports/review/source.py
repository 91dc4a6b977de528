"""What a report is made of: the kept rows of one pupil, and what adults decided, as values."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any
from uuid import UUID

from saythesum.core.aims import Aim
from saythesum.core.records.rows import Row


@dataclass(frozen=True, slots=True)
class PracticeRead:
    id: UUID
    began: date
    title: str
    """Of its first grid."""
    aims: tuple[Aim, ...]
    """Of its activities."""
    rows: Sequence[Row]
    """Those of this pupil."""
    days: Sequence[date]
    """When each of the rows was kept."""
    print_size: int
    """The window's step of size."""
    rate_wpm: int


@dataclass(frozen=True, slots=True)
class TargetSet:
    at: datetime
    sentence: str
    sums: str
    right: int
    of: int
    unaided: bool
    by: date


@dataclass(frozen=True, slots=True)
class SettingChange:
    day: date
    setting: str
    before: Any
    after: Any


@dataclass(frozen=True, slots=True)
class OfferNotDone:
    day: date
    reason: str


@dataclass(frozen=True, slots=True)
class Source:
    pupil: str
    practices: tuple[PracticeRead, ...] = ()
    """Oldest first, also those before the period."""
    targets: tuple[TargetSet, ...] = ()
    changes: tuple[SettingChange, ...] = ()
    not_done: tuple[OfferNotDone, ...] = ()
    unreadable: tuple[str, ...] = ()
    """A sentence for each practice or row that cannot be read."""


@dataclass(frozen=True, slots=True)
class Period:
    first: date
    last: date
    on: date
    """The day of the report."""

    def __contains__(self, day: date) -> bool:
        return self.first <= day <= self.last
