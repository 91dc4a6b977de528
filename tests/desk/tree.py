"""Somebody who knows of a page only what the accessibility tree says: roles, names, descriptions, and what can be done.

Source: Chrome DevTools Protocol, domains Accessibility, DOM, Input; the tree is the one that screen readers get.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from playwright.sync_api import Error
from playwright.sync_api import Page as Tab

from tests.desk.practising import waited_for


@dataclass(frozen=True, slots=True)
class Node:
    role: str
    name: str
    description: str
    is_focused: bool
    in_page: int


class Tree:
    def __init__(self, tab: Tab) -> None:
        self._tab = tab
        self._session = tab.context.new_cdp_session(tab)

    def nodes(self) -> list[Node]:
        try:
            told = self._session.send("Accessibility.getFullAXTree")["nodes"]
        except Error:  # a page is on its way
            return []
        return list(_nodes(told))

    def the(self, role: str, name: str) -> Node:
        """Waits until it is there."""
        return waited_for(lambda: next((one for one in self.nodes() if (one.role, one.name) == (role, name)), None))

    def the_focused(self, role: str, name: str) -> Node:
        """Waits until the focus has come to it: it does so only when the page has been drawn."""
        return waited_for(
            lambda: next(
                (one for one in self.nodes() if (one.role, one.name, one.is_focused) == (role, name, True)), None
            )
        )

    def does(self, role: str, name: str) -> None:
        """Its default action, as a screen reader would call for it."""
        found = self._session.send("DOM.resolveNode", {"backendNodeId": self.the(role, name).in_page})
        call = {"functionDeclaration": "function() { this.click(); }", "objectId": found["object"]["objectId"]}
        self._session.send("Runtime.callFunctionOn", call)

    def writes(self, name: str, text: str) -> None:
        self._session.send("DOM.focus", {"backendNodeId": self.the("textbox", name).in_page})
        self._session.send("Input.insertText", {"text": text})


def _nodes(told: list[dict[str, Any]]) -> Iterator[Node]:
    for one in told:
        if not one["ignored"] and "backendDOMNodeId" in one:
            focused = any(about["name"] == "focused" and about["value"]["value"] for about in one.get("properties", ()))
            role, name, description = (one.get(field, {}).get("value", "") for field in ("role", "name", "description"))
            yield Node(role, name, description, focused, one["backendDOMNodeId"])
