"""Stories at the keyboard alone, in a browser in which no script runs."""

import json
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser
from playwright.sync_api import Page as Tab

from saythesum.office.pupils import add_pupil
from saythesum.store.reading import kept_grid
from tests.desk.hands import Hands
from tests.desk.homes import one_pupil
from tests.desk.opened import OpenDesk, opened
from tests.desk.practising import answered, asked, end_practices, practice_of, waited_for
from tests.desk.two_minutes import two_minutes
from tests.office.places import home_in
from tests.office.school import NOW, all_rows, bytes_of
from tests.office.test_afterwards import practised
from tests.tools.x_server import x_server

MOST_PRESSES = 40
WEEK = 60
"""Presses from the first page to a plan for three pupils. Our own choice: a minute of them."""
TEN = 10
"""Presses for the two minutes afterwards."""


@pytest.fixture
def tab(browser: Browser) -> Iterator[Tab]:
    context = browser.new_context(java_script_enabled=False, accept_downloads=True)
    yield context.new_page()
    context.close()


def test_from_an_empty_home_to_a_pupil_who_practises_a_grid_of_ones_own(tmp_path: Path, tab: Tab) -> None:
    home = tmp_path / "home"
    home.mkdir()
    with x_server(tmp_path) as screen:
        try:
            with opened(home, more=screen.environment) as desk:
                hands = Hands(tab)
                _to_a_practice(hands, desk)
                print(f"{hands.count} key presses: {' '.join(hands.pressed)}")
                assert hands.count <= MOST_PRESSES
            # The desk has ended; the practice goes on, and a pupil answers.
            question = waited_for(lambda: asked(home, "m1"))
            practice = waited_for(lambda: practice_of(home, "m1"))
            grid = kept_grid(practice.grid_text)
            assert (len(grid.starts), len(grid.amounts)) == (4, 3)
            total = grid.starts[question.row or 0] + grid.amounts[question.column or 0]
            screen.keys(*str(total), "Return")
            answer = waited_for(lambda: answered(home, "m1"))
            assert (answer.given, answer.right) == (total, True)
        finally:
            end_practices(home)


def _to_a_practice(hands: Hands, desk: OpenDesk) -> None:
    """What somebody does who has never been here."""
    hands.enters(desk)
    hands.goes_to("Add a pupil").goes_on()
    hands.types("m1").goes_on()
    assert hands.reads() == "m1"
    hands.goes_to("Make a grid for m1").goes_on()
    assert hands.has_focus() == "Make it as wished below"
    hands.goes_on()
    assert hands.reads() == "A grid as wished"
    assert hands.has_focus() == "Save it for m1"
    hands.goes_on()
    hands.goes_to("Start m1").goes_on()
    assert "The practice of m1 has begun" in hands.tab.inner_text(".notice")


def test_given_out_erased_and_taken_in_it_is_all_there_again(tmp_path: Path, tab: Tab) -> None:
    one_pupil(tmp_path)
    places = home_in(tmp_path)
    rows, settings = all_rows(places), places.pupil_file("rk-7").read_text(encoding="utf-8")
    with opened(tmp_path) as desk:
        hands = Hands(tab)
        hands.enters(desk)
        hands.goes_to("Records").goes_on()
        hands.goes_to("Give the records out")
        with tab.expect_download() as download:
            hands.presses("Enter")
        file = tmp_path.parent / f"{tmp_path.name}.json"
        download.value.save_as(file)
        before = json.loads(file.read_text(encoding="utf-8"))

        hands.goes_to("Pupils").goes_on()
        hands.goes_to("rk-7").goes_on()
        hands.goes_to("Erase the records").goes_on()
        hands.goes_to("To erase all of it, type rk-7").types("rk-7").goes_on()
        assert hands.reads() == "rk-7 is erased"
        assert f"Erased: {places.pupil_file('rk-7')}" in tab.inner_text("main")
        assert all_rows(places) == {}
        assert b"rk-7" not in bytes_of(tmp_path)

        hands.goes_to("Records").goes_on()
        hands.goes_to("Take a file of records in").goes_on()
        hands.goes_to("File of records")
        with tab.expect_file_chooser() as chooser:
            hands.presses("Space")
        chooser.value.set_files(file)
        hands.goes_to("Look into it").goes_on()
        assert hands.reads() == "What would come in"
        assert all_rows(places) == {}
        hands.goes_to("rk-7 was erased here: bring rk-7 back").presses("ArrowDown")
        hands.goes_to("Take it in").goes_on()
        assert hands.reads() == "Taken in"
        print(f"{hands.count} key presses from the first page to all taken in again")
    assert all_rows(places) == rows
    assert places.pupil_file("rk-7").read_text(encoding="utf-8") == settings
    assert before["count"]["rows"] == sum(len(kept[1]) for kept in rows.values())


def test_the_two_minutes_afterwards_take_ten_presses(tmp_path: Path, tab: Tab) -> None:
    places = home_in(tmp_path)
    add_pupil(places, "rk-7", NOW)
    practised(places, unsure=6)
    with opened(tmp_path) as desk:
        hands = Hands(tab)
        hands.enters(desk)
        two_minutes(hands, desk)
        print(f"{hands.count} presses, and the pupil's words typed")
        assert hands.count <= TEN


def test_a_week_is_planned_for_three_pupils(tmp_path: Path, tab: Tab) -> None:
    places = home_in(tmp_path)
    for code in ("mo", "pip", "rk-7"):
        add_pupil(places, code, NOW)
    with opened(tmp_path) as desk:
        hands = Hands(tab)
        hands.enters(desk)
        hands.goes_to("Plans").goes_on()
        hands.goes_to("Make a plan").goes_on()
        for code in ("mo", "pip", "rk-7"):
            hands.goes_to(code).presses("Space")
        for day in ("Monday", "Wednesday", "Friday"):
            hands.goes_to(day).presses("ArrowDown")
        hands.goes_to("Friday, then").types("A p")
        hands.goes_to("Save the plan").goes_on()
        assert hands.reads() == "week-1"
        print(f"{hands.count} presses from the first page to a week for three pupils")
        assert hands.count <= WEEK
        week = {"do": ["choice"]}
        planned = tomllib.loads((places.plans / "week-1.toml").read_text(encoding="utf-8"))
        assert planned == {
            "pupils": ["mo", "pip", "rk-7"],
            "monday": week,
            "wednesday": week,
            "friday": {"do": ["choice", "probe"]},
        }
