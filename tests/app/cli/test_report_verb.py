"""`saythesum report`: files and sentences, as a teacher meets them."""

import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from saythesum.store.beside.opening import opened_to_write
from saythesum.store.columns import insert_row
from tests.app.command import Person, is_one_sentence
from tests.office.places import home_in
from tests.reports.review.harbour import PUPIL, keep_all

DATES = ("--from", "2031-01-06", "--to", "2031-04-08", "--on", "2031-04-08")


@pytest.fixture(scope="module")
def person(tmp_path_factory: pytest.TempPathFactory) -> Person:
    folder = tmp_path_factory.mktemp("harbour")
    keep_all(home_in(folder))
    return Person(folder)


def test_each_form_and_each_reader_has_a_file(person: Person) -> None:
    for form, ending in (("html", "html"), ("csv", "csv"), ("json", "json"), ("text", "txt")):
        done = person.runs("report", PUPIL, *DATES, "--as", form, "--into", "out")
        assert done.shown == [f"out/rk-7-review-2031-04-08.{ending}"], done
    assert json.loads((person.home / "out/rk-7-review-2031-04-08.json").read_text())["format"] == "saythesum report"
    for whom in ("parent", "visit"):
        assert person.runs("report", PUPIL, *DATES, "--for", whom, "--into", "out").code == 0
    assert person.runs("report", "--for", "class", "--into", "out").code == 0
    today = person.runs("report", PUPIL, "--for", "today", "--on", "2031-04-03")
    assert today.shown == ["rk-7, 2031-04-03: 10 sums, 8 of 10 right at the first try and unaided."]


def test_without_the_library_for_pdf_it_is_html(person: Person) -> None:
    person.writes("weasyprint.py", "raise ImportError")
    path = f"{person.home}:{Path(__file__).resolve().parents[3]}"
    done = person.runs("report", PUPIL, *DATES, "--as", "pdf", "--into", "pdf", more={"PYTHONPATH": path})
    assert done.code == 0 and done.told[0].startswith("A PDF needs the library weasyprint")
    assert done.shown == ["pdf/rk-7-review-2031-04-08.html"]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--from", "2031-04-08", "--to", "2031-01-06", PUPIL), "--from 2031-04-08 is after --to 2031-01-06"),
        (("--from", "8 April", PUPIL), "--from cannot be '8 April'; it is a day, such as 2031-04-04"),
        (("nobody",), "There is no pupil nobody"),
        ((), "CODE is missing"),
        (("--for", "class", PUPIL), "leave the code out"),
        ((PUPIL, "--into", "/proc/nowhere"), "The folder /proc/nowhere cannot be written"),
    ],
)
def test_what_cannot_be_is_one_sentence(words: tuple[str, ...], says: str, person: Person) -> None:
    done = person.runs("report", *words)
    assert done.code == 2 and is_one_sentence(done.told) and says in done.told[0], done


def test_a_row_of_a_newer_version_is_named_and_the_rest_counts(tmp_path: Path) -> None:
    home = home_in(tmp_path)
    keep_all(home)
    with closing(opened_to_write(home.records_file)) as connection:
        _add_a_row_of_a_newer_version(connection)
    done = Person(tmp_path).runs("report", PUPIL, *DATES, "--as", "text", "--into", tmp_path)
    text = " ".join((tmp_path / "rk-7-review-2031-04-08.txt").read_text().split())
    assert done.code == 0
    assert "is left aside" in text and "Baseline, 7 January 2031: 3 of 8 right." in text


def _add_a_row_of_a_newer_version(connection: sqlite3.Connection) -> None:
    practice, serial = connection.execute("SELECT practice, max(serial) + 1 FROM rows GROUP BY 1 LIMIT 1").fetchone()
    fields = json.dumps({"of": None, "what": "hummed", "value": "", "by": "adult"})
    insert_row(connection, (practice, serial, "an-id", "note", "2031-04-08T09:00:00.000Z", 0, fields))
