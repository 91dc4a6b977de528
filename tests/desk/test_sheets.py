"""Sheets to save, and their answers typed in again."""

import re
from io import BytesIO
from pathlib import Path
from zipfile import ZipFile

import pytest

from saythesum.core.records.rows import Answer, Note, Purpose
from saythesum.office.grids import save_grid
from saythesum.office.papers.sheets import code_for
from saythesum.office.pupils import add_pupil, change_pupil
from tests.desk.application import NOW, Application, said
from tests.office.places import home_in
from tests.office.school import all_rows
from tests.reports.sheets.made_sheets import FERRY


@pytest.fixture
def app(tmp_path: Path) -> Application:
    places = home_in(tmp_path)
    save_grid(places, "harbour", FERRY)
    for code in ("mo", "rk-7"):
        add_pupil(places, code, NOW)
    change_pupil(places, "rk-7", {"sheets.print_size": "36", "sheets.braille_cells": "28"}, NOW)
    return Application(tmp_path)


def files_in(content: bytes) -> dict[str, bytes]:
    with ZipFile(BytesIO(content)) as packed:
        return {name: packed.read(name) for name in packed.namelist()}


def code(tmp_path: Path) -> str:
    return code_for(home_in(tmp_path), FERRY)


@pytest.mark.parametrize(
    ("kind", "made"),
    [
        ("print", {".html", "-answers.html", "-helper.html", ".pdf", "-answers.pdf"}),
        ("braille", {".brf", "-answers.brf", "-helper.html"}),
        ("sound", {"-helper.html"}),
    ],
)
def test_a_sheet_comes_as_one_file(app: Application, tmp_path: Path, kind: str, made: set[str]) -> None:
    answer = app.sends("/grids/harbour/sheet", **{"kind": kind, "for": "rk-7", "pdf": "yes"})
    assert answer.mimetype == "application/zip", said(answer)
    files = files_in(answer.get_data())
    assert {f"{code(tmp_path)}{ending}" for ending in made} < set(files)
    assert f"sheet-{code(tmp_path)}-{kind}.zip" in answer.headers["Content-Disposition"]
    about = files["about.txt"].decode().strip()
    assert about in said(app.asks("/"))
    if kind == "sound":
        assert [name for name in files if name.endswith(".wav")]


def test_a_sheet_is_by_the_settings_of_whom_it_is_for(app: Application, tmp_path: Path) -> None:
    mine, nobodys = (
        files_in(app.sends("/grids/harbour/sheet", **{"kind": "print", "for": whom}).get_data())
        for whom in ("rk-7", "")
    )
    assert b"N36 on A4" in mine["about.txt"] and b"N24 on A4" in nobodys["about.txt"]
    assert not any(name.endswith(".pdf") for name in nobodys)
    braille = files_in(app.sends("/grids/harbour/sheet", **{"kind": "braille", "for": "rk-7"}).get_data())
    lines = braille[f"{code(tmp_path)}.brf"].replace(b"\f", b"").split(b"\r\n")
    assert max(map(len, lines)) <= 28


def test_a_sheet_that_cannot_be_is_a_sentence_on_the_page(app: Application) -> None:
    answer = app.sends("/grids/harbour/sheet", **{"for": "nobody"})
    assert answer.status_code == 422 and "nobody" in said(answer)
    assert app.sends("/grids/nowhere/sheet").status_code in (409, 422)


def test_answers_come_back_by_the_sheets_code(app: Application, tmp_path: Path) -> None:
    app.sends("/grids/harbour/sheet", **{"kind": "braille", "for": "rk-7"})
    page = app.asks(f"/paper?code={code(tmp_path).upper()}")
    html = page.get_data(as_text=True)
    assert '<option value="rk-7" selected>' in html
    assert re.findall(r'<label for="cell-\d+">([^<]+)', html)[:3] == ["47 + 5", "47 + 8", "47 − 7"]
    practice = re.findall(r'name="practice" value="([^"]+)"', html)[0]
    given = {"code": code(tmp_path), "practice": practice, "for": "rk-7", "written": "brailler"}
    answers = {"cell-1": "52", "cell-2": "45", "cell-9": "29"}
    wrong = app.sends("/paper", **given, **answers, **{"cell-3": "forty", "cell-4": "12345"})
    assert wrong.status_code == 422 and all_rows(home_in(tmp_path)) == {}
    assert "“forty” is no answer" in said(wrong) and 'value="45"' in wrong.get_data(as_text=True)
    assert "is 9999; right would be" in said(app.sends("/paper", **given, **{"cell-3": "9999"}))
    assert "No answer was given" in said(app.sends("/paper", **given))
    assert app.sends("/paper", **given, **answers).status_code == 303
    assert "3 answers of rk-7 are kept as paper, 2 of them right, 6 left empty." in said(app.asks("/pupils/rk-7/"))
    [(pupil, rows, _)] = all_rows(home_in(tmp_path)).values()
    kept = [row for row in rows if isinstance(row, Answer)]
    assert pupil == "rk-7" and [row.given for row in kept] == [52, 45, 29]
    assert {row.purpose for row in kept} == {Purpose.PAPER}
    assert [row.value for row in rows if isinstance(row, Note)] == ["brailler"]
    again = app.sends("/paper", **given, **answers)
    assert again.status_code == 422 and "kept already" in said(again)
    assert len(all_rows(home_in(tmp_path))) == 1


def test_a_code_that_no_sheet_has_is_a_sentence_beside_it(app: Application, tmp_path: Path) -> None:
    wrong = app.asks("/paper?code=oars!")
    assert wrong.status_code == 422 and "is no sheet's code, or a letter of it is wrong" in said(wrong)
    app.sends("/grids/harbour/sheet", kind="print")
    nobodys = app.sends("/paper", code=code(tmp_path), **{"cell-1": "52"})
    assert nobodys.status_code == 422 and "Choose whose answers these are." in said(nobodys)


def test_a_sheet_that_was_never_made_has_no_answers(app: Application, tmp_path: Path) -> None:
    never = app.asks(f"/paper?code={code(tmp_path)}")
    assert never.status_code == 422 and "was made here" in said(never)
    assert app.sends("/paper", code=code(tmp_path), **{"cell-1": "52"}).status_code == 409
