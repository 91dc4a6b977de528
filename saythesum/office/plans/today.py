"""What the plan has for a pupil on a day: it decides what a start without any wish begins with."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from saythesum.core.aims import Aim
from saythesum.core.grids.facts import facts_named
from saythesum.core.grids.grid import Grid
from saythesum.core.records.times import utc_text
from saythesum.errors import CallerError
from saythesum.office.grids import open_grid
from saythesum.office.places import Places
from saythesum.office.plans.week import DOINGS, DayPlan, Doing, Ways, activities_said
from saythesum.office.plans.weeks import weeks
from saythesum.office.pupils import known_code
from saythesum.store.beside.entries import Entry, add_entries, entries_in
from saythesum.store.beside.entry_tables import Table

LONGEST_REASON = 200
REASONS = ("unwell", "away", "did not want to", "no time", "no quiet place", "something broke")
"""Why what was offered was not done; any other line may be given. Our own choice."""


@dataclass(frozen=True, slots=True)
class PlannedActivity:
    aim: Aim
    grid: Grid | None = None
    """None: the tool's own, or its choice."""


@dataclass(frozen=True, slots=True)
class ForToday:
    plan: str
    activities: tuple[PlannedActivity, ...]
    names: tuple[str, ...]
    """As the plan calls them."""
    ways: Ways
    note: str = ""
    troubles: tuple[str, ...] = ()
    """A sentence for each thing in the plan that cannot be taken, and each activity that cannot be done."""

    @property
    def said(self) -> str:
        return activities_said(self.names)


def for_today(places: Places, code: str, today: date) -> ForToday | None:
    """None where nothing is planned. Where two plans name the pupil, the first by its name holds.

    Looks into the plans' files only, so that it is quick, and damaged records are none of its business.
    """
    for name, week, troubles in weeks(places):
        if code in week.pupils or not week.pupils:
            planned = week.on(today)
            if planned and week.pupils:
                return _ready(places, name, week.note, planned, troubles)
            if troubles:
                return ForToday(name, (), (), Ways(), troubles=troubles)
    return None


def _ready(places: Places, name: str, note: str, planned: DayPlan, troubles: Sequence[str]) -> ForToday:
    activities: list[PlannedActivity] = []
    names: list[str] = []
    told = [*troubles]
    for one in planned.do:
        if one == Doing.PATTERNS and (not activities or activities[-1].aim is not Aim.PRACTISE):
            told.append(f"The plan {name} has {one} with no grid just before it: it is passed over.")
            continue
        try:
            activities.append(_activity(places, one))
            names.append(one)
        except CallerError:
            told.append(
                f"The plan {name} names the grid {one}, which is put away or cannot be read: it is passed over."
            )
    return ForToday(name, tuple(activities), tuple(names), planned.ways, note, tuple(told))


def _activity(places: Places, name: str) -> PlannedActivity:
    if facts := facts_named(name):
        return PlannedActivity(Aim.FACTS, facts.grid)
    if name in DOINGS:
        return PlannedActivity(_AIMS[Doing(name)])
    return PlannedActivity(Aim.PRACTISE, open_grid(places, name))


_AIMS = {Doing.CHOICE: Aim.PRACTISE, Doing.PROBE: Aim.PROBE, Doing.FIND_OUT: Aim.FIND_OUT, Doing.PATTERNS: Aim.TALK}


@dataclass(frozen=True, slots=True)
class NotDone:
    """Offered on a day, and not done."""

    at: str
    day: date
    plan: str
    do: tuple[str, ...]
    reason: str


def not_done(places: Places, given: str, day: date, reason: str, now: datetime) -> NotDone:
    """Keeps that what was planned for that day was offered and not done. Raises CallerError."""
    code = known_code(places, given)
    if not reason.strip() or len(reason) > LONGEST_REASON or not reason.isprintable():
        raise CallerError(f"The reason is one line of 1 to {LONGEST_REASON} characters, such as {REASONS[0]}.")
    if day > now.date():
        raise CallerError(f"{day} has not come yet: what was not done is kept for today or a day before.")
    planned = for_today(places, code, day)
    kept = NotDone(
        utc_text(now), day, planned.plan if planned else "", planned.names if planned else (), reason.strip()
    )
    fields = {"day": day.isoformat(), "plan": kept.plan, "do": list(kept.do), "reason": kept.reason}
    add_entries(places.records_file, {Table.OFFERS: [Entry(code, kept.at, fields)]})
    return kept


def offers_not_done(places: Places, code: str) -> tuple[NotDone, ...]:
    """Oldest first; of a day the newest counts, an earlier one is not told."""
    by_day: dict[date, NotDone] = {}
    for entry in entries_in(places.records_file, Table.OFFERS, code):
        fields = entry.fields
        if "reason" in fields:
            day = date.fromisoformat(fields["day"])
            by_day[day] = NotDone(entry.at, day, fields["plan"], tuple(fields["do"]), fields["reason"])
    return tuple(by_day[day] for day in sorted(by_day))
