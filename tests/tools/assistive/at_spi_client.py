"""A client of AT-SPI, run by Debian's own Python, which has its binding: JSON lines in, JSON lines out.

`["tree"]` gives all nodes of our window, `["heard"]` the words of its first text, `["focused"]` role, name and text of
what has the focus; `["press", "Help"]` presses the button of that name, and `["places"]` says of each
button where in the window it is: left, top, width and height in pixels.
"""

import json
import sys
from collections.abc import Iterator
from typing import Any

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi, GLib  # noqa: E402

TITLE = "Say the sum"


def window() -> Any:
    desktop = Atspi.get_desktop(0)
    for at in range(desktop.get_child_count()):
        program = desktop.get_child_at_index(at)
        for child in range(program.get_child_count() if program else 0):
            found = program.get_child_at_index(child)
            if found and found.get_name() == TITLE:
                return found
    return None


def nodes(top: Any) -> Iterator[Any]:
    yield top
    for at in range(top.get_child_count()):
        child = top.get_child_at_index(at)
        if child:
            yield from nodes(child)


def text_of(node: Any) -> str:
    try:
        return str(Atspi.Text.get_text(node, 0, Atspi.Text.get_character_count(node)))
    except GLib.Error:
        return ""


def is_focused(node: Any) -> bool:
    return bool(node.get_state_set().contains(Atspi.StateType.FOCUSED))


def shown(node: Any) -> dict[str, Any]:
    return {
        "role": node.get_role_name(),
        "name": node.get_name(),
        "description": node.get_description(),
        "text": text_of(node),
        "focused": is_focused(node),
    }


def place(node: Any) -> list[int]:
    try:
        box = Atspi.Component.get_extents(node, Atspi.CoordType.WINDOW)
    except GLib.Error:
        return [0, 0, 0, 0]  # it is not drawn
    return [box.x, box.y, box.width, box.height]


def answer(command: list[str]) -> Any:
    top = window()
    if top is None:
        return None
    match command:
        case ["tree"]:
            return [shown(node) for node in nodes(top)]
        case ["heard"]:
            return next((node.get_name() for node in nodes(top) if node.get_role() == Atspi.Role.LABEL), "")
        case ["focused"]:
            found = next((node for node in nodes(top) if is_focused(node)), None)
            return [found.get_role_name(), found.get_name(), text_of(found)] if found else None
        case ["press", name]:
            button = next((node for node in nodes(top) if node.get_name() == name and node.get_n_actions()), None)
            return button is not None and bool(Atspi.Action.do_action(button, 0))
        case ["focus", name]:
            found = next((node for node in nodes(top) if node.get_name() == name), None)
            return found is not None and bool(Atspi.Component.grab_focus(found))
        case ["places"]:
            return {node.get_name(): place(node) for node in nodes(top) if node.get_role() == Atspi.Role.PUSH_BUTTON}
    raise ValueError(command)


def main() -> None:
    Atspi.init()
    desktop = Atspi.get_desktop(0)
    for line in sys.stdin:
        while GLib.MainContext.default().iteration(False):
            pass
        desktop.clear_cache()
        try:
            told = answer(json.loads(line))
        except GLib.Error:
            told = None  # a node has gone while it was read
        print(json.dumps(told), flush=True)


if __name__ == "__main__":
    main()
