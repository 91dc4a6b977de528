"""Somebody at the keyboard: each press is counted, and Tab goes on until the thing that is looked for has the focus."""

from playwright.sync_api import Error
from playwright.sync_api import Page as Tab

from tests.desk.opened import OpenDesk
from tests.desk.practising import waited_for

MOST_TABS = 60
_IS_THERE = """() => !window.isOld && document.readyState === "complete" && (
    !document.querySelector("[autofocus]") || document.activeElement !== document.body)"""


class Hands:
    def __init__(self, tab: Tab) -> None:
        self.tab = tab
        self.pressed: list[str] = []

    @property
    def count(self) -> int:
        return len(self.pressed)

    def enters(self, desk: OpenDesk) -> None:
        """Without script the file that leads in takes a press."""
        self.tab.goto(desk.way_in.as_uri())
        self.goes_on()
        self.tab.wait_for_url(desk.path("/"))

    def presses(self, *keys: str) -> "Hands":
        for key in keys:
            self.pressed.append(key)
            self.tab.keyboard.press(key)
        return self

    def goes_on(self) -> "Hands":
        """Enter, to another page, which then is there."""
        self.tab.evaluate("() => { window.isOld = true; }")
        self.presses("Enter")
        waited_for(lambda: self._is_there() or None)
        return self

    def _is_there(self) -> bool:
        """Without script in the page nothing in it can tell; and a page on its way answers nothing."""
        try:
            return bool(self.tab.evaluate(_IS_THERE))
        except Error:
            return False

    def types(self, text: str) -> "Hands":
        for letter in text:
            self.presses(letter)
        return self

    def goes_to(self, words: str) -> "Hands":
        """By Tab, as often as it takes."""
        for _ in range(MOST_TABS):
            if self.has_focus() == words:
                return self
            self.presses("Tab")
        raise AssertionError(f"no Tab leads to {words!r} on {self.reads()!r}")

    def has_focus(self) -> str:
        """The words of what has the focus: its own, or its label's."""
        found: str = self.tab.evaluate(
            """() => {
                const one = document.activeElement;
                return (one.labels && one.labels.length ? one.labels[0] : one).innerText.trim();
            }"""
        )
        return found

    def reads(self) -> str:
        return self.tab.inner_text("h1")
