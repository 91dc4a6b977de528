"""`saythesum sheet`: files and sentences, as a teacher meets them."""

from pathlib import Path

import pytest

from saythesum.app.cli.papers.sheet_answers import answers_given
from saythesum.core.grids.grid import Grid
from saythesum.errors import CallerError
from saythesum.office.papers.sheets import KeptSheet
from tests.app.command import Person, is_one_sentence

FERRY = 'title = "Seats on the ferry"\nadd = [5, 8]\ntake = [7]\nstart = [47, 59, 36]\n'


@pytest.fixture
def person(tmp_path: Path) -> Person:
    made = Person(tmp_path)
    made.writes("ferry.toml", FERRY)
    return made


def test_from_a_grid_to_braille_and_the_answers_back(person: Person) -> None:
    person.runs("pupils", "add", "rk-7", "sheets.braille_cells=32")
    made = person.runs("sheet", "ferry.toml", "--as", "braille", "--into", "out", "--pupil", "rk-7", "--line")
    assert made.code == 0, made.told
    assert made.shown[0] == "Sheet ohaok, of Seats on the ferry. Pages of 32 cells and 25 lines."
    assert made.shown[1:] == ["out/ohaok-answers.brf", "out/ohaok-helper.html", "out/ohaok.brf"]
    lines = (person.home / "out/ohaok.brf").read_bytes().decode("ascii").replace("\f", "").split("\r\n")
    assert lines[1] == ",SHEET OHAOK" and max(map(len, lines)) <= 32
    by_sum = person.runs("sheet", "answers", "ohaok", "47+5=52", "59-7=51", "--pupil", "rk-7", "--by", "brailler")
    assert by_sum.shown == ["2 answers of rk-7 kept as paper, 1 of them right, 7 left empty."]
    given = "52\n\nback\n55\nx\n40\nstop\n"
    aloud = person.runs("sheet", "answers", "ohaok", "--pupil", "rk-7", "--by", "said", given=given)
    assert aloud.shown[:4] == [
        "Sheet ohaok, Seats on the ferry. Type each answer; Enter alone for an empty cell, back, or stop.",
        *("Row 47: 47 + 5", "Row 47: 47 + 8", "Row 47: 47 − 7"),
    ]
    assert aloud.told == ['"x" is no answer; right would be a number, or - for an empty cell.']
    assert aloud.shown[-1] == "3 answers of rk-7 kept as paper, 3 of them right, 6 left empty."


def test_large_print_says_how_large_and_whether_it_fits(person: Person) -> None:
    made = person.runs("sheet", "ferry.toml", "--size", "36", "--into", "out")
    assert made.shown[0] == (
        "Sheet ohaok, of Seats on the ferry. N36 on A4: the grid fits on a page; digits are 9.1 mm high, large enough "
        "to 74 cm from the eye (EN 301 549, 5.1.4)."
    )
    assert made.shown[1:] == ["out/ohaok-answers.html", "out/ohaok-helper.html", "out/ohaok.html"]


def test_without_the_library_for_pdf_the_html_is_made_all_the_same(person: Person) -> None:
    person.writes("weasyprint.py", "raise ImportError")
    made = person.runs("sheet", "ferry.toml", "--pdf", "--into", "out", more={"PYTHONPATH": _with(person.home)})
    assert made.code == 0 and is_one_sentence(made.told)
    assert made.told[0].startswith("A PDF needs the library weasyprint: install it with pip install")
    assert sorted(file.suffix for file in (person.home / "out").iterdir()) == [".html"] * 3


def _with(folder: Path) -> str:
    return f"{folder}:{Path(__file__).resolve().parents[3]}"


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        ("99+5=104", 'The sheet ohaok has no sum "99\\+5"'),
        ("47+5=53", "47 \\+ 5 is given twice"),
        ("36+8=oar", "no answer"),
    ],
)
def test_an_answer_that_no_sum_of_the_sheet_has_is_a_sentence(wrong: str, says: str) -> None:
    sheet = KeptSheet("ohaok", Grid("Seats on the ferry", (47, 36), (5, 8)), "rk-7", "")
    assert answers_given(sheet, ("36+8=44", "47+5=52")) == (52, None, None, 44)
    with pytest.raises(CallerError, match=says):
        answers_given(sheet, ("47+5=52", wrong))


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("ferry.toml", "--as", "braille", "--cells", "10"), "A braille line of 10 cells is too short"),
        (("ferry.toml", "--as", "stone"), "--as cannot be 'stone'"),
        (("ferry.toml", "--size", "99"), "--size cannot be '99'; it is a whole number from 18 to 48"),
        (("ferry.toml", "more"), '"more" has no meaning after a grid'),
        (("nowhere.toml",), "There is no grid file nowhere.toml"),
        (("answers",), "CODE is missing"),
        (("answers", "ohaox"), '"ohaox" is no sheet\'s code'),
        (("ferry.toml", "--into", "/proc/nowhere"), "The folder /proc/nowhere cannot be written"),
    ],
)
def test_what_cannot_be_is_one_sentence_and_no_file(words: tuple[str, ...], says: str, person: Person) -> None:
    done = person.runs("sheet", *words, *(() if "--into" in words else ("--into", "out")))
    assert done.code == 2 and len(done.told) == 1 and says in done.told[0], done
    assert not (person.home / "out").exists() or not list((person.home / "out").iterdir())
    assert "sheets" not in "".join(done.shown)


def test_a_grid_of_forty_columns_is_refused_by_its_own_limits(person: Person) -> None:
    person.writes("wide.toml", f"add = {[5] * 40}\nstart = [47]\n")
    done = person.runs("sheet", "wide.toml")
    assert (done.code, len(done.told)) == (2, 1) and "at most 20 columns" in done.told[0]
