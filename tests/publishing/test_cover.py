"""The half page for whoever sits beside the pupil, as PDF: read back by pdfplumber, its tags by pikepdf."""

from dataclasses import replace
from datetime import date
from io import BytesIO
from pathlib import Path

import pdfplumber
import pikepdf
import pytest

from saythesum.office.plans.cover_sheet import CoverSheet, cover_sheet
from saythesum.office.plans.week import LONGEST_TEXT, Day, DayPlan, Ways, WeekPlan
from saythesum.office.plans.weeks import save_plan
from saythesum.office.pupils import add_pupil
from saythesum.publishing.reports.cover import cover_as
from tests.office.places import home_in
from tests.office.school import NOW

MONDAY = date(2031, 5, 12)
NOTE = ("Sits by the window; the picture of the ferry is in the <b>blue</b> box. " * 3)[:LONGEST_TEXT].strip()


@pytest.fixture
def sheet(tmp_path: Path) -> CoverSheet:
    """With all that a plan can say, and a note as long as there can be."""
    places = home_in(tmp_path)
    add_pupil(places, "rk-7", NOW)
    week = WeekPlan(
        ("rk-7",), {Day.MONDAY: DayPlan(("choice", "probe"))}, note=NOTE, ways=Ways(by="voice", sums=12, minutes=10)
    )
    save_plan(places, "oars", week, NOW)
    return cover_sheet(places, "rk-7", MONDAY)


def test_it_is_half_a_side_with_a_heading_and_tags(sheet: CoverSheet) -> None:
    data = cover_as(".PDF", sheet)
    with pdfplumber.open(BytesIO(data)) as pdf:
        (side,) = pdf.pages
        down = max(word["bottom"] for word in side.extract_words()) / side.height
        print(f"half a page as PDF: {100 * down:.0f} % of a side")
        assert down <= 1 / 2
        text = " ".join(side.extract_text().split())
        assert text.startswith("rk-7, 12 May Practice, not a test") and NOTE in text
    tagged = pikepdf.open(BytesIO(data))
    assert str(tagged.Root.Lang) == "en-GB" and tagged.docinfo["/Title"] == "rk-7, 12 May"
    assert bool(tagged.Root.MarkInfo.Marked)


def test_every_form_says_the_same(sheet: CoverSheet) -> None:
    html, text = (cover_as(suffix, sheet).decode() for suffix in (".html", ".txt"))
    for about, words in replace(sheet, lines=sheet.lines[:-2]).lines:
        assert words in text and f"{about}:" * bool(about) in html
    assert "&lt;b&gt;blue" in html and "<b>blue" in text
