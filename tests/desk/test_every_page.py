"""Every page in every state: for those who see little, hear it, or use keys alone.

Source: WCAG 2.2, by axe-core's rules for levels A and AA, with enhanced contrast (1.4.6) beside them; 1.4.10 for the
window of 320 CSS pixels, which is one of 1280 at 400 %.
"""

import json
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, ViewportSize
from playwright.sync_api import Page as Tab

from tests.desk.every_page import PAGES, Page
from tests.desk.homes import HOMES
from tests.desk.opened import entered, opened

AXE = (files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")
RULES = {
    "runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]},
    "rules": {"color-contrast-enhanced": {"enabled": True}, "target-size": {"enabled": True}},
    "resultTypes": ["violations"],
}
NARROW = ViewportSize(width=320, height=640)


@pytest.fixture(scope="module", params=list(HOMES))
def state(request: pytest.FixtureRequest) -> str:
    name: str = request.param
    return name


@pytest.fixture(scope="module")
def tab(state: str, tmp_path_factory: pytest.TempPathFactory, browser: Browser) -> Iterator[Tab]:
    """A narrow window in the desk of a home in that state."""
    home: Path = tmp_path_factory.mktemp("home")
    HOMES[state](home)
    with opened(home) as desk:
        context = browser.new_context(viewport=NARROW, base_url=desk.address)
        tab = context.new_page()
        entered(tab, desk)
        yield tab
        context.close()


def test_every_page_is_for_everybody(state: str, tab: Tab) -> None:
    titles: dict[str, str] = {}
    for page in PAGES[state]:
        comes_to(tab, page)
        assert wrong(tab) == [], page.name
        assert violations(tab) == [], f"{state}: {page.name}"
        assert titles.setdefault(tab.title(), tab.inner_text("h1")) == tab.inner_text("h1")
    print(f"{state}: {len(PAGES[state])} pages, no violation, none wider than {NARROW['width']} CSS pixels")


def test_what_is_looked_for_would_be_found(browser: Browser) -> None:
    """A page without a language and a label, with grey print, that is wider than its window."""
    tab = browser.new_page(viewport=NARROW)
    tab.set_content("<h1>One</h1><h1>Two</h1><input><p style='color: #666; width: 400px; white-space: nowrap'>Grey</p>")
    assert {name for name, _ in violations(tab)} >= {"html-has-lang", "label", "color-contrast-enhanced"}
    assert len(wrong(tab)) == 3
    tab.close()


def violations(tab: Tab) -> list[tuple[str, list[str]]]:
    tab.evaluate(AXE)
    found = tab.evaluate(
        f"""axe.run(document, {json.dumps(RULES)}).then(found => found.violations.map(
            one => [one.id, one.nodes.map(node => node.html.slice(0, 120))]
        ))"""
    )
    return [(rule, places) for rule, places in found]


def comes_to(tab: Tab, page: Page) -> None:
    tab.goto(page.path)
    for name, value in page.sends.items():
        fill(tab.locator(f'[name="{name}"]').last, value)
    if page.presses:
        tab.get_by_role("button", name=page.presses).first.click()


def fill(field: Locator, value: str) -> None:
    if field.evaluate("one => one.tagName") == "SELECT":
        field.select_option(value)
    else:
        field.fill(value)


def wrong(tab: Tab) -> list[str]:
    """What axe-core does not look at. The focus goes where a page wants it only when that has been drawn."""
    tab.wait_for_function("() => !document.querySelector('[autofocus]') || document.activeElement !== document.body")
    facts = tab.evaluate(
        """() => ({
            wide: document.documentElement.scrollWidth,
            headings: document.querySelectorAll("h1").length,
            scripts: document.querySelectorAll("script, [onclick], [onload], [style]").length,
            elsewhere: performance.getEntriesByType("resource").filter(one => !one.name.startsWith(origin)).length,
            errors: document.querySelectorAll("[aria-invalid=true]").length,
            told: document.querySelectorAll(".wrong li a").length,
            focus: document.activeElement.className,
            isWrong: document.querySelector(".wrong") !== null,
        })"""
    )
    told = []
    if facts["wide"] > NARROW["width"]:
        told.append(f"it is {facts['wide']} wide")
    if facts["headings"] != 1:
        told.append(f"it has {facts['headings']} headings of the first rank")
    if facts["scripts"] or facts["elsewhere"]:
        told.append("it needs script, or something from elsewhere")
    if facts["errors"] != facts["told"]:
        told.append(f"{facts['errors']} fields are wrong, {facts['told']} of them are named at the top")
    if facts["isWrong"] and facts["focus"] != "wrong":
        told.append(f"what is wrong has not the focus, but {facts['focus'] or 'nothing'}")
    return told
