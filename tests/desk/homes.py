"""Homes in the states in which the desk is looked at."""

from collections.abc import Callable, Mapping
from datetime import UTC, date, datetime
from pathlib import Path

from saythesum.core.grids.grid import Grid
from saythesum.office.grids import put_grid_away, save_grid
from saythesum.office.keeping import keep_until
from saythesum.office.papers.sheets import keep_sheet
from saythesum.office.plans.week import Day, DayPlan, WeekPlan
from saythesum.office.plans.weeks import save_plan
from saythesum.office.pupils import Target, add_pupil, change_pupil, put_away, set_target
from saythesum.reports.sheets.code import code_of
from tests.office.places import home_in
from tests.office.school import keeps, some_answers
from tests.store.made_practices import BAKERY, answered, asked, practice

THEN = datetime(2026, 5, 14, 8, 0, tzinfo=UTC)
TARGET = Target("Crosses a ten on the ferry without help.", "crossing a ten", 8, 10, unaided=True, by=date(2031, 5, 1))
PRACTICE = practice("second", pupil="rk-7", grid_text=BAKERY)
ANSWER = answered(PRACTICE, 1)
HARBOUR = Grid("Boats in the harbour", (38, 57), (3, 5, 8))
SHEET_CODE = code_of(7)


def empty(home: Path) -> None:
    """As it is at the first time."""


def one_pupil(home: Path) -> None:
    """Who has practised, has a target and a day for the records; with grids of one's own."""
    places = home_in(home)
    add_pupil(places, "rk-7", THEN)
    change_pupil(places, "rk-7", {"speech.rate_wpm": "120", "window.colours": "yellow on navy"}, THEN)
    set_target(places, "rk-7", TARGET, THEN)
    keep_until(places, "rk-7", date(2026, 6, 1), THEN)
    keeps(places, *some_answers("first", "rk-7"))
    keeps(places, PRACTICE, (asked(PRACTICE, 0), ANSWER), minute=5)
    save_grid(places, "harbour", HARBOUR)
    keep_sheet(places, "rk-7", SHEET_CODE, HARBOUR, THEN)
    save_grid(places, "rope", Grid("Coils of rope", (38, 57), (3, 5, 8)))
    put_grid_away(places, "rope")
    week = WeekPlan(("rk-7",), dict.fromkeys(Day, DayPlan(("harbour", "probe"))), "The week of the harbour")
    save_plan(places, "week-20", week, THEN)
    (places.desk / "last-visit").parent.mkdir(parents=True)
    (places.desk / "last-visit").write_text("2026-05-01T08:00:00.000Z", encoding="utf-8")


def thirty(home: Path) -> None:
    """A class, three of them put away."""
    one_pupil(home)
    places = home_in(home)
    for number in range(1, 30):
        add_pupil(places, f"oar-{number}", THEN)
    for number in (3, 7, 11):
        put_away(places, f"oar-{number}", THEN)


def broken(home: Path) -> None:
    """Settings and a grid broken by hand."""
    one_pupil(home)
    places = home_in(home)
    places.pupil_file("rk-7").write_text("[speech]\nrate_wpm = fast\n", encoding="utf-8")
    places.settings_file.write_text("[speech]\nrate_wpm = 9\n[colour]\n", encoding="utf-8")
    (places.grids / "torn.toml").write_text("add = [0]\n", encoding="utf-8")


HOMES: Mapping[str, Callable[[Path], None]] = {
    "empty": empty,
    "one pupil": one_pupil,
    "thirty pupils": thirty,
    "broken by hand": broken,
}
