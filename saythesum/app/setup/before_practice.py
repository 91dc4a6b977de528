"""What the adult is told before a practice begins, and what the plan of the week has for the pupil today."""

from collections.abc import Iterator
from contextlib import suppress
from datetime import datetime

from saythesum.app.setup.folders import Places
from saythesum.app.setup.privacy import open_to_others
from saythesum.app.terminal.console import tell
from saythesum.errors import StoreError
from saythesum.office.keeping import due_of, due_said, kept_elsewhere_said
from saythesum.office.plans.today import ForToday, for_today
from saythesum.office.plans.weeks import note_plans


def warnings(own: Places, code: str, now: datetime) -> Iterator[str]:
    """A sentence each: who else can read the records, where they lie, and whose time is over."""
    if warning := open_to_others(own):
        yield warning
    if warning := kept_elsewhere_said(own.data):
        yield warning
    with suppress(StoreError):  # damaged records are mended when the practice opens them
        if due := due_of(own, code, now.astimezone().date()):
            yield due_said(due)


def todays_plan(own: Places, code: str, now: datetime) -> ForToday | None:
    """Told to the adult; None where nothing is planned, or nothing of it can be done."""
    planned = for_today(own, code, now.astimezone().date())
    if planned is None:
        return None
    for sentence in planned.troubles:
        tell(sentence)
    if not planned.activities:
        return None
    with suppress(StoreError):
        note_plans(own, now)
    tell(f"The plan {planned.plan} has for {code} today: {planned.said}.")
    return planned
