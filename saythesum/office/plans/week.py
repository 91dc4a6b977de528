"""The plan of a week as its file has it: TOML that a teacher types, or the desk writes.

title   = "The week of the harbour"
pupils  = ["rk-7", "mo"]
by      = "keys"                 # how to answer; likewise wording, sums and minutes: here, or for one day

[monday]
do      = ["harbour", "probe"]   # grids by name; choice, probe, find-out; facts
sums    = 12                     # when to stop
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from enum import StrEnum
from typing import Any

import tomlkit

from saythesum.core.grids.facts import FACT_ACTIVITIES
from saythesum.errors import CallerError
from saythesum.office.grids import grid_name
from saythesum.settings import Length, Settings, Sitting, Start, Way, Wording
from saythesum.settings.reading import limits_of
from saythesum.settings.toml_text import Typed, first_of, rather, shown, shown_name, typed
from saythesum.store.pupils import pupil_code

EXAMPLE = 'do = ["ferry", "probe"], under a line [monday]'
LONGEST_TEXT = 200
MOST_ACTIVITIES = 8


class Day(StrEnum):
    """In the order of `date.weekday`."""

    MONDAY = "monday"
    TUESDAY = "tuesday"
    WEDNESDAY = "wednesday"
    THURSDAY = "thursday"
    FRIDAY = "friday"
    SATURDAY = "saturday"
    SUNDAY = "sunday"

    @staticmethod
    def of(day: date) -> "Day":
        return tuple(Day)[day.weekday()]


class Doing(StrEnum):
    """What is done besides a grid that is named."""

    CHOICE = "choice"
    """The tool chooses the grid."""
    PROBE = "probe"
    FIND_OUT = "find-out"
    PATTERNS = "patterns"
    """A talk about what stays the same in the grid just before it."""


DOINGS: tuple[str, ...] = (*Doing, *(facts.name for facts in FACT_ACTIVITIES))
"""What a plan calls that is no grid: the facts under the sums by their names."""


@dataclass(frozen=True, slots=True)
class Ways:
    """How it is done, and when to stop. None: as the pupil's own settings say."""

    by: Way | None = None
    wording: Length | None = None
    sums: int | None = None
    minutes: int | None = None

    def over(self, others: "Ways") -> "Ways":
        """These; what they leave open is as in `others`."""
        return Ways(*(own if own is not None else other for own, other in zip(_of(self), _of(others), strict=True)))

    def applied_to(self, settings: Settings) -> Settings:
        sitting = settings.sitting
        return replace(
            settings,
            start=replace(settings.start, by=self.by) if self.by else settings.start,
            wording=replace(settings.wording, length=self.wording) if self.wording else settings.wording,
            sitting=Sitting(self.sums or sitting.most_sums, self.minutes or sitting.most_minutes),
        )


def _of(ways: Ways) -> tuple[Any, ...]:
    return (ways.by, ways.wording, ways.sums, ways.minutes)


_LIMITS = {
    "by": limits_of(Start, "by"),
    "wording": limits_of(Wording, "length"),
    "sums": limits_of(Sitting, "most_sums"),
    "minutes": limits_of(Sitting, "most_minutes"),
}


@dataclass(frozen=True, slots=True)
class DayPlan:
    do: tuple[str, ...]
    """Names of grids, and words of `Doing`, in order."""
    ways: Ways = Ways()


@dataclass(frozen=True, slots=True)
class WeekPlan:
    pupils: tuple[str, ...] = ()
    days: Mapping[Day, DayPlan] = field(default_factory=dict)
    title: str = ""
    note: str = ""
    """One line for whoever sits beside the pupil."""
    ways: Ways = Ways()
    first: date | None = None
    last: date | None = None
    """The days within which it holds; without them, every week."""

    def on(self, day: date) -> DayPlan | None:
        """None where nothing is planned."""
        if (self.first and day < self.first) or (self.last and day > self.last):
            return None
        planned = self.days.get(Day.of(day))
        return replace(planned, ways=planned.ways.over(self.ways)) if planned else None


def week_from(text: str) -> tuple[WeekPlan, tuple[str, ...]]:
    """What can be taken of a plan's text, and a sentence for each problem in it."""
    try:
        written = typed(text, EXAMPLE)
    except CallerError as error:
        return WeekPlan(), (f"{error} Nothing in it is used.",)
    return _Reading(written).week()


class _Reading:
    def __init__(self, written: Typed) -> None:
        self._written = written
        self._problems: list[tuple[int, str]] = []

    def week(self) -> tuple[WeekPlan, tuple[str, ...]]:
        values = self._written.values
        for name in values:
            if name not in _KNOWN:
                self._wrong((name,), f"{shown_name(name)} is not part of a plan; {rather(name, _KNOWN)}")
        week = WeekPlan(
            pupils=self._pupils(values.get("pupils")),
            days={day: plan for day in Day if day in values and (plan := self._day(day, values[day]))},
            title=self._line("title"),
            note=self._line("note"),
            ways=self._ways((), values),
            first=self._date("from"),
            last=self._date("until"),
        )
        if not week.days and not any(day in values for day in Day):
            self._wrong((), "There is no day in the plan; a day looks like [monday] with a line do below it.")
        if week.first and week.last and week.first > week.last:
            self._wrong(("until",), f"until has {week.last}, which is before from, {week.first}.")
        in_order = sorted(self._problems, key=lambda problem: problem[0])
        return week, first_of([f"Line {line}: {sentence}" for line, sentence in in_order])

    def _wrong(self, path: tuple[str | int, ...], sentence: str) -> None:
        self._problems.append((self._written.line_of(*path), sentence))

    def _pupils(self, given: object) -> tuple[str, ...]:
        if not isinstance(given, list) or not given:
            self._wrong(("pupils",), 'pupils is missing or empty; it is a list of codes, such as ["rk-7", "mo"].')
            return ()
        codes: list[str] = []
        for one in given:
            try:
                codes.append(pupil_code(one if isinstance(one, str) else shown(one)))
            except CallerError as error:
                self._wrong(("pupils",), str(error))
        return tuple(dict.fromkeys(codes))

    def _day(self, day: Day, given: object) -> DayPlan | None:
        if not isinstance(given, Mapping):
            self._wrong((day,), f"{day} has {shown(given)}; it is [{day}] on a line of its own, with do below it.")
            return None
        for name in given:
            if name not in _OF_A_DAY:
                self._wrong((day, name), f"{shown_name(name)} is not part of a day; {rather(name, _OF_A_DAY)}")
        do = given.get("do")
        if not isinstance(do, list) or not do or len(do) > MOST_ACTIVITIES:
            sentence = f'{day} has no activities; do is a list of 1 to {MOST_ACTIVITIES}, such as ["ferry", "probe"].'
            self._wrong((day, "do"), sentence)
            return None
        activities = [name for one in do if (name := self._activity(day, one))]
        return DayPlan(tuple(activities), self._ways((day,), given)) if activities else None

    def _activity(self, day: Day, given: object) -> str | None:
        try:
            return grid_name(given if isinstance(given, str) else shown(given))
        except CallerError:
            words = ", ".join(DOINGS)
            self._wrong((day, "do"), f"do has {shown(given)}; it is the name of a grid, or one of {words}.")
            return None

    def _ways(self, path: tuple[str, ...], given: Mapping[str, object]) -> Ways:
        taken: dict[str, Any] = {}
        for name, limits in _LIMITS.items():
            if name in given:
                try:
                    taken[name] = limits.taken(given[name])
                except CallerError as right:
                    self._wrong((*path, name), f"{name} has {shown(given[name])}; it is {right}.")
        return Ways(**taken)

    def _line(self, name: str) -> str:
        given = self._written.values.get(name, "")
        if isinstance(given, str) and given.isprintable() and len(given) <= LONGEST_TEXT:
            return given.strip()
        self._wrong((name,), f"{name} has {shown(given)}; it is one line in quotes, at most {LONGEST_TEXT} characters.")
        return ""

    def _date(self, name: str) -> date | None:
        given = self._written.values.get(name)
        if given is None or type(given) is date:
            return given
        self._wrong((name,), f"{name} has {shown(given)}; it is a day such as 2031-05-12, without quotes.")
        return None


_OF_A_DAY = ("do", *_LIMITS)
_KNOWN = ("title", "pupils", "note", "from", "until", *_LIMITS, *Day)


def text_of(week: WeekPlan) -> str:
    """The plan's file. `week_from` reads it back without a problem."""
    written = tomlkit.document()
    if week.title:
        written["title"] = week.title
    written["pupils"] = list(week.pupils)
    if week.note:
        written["note"] = week.note
    for name, day in (("from", week.first), ("until", week.last)):
        if day:
            written[name] = day
    _add_ways(written, week.ways)
    for name in Day:
        if plan := week.days.get(name):
            table = tomlkit.table()
            table["do"] = list(plan.do)
            _add_ways(table, plan.ways)
            written[name.value] = table
    return tomlkit.dumps(written)


def _add_ways(into: Any, ways: Ways) -> None:
    for name, value in zip(_LIMITS, _of(ways), strict=True):
        if value is not None:
            into[name] = value


def without_pupil(text: str, code: str) -> str | None:
    """The plan's text without that pupil, all else as it was typed, unless that names the pupil, too; None where
    nobody is left."""
    week, _ = week_from(text)
    left = tuple(one for one in week.pupils if one != code)
    if not left:
        return None
    try:
        written = tomlkit.parse(text)
        written["pupils"] = list(left)
        as_typed = tomlkit.dumps(written)
    except ValueError:  # what we can read and tomlkit cannot: curly quotes, say
        as_typed = code
    if code not in as_typed.lower():
        return as_typed
    title, note = ("" if code in line.lower() else line for line in (week.title, week.note))
    return text_of(replace(week, pupils=left, title=title, note=note))


def activities_said(do: Sequence[str]) -> str:
    """ "the grid ferry, then a probe": as a person would say it."""
    return ", then ".join(_SAID.get(name, f"the grid {name}") for name in do)


def day_plan_said(plan: DayPlan, over: Ways) -> str:
    """What is done, how, and when it stops. `over`: of the whole week."""
    ways = plan.ways.over(over)
    parts = [
        f"by {ways.by}" if ways.by else "",
        f"{ways.wording} wording" if ways.wording else "",
        f"at most {ways.sums} sums" if ways.sums else "",
        f"at most {ways.minutes} minutes" if ways.minutes else "",
    ]
    return "; ".join([activities_said(plan.do), *(part for part in parts if part)])


_SAID = {
    Doing.CHOICE.value: "a grid that the tool chooses",
    Doing.PROBE.value: "a probe",
    Doing.FIND_OUT.value: "finding out",
    Doing.PATTERNS.value: "a talk about a pattern",
    **{facts.name: f"the facts {facts.name}" for facts in FACT_ACTIVITIES},
}
