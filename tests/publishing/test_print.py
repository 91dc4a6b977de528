"""Large print, measured on the rendered page: WeasyPrint makes it, pdfplumber says where each character stands, and
poppler's picture of it says how high the ink is."""

import subprocess
from collections.abc import Sequence
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from typing import Any

import numpy as np
import pdfplumber
import pikepdf
import pytest

from saythesum.core.grids.grid import Grid
from saythesum.errors import CallerError
from saythesum.publishing.pdf import pdf_of
from saythesum.publishing.sheets.in_print import helper_html, layout_of, sheet_html
from saythesum.reports.sheets.print_layout import MARGIN_MM
from saythesum.reports.sheets.sheet import Sheet
from saythesum.settings import Colours, Paper, Settings, Sheets
from tests.reports.sheets.made_sheets import FERRY, WIDE, sheet

SMALL = replace(FERRY, starts=(47, 59), amounts=(5, 7), operations=("add", "take"))
BROAD = replace(WIDE, starts=WIDE.starts[:7], amounts=WIDE.amounts[:7])
DPI = 200
MM_A_POINT = 25.4 / 72
SMALLEST_MM = {25: 3.1, 50: 6.1, 70: 8.6}
"""By how far the eye is, in cm: EN 301 549 V3.2.1, 5.1.4, an angle of 0.7 degrees at a capital H."""


def look(points: int = 24, paper: Paper = "A4", colours: Colours = "black on white") -> Sheets:
    return replace(Settings().sheets, print_size=points, paper=paper, colours=colours)


def pages_in(pdf: bytes) -> Sequence[Any]:
    return pdfplumber.open(BytesIO(pdf)).pages


def ink_mm(folder: Path, pdf: bytes, character: str) -> float:
    """How high the first such character of the first page is."""
    (folder / "sheet.pdf").write_bytes(pdf)
    drawn = subprocess.run(
        ["pdftoppm", "-r", str(DPI), "-f", "1", "-l", "1", "-gray", folder / "sheet.pdf"],
        capture_output=True,
        check=True,
    ).stdout
    _, size, _, pixels = drawn.split(b"\n", 3)
    width, height = map(int, size.split())
    page = np.frombuffer(pixels, np.uint8).reshape(height, width)
    box = next(one for one in pages_in(pdf)[0].chars if one["text"] == character and one["top"] > 100)
    left, middle, right = (int(side * DPI / 72) for side in (box["x0"], (box["top"] + box["bottom"]) / 2, box["x1"]))
    near = int(0.75 * box["size"] * DPI / 72)  # a box of the font's own measures cuts off the tops
    rows = np.flatnonzero((page[middle - near : middle + near, left:right] < 128).any(axis=1))
    return float(rows[-1] - rows[0] + 1) / DPI * 25.4


@pytest.mark.parametrize("paper", ["A4", "A3"])
@pytest.mark.parametrize("points", [18, 24, 36, 48])
def test_digits_are_as_high_as_the_size_says_and_nothing_is_clipped(points: int, paper: Paper, tmp_path: Path) -> None:
    filled = sheet(SMALL, with_steps=True, with_line=True).filled
    pdf = pdf_of(sheet_html(filled, look(points, paper)))
    layout = layout_of(filled, look(points, paper))
    assert abs(ink_mm(tmp_path, pdf, "5") - layout.digit_mm) < 0.3
    least = MARGIN_MM / MM_A_POINT - 1
    for page in pages_in(pdf):
        assert {round(side * MM_A_POINT) for side in (page.width, page.height)} == set(
            {"A4": (210, 297), "A3": (297, 420)}[paper]
        )
        for one in page.chars:
            assert least <= one["x0"] and one["x1"] <= page.width - least, one["text"]
            assert least <= one["top"] and one["bottom"] <= page.height - least, one["text"]
            assert "Andika" in one["fontname"] and one["size"] >= 0.99 * points


def test_the_sizes_reach_what_the_standard_asks_for() -> None:
    """N24 is read to half a metre, nearly; N36 and N48 beyond. Of "about 24 pt Arial" Andika's digits miss 0.1 mm."""
    layouts = {points: layout_of(sheet(), look(points)) for points in (18, 24, 36, 48)}
    assert layouts[18].digit_mm > SMALLEST_MM[25] and layouts[36].digit_mm > SMALLEST_MM[70]
    assert abs(layouts[24].digit_mm - SMALLEST_MM[50]) < 0.15
    for points, layout in layouts.items():
        cm = layout.readable_to_cm
        assert 0.7 <= np.degrees(layout.digit_mm / 10 / cm) < 0.75, points


@pytest.mark.parametrize(("points", "paper"), [(48, "A4"), (36, "A4")])
def test_a_grid_that_is_too_wide_is_split_with_its_headers_on_every_page(points: int, paper: Paper) -> None:
    filled = sheet(BROAD).filled
    layout = layout_of(filled, look(points, paper))
    pages = pages_in(pdf_of(sheet_html(filled, look(points, paper))))
    assert len(pages) == len(layout.parts) > 1
    seen: dict[tuple[int, int], str] = {}
    for page, part in zip(pages, layout.parts, strict=True):
        assert f"Sheet gymyu, part {layout.parts.index(part) + 1} of {len(layout.parts)}" in " ".join(
            page.extract_text().split()
        )
        (table,) = page.extract_tables()
        assert table[0][1:] == [f"+{BROAD.amounts[column]}" for column in part.columns]
        for row, (start, *answers) in zip(part.rows, table[1:], strict=True):
            assert start == str(BROAD.starts[row])
            seen |= {(row, column): str(answer) for column, answer in zip(part.columns, answers, strict=True)}
    assert seen == {(cell.row, cell.column): str(filled.asked(cell).total) for cell in filled.cells}


def test_the_empty_sheet_has_no_answer_and_the_others_have_all() -> None:
    empty, filled = (sheet_html(one, look()) for one in (sheet(), sheet().filled))
    words = {word for page in pages_in(pdf_of(empty)) for word in page.extract_text().split()}
    answers = {str(sheet().asked(cell).total) for cell in sheet().cells}
    assert not (answers - {"59", "36", "47"}) & words
    assert answers <= {word for page in pages_in(pdf_of(filled)) for word in page.extract_text().split()}
    helper = helper_html(sheet(), look())
    assert "47 + 3 = 50, 50 + 2 = 52" in helper.replace("\xa0", " ")
    assert "Forty-seven and three is fifty. Two more is fifty-two." in helper


def test_taking_away_from_the_ten_has_its_own_steps() -> None:
    from_ten = replace(Settings().helping, taking_away="from the ten")
    one = Sheet("gymyu", Grid("One", (63,), (8,), operations=("take",)), from_ten)
    assert "60 − 8 = 52, 52 + 3 = 55" in helper_html(one, look()).replace("\xa0", " ")


def test_the_pdf_is_tagged() -> None:
    """Headings, header cells, alternative text, language and title; not a claim of PDF/UA."""
    pdf = pikepdf.open(BytesIO(pdf_of(sheet_html(sheet(with_steps=True, with_line=True), look()))))
    assert pdf.Root.MarkInfo.Marked and str(pdf.Root.Lang) == "en-GB"
    assert pdf.docinfo["/Title"] == "Seats on the ferry (gymyu)"
    nodes = list(_nodes(pdf.Root.StructTreeRoot))
    kinds = [str(node.S) for node in nodes]
    assert kinds.count("/H1") == 1 and kinds.count("/TH") == 6 and kinds.count("/Table") == 1
    figures = [str(node.get("/Alt", "")) for node in nodes if node.S == "/Figure"]
    assert "Number line from 46 to 57, starting at 47" in figures


def _nodes(node: Any) -> Any:
    kids = node.get("/K", [])
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield kid
            yield from _nodes(kid)


def test_a_title_with_markup_stays_words() -> None:
    html = sheet_html(Sheet("gymyu", replace(FERRY, title="<b>Oars</b> & more")), look())
    assert "&lt;b&gt;Oars&lt;/b&gt; &amp; more" in html and "<b>" not in html


def test_the_html_is_one_file_that_needs_no_other() -> None:
    html = sheet_html(sheet(with_line=True), look(colours="yellow on navy"))
    assert (
        "http" not in html.replace("http://www.w3.org/2000/svg", "") and "<link" not in html and "<script" not in html
    )
    assert "rgb(0, 0, 128)" in html and "rgb(255, 255, 0)" in html


def test_print_that_leaves_room_for_one_sum_only_is_refused() -> None:
    large = Grid("Large numbers on a very long title, which takes some lines too", (912, 847), (9, 8, 7))
    with pytest.raises(CallerError, match="At N48 one sum fits across A4 paper"):
        layout_of(Sheet("gymyu", large), look(48))
    assert layout_of(Sheet("gymyu", large), look(48, "A3")).parts
