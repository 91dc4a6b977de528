"""Sheets and reports as pages in a browser, looked through by axe-core: no violation of WCAG 2.2 A or AA, with enhanced
contrast beside them."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from importlib.resources import files
from pathlib import Path

import pytest
from playwright.sync_api import Browser
from playwright.sync_api import Page as Tab

from saythesum.office.papers.reporting import class_lines, source_of
from saythesum.publishing.reports.forms import page_html
from saythesum.publishing.reports.making import PAGES
from saythesum.publishing.sheets.in_print import helper_html, sheet_html
from saythesum.reports.review.class_page import class_page
from saythesum.reports.review.review import counted
from saythesum.reports.review.source import Period
from saythesum.settings import Settings
from tests.office.places import home_in
from tests.reports.review.harbour import FIRST, LAST, ON, PUPIL, keep_all
from tests.reports.sheets.made_sheets import FERRY, sheet

AXE = (files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")
RULES = {
    "runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]},
    "rules": {"color-contrast-enhanced": {"enabled": True}},
    "resultTypes": ["violations"],
}


@pytest.fixture(scope="module")
def tab(browser: Browser) -> Iterator[Tab]:
    tab = browser.new_page()
    yield tab
    tab.close()


def violations(tab: Tab, html: str) -> list[str]:
    tab.set_content(html)
    tab.evaluate(AXE)
    found = tab.evaluate("rules => axe.run(document, rules)", RULES)
    return [f"{one['id']}: {one['nodes'][0]['html'][:80]}" for one in found["violations"]]


@pytest.fixture(scope="module")
def reports(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    home = home_in(tmp_path_factory.mktemp("harbour"))
    keep_all(home)
    of = counted(source_of(home, PUPIL), Period(FIRST, LAST, ON))
    pages = {name: make(of) for name, make in PAGES.items()}
    empty = counted(replace(of.source, practices=()), Period(date(2030, 1, 1), date(2030, 2, 1), ON))
    pages |= {f"{name}, empty": make(empty) for name, make in PAGES.items()}
    pages["class"] = class_page(tuple(class_lines(home, ON)), ON)
    return {name: page_html(page) for name, page in pages.items()}


def test_reports_are_for_everybody(tab: Tab, reports: dict[str, str]) -> None:
    assert len(reports) == 7
    assert {name: violations(tab, html) for name, html in reports.items()} == {name: [] for name in reports}


def test_sheets_are_for_everybody(tab: Tab) -> None:
    look = replace(Settings().sheets, colours="yellow on navy")
    assert violations(tab, sheet_html(sheet(FERRY, with_steps=True, with_line=True), look)) == []
    assert violations(tab, helper_html(sheet(FERRY), look)) == []


def test_what_is_looked_for_would_be_found(tab: Tab, tmp_path: Path) -> None:
    assert len(violations(tab, "<html><body><p style='color: #999'>grey</p><img src='x'></body></html>")) >= 3
