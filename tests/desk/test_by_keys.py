"""From an empty home to a pupil who practises, in a real browser."""

from playwright.sync_api import Browser

from tests.desk.opened import OpenDesk


def test_skeleton(desk: OpenDesk, browser: Browser) -> None:
    page = browser.new_page()
    page.goto(desk.way_in.as_uri())
    page.wait_for_url(desk.path("/"))
    assert page.title() == "Today – the desk"
    page.get_by_role("link", name="Add a pupil").click()
    page.get_by_label("Code or nickname").fill("rk-7")
    page.get_by_role("button", name="Add the pupil").click()
    print(page.inner_text("main"))
    page.get_by_role("button", name="Start rk-7").click()
    print(page.inner_text("main"))
    page.screenshot(path="/tmp/desk1.png")
    assert "did not begin" in page.inner_text("h1")
