"""Plans as files and as kept entries: what is planned, who is in it, and what has gone since."""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from saythesum.app.setup.folders import Places
from saythesum.core.aims import Aim
from saythesum.core.grids.grid import Grid
from saythesum.errors import CallerError
from saythesum.office.erasing import erase, look_at_erasing
from saythesum.office.giving import give
from saythesum.office.grids import put_grid_away, save_grid
from saythesum.office.plans.cover_sheet import cover_sheet
from saythesum.office.plans.today import for_today, not_done, offers_not_done
from saythesum.office.plans.week import DOINGS, Day, DayPlan, Ways, WeekPlan
from saythesum.office.plans.weeks import (
    kept_plans,
    list_plans,
    note_plans,
    put_plan_away,
    save_plan,
    show_plan,
)
from saythesum.office.pupils import add_pupil
from saythesum.office.taking_in import take_in
from tests.office.places import home_in
from tests.office.school import bytes_of

NOW = datetime(2031, 5, 12, 8, 0, tzinfo=UTC)
MONDAY = date(2031, 5, 12)
OARS = Grid("Rows of oars", (38, 57), (3, 5))
CODES = ("rk-7", "zq-93x", "b2")


def planned(folder: Path) -> Places:
    places = home_in(folder)
    for code in CODES:
        add_pupil(places, code, NOW)
    save_grid(places, "oars", OARS)
    save_plan(places, "harbour", week(), NOW)
    return places


def week(*pupils: str) -> WeekPlan:
    days = {Day.MONDAY: DayPlan(("oars", "probe")), Day.FRIDAY: DayPlan(("choice",), Ways(by="voice"))}
    return WeekPlan(pupils or CODES, days, note="The headset is in the blue box.", ways=Ways("keys", "brief", 12))


def test_a_day_has_its_activities_in_order_and_its_ways(tmp_path: Path) -> None:
    places = planned(tmp_path)
    today = for_today(places, "rk-7", MONDAY)
    assert today is not None
    assert [(one.aim, one.grid) for one in today.activities] == [(Aim.PRACTISE, OARS), (Aim.PROBE, None)]
    assert today.said == "the grid oars, then a probe"
    assert today.ways == Ways("keys", "brief", 12)
    friday = for_today(places, "b2", date(2031, 5, 16))
    assert friday is not None and friday.ways == Ways("voice", "brief", 12)
    assert for_today(places, "rk-7", date(2031, 5, 13)) is None
    assert for_today(places, "nobody", MONDAY) is None


def test_a_grid_put_away_since_is_said_and_the_rest_is_done(tmp_path: Path) -> None:
    places = planned(tmp_path)
    put_grid_away(places, "oars")
    today = for_today(places, "rk-7", MONDAY)
    assert today is not None
    assert [one.aim for one in today.activities] == [Aim.PROBE]
    assert today.troubles == (
        "The plan harbour names the grid oars, which is put away or cannot be read: it is passed over.",
    )
    (problem,) = show_plan(places, "harbour").problems
    assert "which was put away or cannot be read: bring it back, or name another." in problem


@pytest.mark.parametrize(
    "wrong, told",
    [
        (week("nobody"), "there is no pupil nobody here"),
        (WeekPlan(CODES, {Day.MONDAY: DayPlan(())}), "monday has no activities"),
        (WeekPlan(CODES, {}), "There is no day in the plan"),
        (WeekPlan((), {Day.MONDAY: DayPlan(("oars",))}), "pupils is missing or empty"),
        (WeekPlan(CODES, {Day.MONDAY: DayPlan(("boats",))}), "monday names the grid boats, which is not here; did you"),
        (WeekPlan(CODES, {Day.MONDAY: DayPlan(("oars",))}, ways=Ways(sums=0)), "sums has 0"),
    ],
)
def test_a_plan_that_could_not_be_done_is_refused_and_nothing_is_written(
    tmp_path: Path, wrong: WeekPlan, told: str
) -> None:
    places = planned(tmp_path)
    save_grid(places, "boat", OARS)
    before = bytes_of(places.plans)
    with pytest.raises(CallerError, match=told):
        save_plan(places, "harbour", wrong, NOW, over=True)
    with pytest.raises(CallerError, match="There is a plan harbour already"):
        save_plan(places, "harbour", week(), NOW)
    assert bytes_of(places.plans) == before


def test_what_was_planned_is_kept_whoever_wrote_it(tmp_path: Path) -> None:
    places = planned(tmp_path)
    file = places.plans / "harbour.toml"
    file.write_text(file.read_text().replace('["choice"]', '["find-out"]').replace(', "b2"', ""))
    later = NOW + timedelta(days=1)
    note_plans(places, later)
    note_plans(places, later)
    kept = kept_plans(places, "rk-7")
    assert [(one.plan, one.by) for one in kept] == [("harbour", "desk"), ("harbour", "elsewhere")]
    assert "find-out" in str(kept[1].text)
    assert [one.text for one in kept_plans(places, "b2")][1:] == [None], "no longer named"
    put_plan_away(places, "harbour", later)
    assert kept_plans(places, "rk-7")[-1].text is None
    assert list_plans(places) == () and len(list_plans(places, put_away=True)) == 1
    assert for_today(places, "rk-7", MONDAY) is None


def test_a_file_broken_by_hand_is_told_and_nothing_kept_is_lost(tmp_path: Path) -> None:
    places = planned(tmp_path)
    (places.plans / "harbour.toml").write_text("pupils = [rk-7]\n[monday]\n")
    note_plans(places, NOW)
    today = for_today(places, "rk-7", MONDAY)
    assert today is not None and today.activities == ()
    assert "harbour.toml: Line 1 cannot be read" in today.troubles[0]
    assert len(kept_plans(places, "rk-7")) == 1


def test_erasing_a_pupil_takes_them_out_of_plans_and_of_what_is_kept_of_others(tmp_path: Path) -> None:
    places = planned(tmp_path)
    save_plan(places, "alone", week("zq-93x"), NOW)
    assert {file.name for file in look_at_erasing(places, "zq-93x").plans} == {"harbour.toml", "alone.toml"}
    erase(places, "zq-93x", NOW)
    assert b"zq-93x" not in bytes_of(places.data)
    assert show_plan(places, "harbour").week.pupils == ("rk-7", "b2")
    assert not (places.plans / "alone.toml").exists()
    file = places.plans / "harbour.toml"
    file.write_text(file.read_text().replace('"rk-7"', '"rk-7", "zq-93x"'))
    (problem,) = show_plan(places, "harbour").problems
    assert "there is no pupil zq-93x here (perhaps erased)" in problem


def test_offered_and_not_done_is_kept_with_its_reason(tmp_path: Path) -> None:
    places = planned(tmp_path)
    not_done(places, "rk-7", MONDAY, "unwell", NOW)
    not_done(places, "rk-7", MONDAY, "fire drill", NOW + timedelta(minutes=5))
    (kept,) = offers_not_done(places, "rk-7")
    assert (kept.day, kept.plan, kept.do, kept.reason) == (MONDAY, "harbour", ("oars", "probe"), "fire drill")
    for reason in ("", "two\nlines", "x" * 201):
        with pytest.raises(CallerError, match="The reason is one line"):
            not_done(places, "rk-7", MONDAY, reason, NOW)
    with pytest.raises(CallerError, match="has not come yet"):
        not_done(places, "rk-7", MONDAY + timedelta(days=1), "away", NOW)
    with pytest.raises(CallerError, match="There is no pupil"):
        not_done(places, "nobody", MONDAY, "away", NOW)


def test_what_was_planned_and_offered_goes_to_another_computer(tmp_path: Path) -> None:
    places = planned(tmp_path / "one")
    not_done(places, "rk-7", MONDAY, "unwell", NOW)
    file = give(places, tmp_path / "all.json", NOW).file
    other = home_in(tmp_path / "other")
    take_in(other, file)
    assert kept_plans(other, "rk-7") == kept_plans(places, "rk-7")
    assert offers_not_done(other, "rk-7") == offers_not_done(places, "rk-7")


def test_the_page_for_a_cover_assistant_fits_half_a_page(tmp_path: Path) -> None:
    """At 90 letters a line, 11 points, half an A4 page holds about 30 lines (common practice)."""
    places = planned(tmp_path)
    sheet = cover_sheet(places, "rk-7", MONDAY)
    page = "\n".join([sheet.title, *(f"{about}: {text}" for about, text in sheet.lines)])
    assert sum(1 + len(line) // 90 for line in page.splitlines()) <= 30
    assert "saythesum" not in page, "no command for somebody who has never seen a terminal"
    for words in (
        "the grid oars, then a probe",
        '"Thirty-eight add three."',
        "after 12 sums",
        "blue box",
        'icon "Desk for sums"',
        'button "Start rk-7"',
        "F9",
        "12 May",
    ):
        assert words in page
    assert "the screen reader is on" not in page
    with pytest.raises(CallerError, match="Nothing is planned for rk-7 on 13 May"):
        cover_sheet(places, "rk-7", date(2031, 5, 13))


def test_every_word_of_a_plan_is_no_name_for_a_grid(tmp_path: Path) -> None:
    places = planned(tmp_path)
    for word in DOINGS:
        with pytest.raises(CallerError, match="means something else in a plan"):
            save_grid(places, word, OARS)
