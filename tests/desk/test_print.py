"""Pages as the browser prints them on A4, read back by pdfplumber and by pdftotext's reading order."""

from collections.abc import Iterator
from io import BytesIO

import pdfplumber
import pytest
from playwright.sync_api import Browser
from playwright.sync_api import Page as Tab

from saythesum.office.plans.week import Day, DayPlan, WeekPlan
from saythesum.office.plans.weeks import save_plan
from tests.desk.opened import entered, opened
from tests.office.places import home_in
from tests.office.school import NOW
from tests.reports.review.harbour import FIRST, LAST, ON, PUPIL, keep_all

MOST_SIDES = 2
A4_PT = (595, 842)
"""Source: ISO 216, 210 by 297 mm, in points of 1/72 inch."""
OF_THE_DESK = ("Leave the desk", "Plain text", "Change sentences", "Skip to", "Records", "why it was not done")


@pytest.fixture(scope="module")
def tab(tmp_path_factory: pytest.TempPathFactory, browser: Browser) -> Iterator[Tab]:
    home = tmp_path_factory.mktemp("home")
    keep_all(home_in(home))
    note = "Sits by the window; the brailler stands on the shelf, and the ferry picture is in the blue folder."
    save_plan(
        home_in(home), "oars", WeekPlan((PUPIL,), dict.fromkeys(Day, DayPlan(("choice", "probe"))), note=note), NOW
    )
    with opened(home) as desk:
        context = browser.new_context(base_url=desk.address)
        tab = context.new_page()
        entered(tab, desk)
        yield tab
        context.close()


def printed(tab: Tab, path: str) -> tuple[list[str], float]:
    """The words of each side, and how far down the last side something stands, as a share of it."""
    tab.goto(path)
    with pdfplumber.open(BytesIO(tab.pdf(prefer_css_page_size=True))) as pdf:
        assert (round(pdf.pages[0].width), round(pdf.pages[0].height)) == A4_PT
        last = pdf.pages[-1]
        return [page.extract_text() for page in pdf.pages], max(
            one["bottom"] for one in last.extract_words()
        ) / last.height


def test_the_review_is_two_sides_and_nothing_of_the_desk(tab: Tab) -> None:
    sides, down = printed(tab, f"/pupils/{PUPIL}/report/review?from={FIRST}&to={LAST}&on={ON}")
    print(f"review: {len(sides)} sides, the last one to {100 * down:.0f} %")
    assert len(sides) <= MOST_SIDES
    assert "What this cannot say" in sides[-1]
    assert [words for words in OF_THE_DESK if words in "".join(sides)] == []


@pytest.mark.parametrize("whom", ["parent", "visit"])
def test_the_other_pages_are_one_side(tab: Tab, whom: str) -> None:
    sides, _ = printed(tab, f"/pupils/{PUPIL}/report/{whom}?from={FIRST}&to={LAST}&on={ON}")
    assert len(sides) == 1


def test_whoever_sits_beside_the_pupil_has_half_a_page(tab: Tab) -> None:
    sides, down = printed(tab, f"/pupils/{PUPIL}/today")
    print(f"half a page: {100 * down:.0f} % of a side")
    assert len(sides) == 1 and down <= 1 / 2
    assert "To do: a grid that the tool chooses, then a probe." in sides[0]
    assert [words for words in OF_THE_DESK if words in sides[0]] == []
