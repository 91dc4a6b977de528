"""Taking in, erasing and planning, killed before a statement: all or nothing, and again to the end.

Moving, by the desk, is in `tests/desk/test_killed.py`. `python -m tests.tools.kills.office` kills them at every system
call that changes a file.
"""

from collections.abc import Callable
from itertools import count
from pathlib import Path
from shutil import copytree, rmtree

import pytest

from saythesum.app.setup.folders import Places
from saythesum.office.erasing import erase, finish_erasing
from saythesum.office.giving import give
from saythesum.office.plans.week import Day, DayPlan, WeekPlan
from saythesum.office.plans.weeks import kept_plans, save_plan, show_plan
from saythesum.office.pupils import add_pupil
from saythesum.office.taking_in import take_in
from saythesum.store.records import SqliteStore
from tests.office.killing import killed_at
from tests.office.places import home_in
from tests.office.school import NOW, all_rows, bytes_of, keeps, more, some_answers

CODE = "zq-93x"
State = object
EVERY = 3
"""Statements from one kill to the next."""
MOST = 400
"""Statements. No operation here has so many."""


def at_statements(
    folder: Path, begun: Path, act: Callable[[Places], object], look: Callable[[Places], State], every: int = EVERY
) -> list[State]:
    """What was found after each kill, whoever looks next."""
    whole = folder / "whole"
    copytree(begun, whole)
    act(home_in(whole))
    after = look(home_in(whole))
    rmtree(whole)
    found = []
    for statement in count(step=every):
        assert statement < MOST
        home = folder / "home"
        rmtree(home, ignore_errors=True)
        copytree(begun, home)
        places = home_in(home)
        is_killed = killed_at(statement, lambda places=places: act(places))  # type: ignore[misc]
        found.append(look(places))
        if not is_killed:
            return found
        act(places)
        assert look(places) == after, statement
    raise AssertionError


def before_and_after(found: list[State], before: State) -> None:
    """Nothing, up to some statement, and everything from there on."""
    changed = next(place for place, one in enumerate(found) if one != before)
    assert 0 < changed < len(found)
    assert all(one == found[-1] for one in found[changed:])


def test_taking_in_from_another_laptop(tmp_path: Path) -> None:
    here, there = home_in(tmp_path / "here"), home_in(tmp_path / "there")
    both, rows = some_answers("both", "ab")
    for places, minute, continued in ((here, 30, 2), (there, 20, 4)):
        keeps(places, both, rows[:3])
        keeps(places, both, more(both, 3, continued), minute)
    file = give(there, tmp_path / "there.json", NOW).file
    before = all_rows(here)
    found = at_statements(tmp_path, here.data, lambda places: take_in(places, file), all_rows)
    before_and_after(found, before)


def test_erasing(tmp_path: Path) -> None:
    """Once the rows have gone, whoever opens the records next finishes it, and no byte is left."""
    begun = home_in(tmp_path / "begun")
    for code in (CODE, "ab"):
        add_pupil(begun, code, NOW)
        keeps(begun, *some_answers(code, code))
    week = WeekPlan((CODE, "ab"), {Day.MONDAY: DayPlan(("ferry",))})
    save_plan(begun, "harbour", week, NOW)
    states = set()
    for statement in count(step=2):  # of one that is in between two states for a few statements only
        home = tmp_path / "home"
        rmtree(home, ignore_errors=True)
        copytree(begun.data, home)
        places = home_in(home)
        is_killed = killed_at(statement, lambda places=places: erase(places, CODE, NOW))  # type: ignore[misc]
        store = SqliteStore(places.records_file)
        finished = finish_erasing(places, store, NOW)
        known = store.pupils()
        store.close()
        is_left = CODE.encode() in bytes_of(home)
        assert is_left is (CODE in known), statement
        states.add((bool(finished), is_left))
        assert "ab" in known and show_plan(places, "harbour").week.pupils[-1] == "ab"
        if not is_killed:
            break
    assert states == {(False, True), (True, False), (False, False)}


@pytest.mark.parametrize("over", [False, True])
def test_a_plan_that_is_saved(tmp_path: Path, over: bool) -> None:
    begun = home_in(tmp_path / "begun")
    add_pupil(begun, "ab", NOW)
    if over:
        save_plan(begun, "harbour", WeekPlan(("ab",), {Day.FRIDAY: DayPlan(("probe",))}), NOW)
    week = WeekPlan(("ab",), {Day.MONDAY: DayPlan(("ferry",))})

    def look(places: Places) -> tuple[bytes, int]:
        file = places.plans / "harbour.toml"
        return (file.read_bytes() if file.exists() else b"", 0)

    before = look(begun)
    found = at_statements(tmp_path, begun.data, lambda places: save_plan(places, "harbour", week, NOW, over=True), look)
    before_and_after(found, before)
    assert kept_plans(home_in(tmp_path / "home"), "ab")[-1].plan == "harbour"
