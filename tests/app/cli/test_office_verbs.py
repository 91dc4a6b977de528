"""Pupils and records by the command line."""

import json
import re
from datetime import date, timedelta
from pathlib import Path

from tests.app.command import Person


def test_from_a_pupil_to_a_file_to_another_computer_and_erased(tmp_path: Path) -> None:
    one, other = Person(tmp_path / "one"), Person(tmp_path / "other")
    for person in (one, other):
        person.home.mkdir()
    assert one.runs("pupils", "add", "rk-7", "speech.rate_wpm=120").shown == ["rk-7: new."]
    wrong = one.runs("pupils", "change", "rk-7", "speech.rate_wpm=fast")
    assert (wrong.code, wrong.told) == (2, ['speech.rate_wpm cannot be "fast"; it is a whole number from 80 to 400.'])
    one.runs("practise", "--by", "text", "--pupil", "rk-7", given="41\nstop there\n")
    given = one.runs("records", "give", "--into", tmp_path / "rk.json")
    assert given.code == 0, given.told
    assert json.loads((tmp_path / "rk.json").read_text())["count"]["pupils"] == 1
    came = other.runs("records", "take-in", tmp_path / "rk.json")
    assert re.match(r"Came in: 1 practice, \d+ rows, 0 moves, 2 targets and changes\.", came.shown[0]), came
    again = other.runs("records", "take-in", tmp_path / "rk.json")
    assert again.shown[0] == "Came in: 0 practices, 0 rows, 0 moves, 0 targets and changes."
    (answer,) = other.runs("records", "correct", "rk-7").shown
    assert "38 + 3: 41, right." in answer
    assert other.runs("records", "correct", "rk-7", answer.split()[-1], "--take-back").code == 0
    assert "taken back" in other.runs("records", "correct", "rk-7").shown[0]
    look = other.runs("records", "erase", "rk-7")
    assert look.shown[-1] == "Nothing is erased yet; say --yes to erase."
    assert other.runs("records", "erase", "rk-7", "--yes").shown[0].startswith("Erased of rk-7: 1 practice,")
    asked = other.runs("records", "take-in", tmp_path / "rk.json")
    assert asked.code == 2 and "which were erased here" in asked.told[0]
    assert other.runs("pupils", "list").shown == ["There is no pupil yet. Add one: saythesum pupils add rk-7"]


def test_a_grid_is_made_or_the_reason_said(tmp_path: Path) -> None:
    person = Person(tmp_path)
    made = person.runs("grid", "make", "harbour", "--crossing", "all", "--rows", "3", "--seed", "4")
    assert made.shown[-1:] == ["Practise it: saythesum practise --grid harbour"], made
    assert person.runs("grid", "check", "harbour").shown[1].startswith("9 sums: 9 crossing")
    never = person.runs("grid", "make", "none", "--starts", "41-43", "--amounts", "2-4", "--crossing", "all")
    assert never.code == 2 and "None of the starts fits with any of the amounts." in never.told[0]
    assert person.runs("grid", "make", "none", "--amounts", "few").code == 2


def test_a_grid_is_made_of_bonds_beyond_a_hundred_and_for_a_pupils_mistakes(tmp_path: Path) -> None:
    person = Person(tmp_path)
    over = ("--hundred", "across", "--starts", "80-99", "--bonds", "3", "--rows", "2", "--columns", "2")
    made = person.runs("grid", "make", "far", *over, "--title", "Over the bar", "--order", "shuffled")
    assert made.code == 0, made.told
    text = (tmp_path / "grids" / "far.toml").read_text()
    assert 'title = "Over the bar"' in text and 'order = "shuffled"' in text
    assert {93, 97} == {*map(int, re.findall(r"start = \[(\d+), (\d+)\]", text)[0])}, "by the bond of three and seven"
    none = person.runs("grid", "make", "none", "--hundred", "across", "--starts", "20-40")
    assert "There is one whether or not sums cross a hundred." in none.told[0]
    person.runs("practise", "--pupil", "rk-7", "--by", "text", given="40\n41\n40\n45\nstop there\n")
    asked_for = person.runs("grid", "make", "next", "--for", "rk-7", "--rows", "3")
    assert asked_for.shown[0].startswith("The last mistakes of rk-7 ask for crossing sums that tell apart"), asked_for
    assert "stopping at the ten" in asked_for.shown[0]
    nothing = person.runs("grid", "make", "more", "--for", "nobody")
    assert nothing.code == 2 and "There is no pupil nobody" in nothing.told[0]
    person.runs("pupils", "add", "mo")
    assert person.runs("grid", "make", "plain", "--for", "mo").shown[0] == (
        "No mistake of mo lately asks for anything: the grid is as wished."
    )


def test_how_long_records_are_kept(tmp_path: Path) -> None:
    person = Person(tmp_path)
    person.runs("pupils", "add", "rk-7")
    assert person.runs("records", "keep").shown == ["Nobody's records are due to go within a month."]
    day = date.today() + timedelta(days=3)  # noqa: DTZ011 - the command asks for the day as well
    kept = person.runs("records", "keep", "rk-7", "--until", str(day))
    assert kept.shown == [f"The records of rk-7 are kept until {day}."]
    soon = f"The records of rk-7 are to be kept until {day}: that is soon."
    assert person.runs("records", "keep").shown == [soon]
    assert soon in person.runs("--pupil", "rk-7", "--by", "text").told
    assert person.runs("records", "keep", "rk-7", "--until", "never").shown[0].endswith("without a date.")
    assert person.runs("records", "keep", "rk-7", "--until", "soon").code == 2


def test_icons_are_put_on_the_desktop(tmp_path: Path) -> None:
    desktop = tmp_path / "Desktop"
    for folder in (desktop, tmp_path / "home"):
        folder.mkdir()
    came = Person(tmp_path / "home").runs("shortcut", "--into", desktop)
    assert came.code == 0, came.told
    assert {file.name for file in desktop.iterdir()} == {"saythesum-practise.desktop", "saythesum-desk.desktop"}
    assert Person(tmp_path / "home").runs("shortcut", "--into", tmp_path / "none").code == 2
