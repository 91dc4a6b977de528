"""The pages for the technician and the data protection lead: what they say of files, ports and times is so."""

import re
from html import unescape

import pytest

from saythesum.desk.documents import __file__ as here
from saythesum.desk.pages.help import DOCUMENTS, as_html, title_of
from saythesum.desk.serving import HOST
from saythesum.office.keeping import REMIND_DAYS
from saythesum.settings import Desk, Listening
from saythesum.settings.reading import limits_of
from tests.app.command import TOP
from tests.office.places import home_in

FOLDER = TOP / "saythesum/desk/documents"
TEXTS = {name: (FOLDER / f"{name}.md").read_text(encoding="utf-8") for name in DOCUMENTS}


def test_every_document_is_shown_and_named_in_the_readme() -> None:
    assert here
    assert {file.stem for file in FOLDER.glob("*.md")} == set(DOCUMENTS)
    readme = (TOP / "README.md").read_text(encoding="utf-8")
    assert all(f"saythesum/desk/documents/{name}.md" in readme for name in DOCUMENTS)


def test_the_files_are_those_that_there_are() -> None:
    places = home_in(TOP)
    for file in (places.records_file, places.newest_rows_file, places.settings_file, places.grids, places.plans):
        assert f"`{file.name}`" in TEXTS["technician"]
    assert f"`pupils/{places.pupil_file('CODE').name}`" in TEXTS["technician"]


def test_the_address_and_the_times_are_those_of_the_program() -> None:
    assert f"answers at {HOST}," in TEXTS["technician"]
    assert Desk().unused_minutes == 4 * 60 and "after four hours without a page" in TEXTS["technician"]
    assert REMIND_DAYS == 30 and "a reminder comes a month before" in TEXTS["data-protection"]
    factor = limits_of(Listening, "vocal_tract_factor")
    assert factor.taken(1.0) == 1.0 and factor.taken(1.5) == 1.5
    assert "One number between 1.0 and 1.5" in TEXTS["data-protection"]


@pytest.mark.parametrize("name", DOCUMENTS)
def test_nothing_of_a_document_is_lost_on_its_page(name: str) -> None:
    words = re.sub(r"[#`*-]", " ", TEXTS[name].replace(f"# {title_of(TEXTS[name])}", "", 1)).split()
    page = unescape(re.sub(r"<[^>]*>", " ", str(as_html(TEXTS[name])))).replace("-", " ")
    assert page.split() == words


def test_what_looks_like_a_tag_stays_words() -> None:
    html = as_html("# A\n\n- <b>`<i>`").replace("\n", "")
    assert html == "<ul><li>&lt;b&gt;<code>&lt;i&gt;</code></li></ul>"
