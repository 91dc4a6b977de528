"""The class page: who needs which grid next, who has not practised, whose doubts wait. By code, and no ranking."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from saythesum.reports.page import Page, Section, Table
from saythesum.reports.review import said_review
from saythesum.wording.for_adults.days import day_said

LONG_DAYS = 7
"""Without practice, before it is said. Source: effective help comes three to five times a week (Education Endowment
Foundation)."""


@dataclass(frozen=True, slots=True)
class PupilLine:
    code: str
    last: date | None
    next: str
    """What comes next, in words."""
    doubts: int
    """Answers of the last practice that were not heard for sure."""


def class_page(lines: Sequence[PupilLine], on: date) -> Page:
    rows = tuple((one.code, one.next, day_said(one.last) if one.last else "never") for one in lines)
    table = Table("By code", ("Pupil", "Next", "Last practice"), rows) if rows else None
    waiting = [f"{one.code}: {one.doubts} answers of the last practice" for one in lines if one.doubts]
    long_ago = [one for one in lines if one.last is None or (on - one.last).days > LONG_DAYS]
    away = [f"{one.code}: {f'since {day_said(one.last)}' if one.last else 'never yet'}" for one in long_ago]
    return Page(
        "The class",
        f"On {said_review.day(on)}. The order is that of the codes; nobody is compared with anybody.",
        (
            Section("next", "Who needs what next", () if rows else ("There is no pupil yet.",), table),
            Section("away", f"Not practised for more than {LONG_DAYS} days", tuple(away) or ("Nobody.",)),
            Section("doubts", "Doubts that wait to be looked at", tuple(waiting) or ("None.",)),
        ),
    )
