"""Pupils and records by the command line."""

import json
import re
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
