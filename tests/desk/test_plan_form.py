"""A week planned by choosing."""

import re
from html import unescape
from pathlib import Path

import pytest

from saythesum.office.grids import save_grid
from saythesum.office.plans.week import Day, DayPlan, Ways, WeekPlan
from saythesum.office.plans.weeks import save_plan, show_plan
from saythesum.office.pupils import add_pupil
from tests.desk.application import NOW, Application, Starts, said
from tests.desk.homes import HARBOUR
from tests.office.places import home_in

WEDNESDAY = Day.of(NOW.date())
CHOSEN = {"for": ["mo", "rk-7"], "name": "oars", "monday-first": "harbour", "monday-then": "probe"}


@pytest.fixture
def app(tmp_path: Path) -> Application:
    save_grid(home_in(tmp_path), "harbour", HARBOUR)
    for code in ("mo", "pip", "rk-7"):
        add_pupil(home_in(tmp_path), code, NOW)
    return Application(tmp_path, Starts())


def week_in(tmp_path: Path, name: str = "oars") -> WeekPlan:
    return show_plan(home_in(tmp_path), name).week


def as_shown(html: str) -> dict[str, object]:
    """What a browser would send of the plan's form as it stands."""
    form = html.split('action="/plans/form"')[1].split("</form>", maxsplit=1)[0]
    fields: dict[str, object] = {
        name: unescape(value) for name, value in re.findall(r'<input [^>]*name="([^"]+)"[^>]* value="([^"]*)"', form)
    }
    fields |= re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)"', form)
    for name, options in re.findall(r'<select id="([^"]+)".*?>(.*?)</select>', form, re.S):
        chosen = re.findall(r'value="([^"]*)" selected', options)
        fields[name] = chosen[0] if chosen else re.findall(r'value="([^"]*)"', options)[0]
    fields["for"] = re.findall(r'name="for" value="([^"]+)" checked', form)
    return {name: value for name, value in fields.items() if name != "token"}


def test_a_week_for_a_group_is_chosen_shown_and_started(app: Application, tmp_path: Path) -> None:
    days = {f"{WEDNESDAY}-first": "choice", "by": "keys", "sums": "12", "note": "By the window", "until": "2031-06-30"}
    answer = app.sends("/plans/form", **CHOSEN, **days)
    assert answer.status_code == 303, said(answer)
    week = week_in(tmp_path)
    assert week.pupils == ("mo", "rk-7") and week.ways == Ways(by="keys", sums=12)
    assert week.days == {Day.MONDAY: DayPlan(("harbour", "probe")), WEDNESDAY: DayPlan(("choice",))}
    page = said(app.asks("/plans/oars/"))
    assert "Monday the grid harbour, then a probe; by keys; at most 12 sums" in page
    assert "rk-7 Today: a grid that the tool chooses." in page and "Until 30 June 2031." in page
    assert "Start rk-7" in page and "Start pip" not in page
    assert "To do: a grid that the tool chooses." in said(app.asks("/pupils/mo/today"))
    assert "To do: the grid harbour, then a probe." in said(app.asks("/pupils/mo/today?on=2031-05-12"))
    assert "Nothing is planned for mo" in said(app.asks("/pupils/mo/today?on=2031-05-13"))
    assert "/pupils/mo/afterwards/?on=2031-05-14" in app.asks("/pupils/mo/today").get_data(as_text=True)


def test_what_the_form_shows_it_takes_back(app: Application, tmp_path: Path) -> None:
    app.sends("/plans/form", **CHOSEN, title="Oars & ropes", wording="brief", minutes="10", **{"from": "2031-05-01"})
    before = week_in(tmp_path)
    fields = as_shown(app.asks("/plans/form?plan=oars").get_data(as_text=True))
    assert fields["over"] == "yes" and fields["title"] == "Oars & ropes"
    assert app.sends("/plans/form", **fields).status_code == 303
    assert week_in(tmp_path) == before
    assert app.sends("/plans/form", **{**fields, "monday-then": ""}).status_code == 303
    assert week_in(tmp_path).days == {Day.MONDAY: DayPlan(("harbour",))}


def test_what_a_form_cannot_show_is_typed(app: Application, tmp_path: Path) -> None:
    for name, week in (
        ("three", WeekPlan(("mo",), {Day.MONDAY: DayPlan(("choice", "probe", "choice"))})),
        ("weekend", WeekPlan(("mo",), {Day.SUNDAY: DayPlan(("choice",))})),
        ("other-way", WeekPlan(("mo",), {Day.MONDAY: DayPlan(("choice",), Ways(by="keys"))})),
    ):
        save_plan(home_in(tmp_path), name, week, NOW)
        answer = app.asks(f"/plans/form?plan={name}")
        assert answer.status_code == 302 and answer.headers["Location"] == f"/plans/typed?plan={name}"


def test_what_is_wrong_is_told_and_what_was_chosen_stays(app: Application, tmp_path: Path) -> None:
    wrong = {
        "Tick at least one pupil.": {**CHOSEN, "for": []},
        "Choose what is done on at least one day.": {"for": ["mo"], "name": "oars"},
        "is no number; right would be for example 12.": {**CHOSEN, "sums": "many"},
        "is no day; right would be": {**CHOSEN, "until": "soon"},
        "The plan's name": {**CHOSEN, "name": "no name!"},
        "which is before from": {**CHOSEN, "from": "2031-06-01", "until": "2031-05-01"},
        "there is no pupil ghost here": {**CHOSEN, "for": ["ghost"]},
        "monday names the grid oars, which is not here": {**CHOSEN, "monday-then": "oars"},
    }
    for sentence, fields in wrong.items():
        answer = app.sends("/plans/form", **fields)
        assert answer.status_code == 422 and sentence in said(answer), said(answer)[:400]
        if fields.get("monday-first"):
            assert 'value="harbour" selected' in answer.get_data(as_text=True)
        assert not list((home_in(tmp_path)).plans.glob("*.toml"))
    assert app.sends("/plans/form", **CHOSEN).status_code == 303
    again = app.sends("/plans/form", **CHOSEN)
    assert again.status_code == 422 and "There is a plan oars already" in said(again)


def test_a_name_is_proposed_and_the_pupil_is_ticked(app: Application, tmp_path: Path) -> None:
    fields = as_shown(app.asks("/plans/form?for=pip").get_data(as_text=True))
    assert fields["for"] == ["pip"] and fields["name"] == "week-1"
    assert app.sends("/plans/form", **{**fields, "friday-first": "find-out"}).status_code == 303
    assert week_in(tmp_path, "week-1").days == {Day.FRIDAY: DayPlan(("find-out",))}
    assert 'value="week-2"' in app.asks("/plans/form").get_data(as_text=True)
