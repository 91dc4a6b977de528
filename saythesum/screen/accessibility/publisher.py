"""Says to the platform what the window shows, and takes the presses of assistive software.

accesskit's call for an update holds the interpreter's lock while it waits for a lock of its own; a thread of accesskit
that activates holds that one while it waits for the interpreter's. So nothing is called until the activation is over:
the first look at the events after it lets that thread run to its end.
"""

import sys
import threading
from collections import deque
from collections.abc import Callable, Sequence
from contextlib import suppress
from typing import Any

from saythesum.keyboard.keys import Focus, Pressed
from saythesum.ports import Touched
from saythesum.scene.accessible import ANSWER, ROOT, Accessible, AccessibleTree, Role, accessible_tree
from saythesum.scene.number_pad import Pressable
from saythesum.scene.scene import Scene
from saythesum.screen.accessibility.announcing import Announcer
from saythesum.screen.accessibility.listeners import Listeners
from saythesum.screen.pressing import focused_by, pressed_by
from saythesum.screen.shapes import Button


def publisher(title: str, now_ms: Callable[[], int], wake: Callable[[], None]) -> "Publisher | None":
    """None where the package, or its part for this platform, is missing: the window goes on without."""
    if sys.platform in ("win32", "darwin"):
        return None  # they need the window's handle before it is shown: not built, as it could not be tried
    try:
        from accesskit import unix  # noqa: F401
    except ImportError:
        return None
    try:
        return Publisher(title, now_ms, wake)
    except Exception:
        return None


class Publisher:
    """For the window's thread, which ends the publishing where a call fails. Calls of accesskit's thread never fail."""

    def __init__(self, title: str, now_ms: Callable[[], int], wake: Callable[[], None]) -> None:
        from accesskit import unix

        from saythesum.screen.accessibility.nodes import NodeIds

        self._title, self._now_ms, self._wake = title, now_ms, wake
        self._ids = NodeIds()
        self._pressed: deque[tuple[Pressable, bool]] = deque()
        """And whether it only gets the focus. Filled by accesskit's thread."""
        self._tree = AccessibleTree(Accessible(ROOT, Role.WINDOW, title), ROOT)
        self._listeners = Listeners(wake)
        self._announcer = Announcer(self._listeners.hear_live_text)
        self._places: Sequence[Button] = ()
        self._scene: Scene | None = None
        self._has_focus = False
        self._is_focus_sent = False
        self._activated = threading.Event()
        self._is_met = self._is_ready = False
        self._adapter: Any = unix.Adapter(self._activate, self._act, self._deactivate)

    # ---- on accesskit's thread

    def _activate(self) -> Any:
        """Assistive software has come. A failure here would spoil the adapter for good."""
        try:
            update = self._update(self._tree)
        except Exception:
            return None  # as long as it is not set as activated, nothing is sent
        self._activated.set()
        return update

    def _deactivate(self) -> None:
        self._activated.clear()

    def _act(self, request: Any) -> None:
        with suppress(Exception):
            self._take(request)

    def _take(self, request: Any) -> None:
        from accesskit import Action

        name = self._ids.name(request.target)
        shown = next((each for each in self._tree.root.all() if each.id == name), None)
        if shown is None or request.action not in (Action.CLICK, Action.FOCUS):
            return
        presses = Focus.ANSWER if shown.id == ANSWER else shown.presses
        if presses is not None:
            self._pressed.append((presses, request.action == Action.FOCUS))
            self._wake()

    @property
    def is_read(self) -> bool:
        """Assistive software is there."""
        return self._activated.is_set()

    # ---- on the window's thread

    def look(self) -> list[Pressed | Touched]:
        """What was pressed since the last look. To be called after a wait, so that an activation can have ended."""
        self._meet()
        presses: list[Pressed | Touched] = []
        while self._pressed:
            thing, is_focus = self._pressed.popleft()
            presses += (focused_by if is_focus else pressed_by)(thing, self._scene, self._now_ms())
        return presses

    def _meet(self) -> None:
        """Assistive software that has come, once it is ready for what it is told."""
        was_met, self._is_met = self._is_met, self._activated.is_set()
        if self._is_met and not was_met:
            self._listeners.come()
        elif was_met and not self._is_met:
            self._listeners.left()
        was_ready, self._is_ready = self._is_ready, self._is_met and self._listeners.are_ready
        if was_ready or not self._is_ready:
            return
        hears = self._listeners.hear_changes()
        self._send(self._tree if hears else self._announcer.for_newcomer(self._tree))
        self._is_focus_sent = False
        self._send_focus()  # after the tree, so that a screen reader finds the focus where it will stay
        if hears:
            self._announcer.say_again()
            self._announce()

    def show(self, scene: Scene, places: Sequence[Button]) -> None:
        self._places, self._scene = places, scene
        self._tree = accessible_tree(scene, self._title)
        self._announcer.takes(scene.spoken)
        self._announce()

    def focus_changed(self, *, has_focus: bool) -> None:
        self._has_focus = has_focus
        self._is_focus_sent = False
        self._send_focus()
        self._announce()

    def _announce(self) -> None:
        if self._is_ready and self._activated.is_set():
            for tree in self._announcer.updates(self._tree, is_heard=self._has_focus):
                self._send(tree)

    def _send_focus(self) -> None:
        if self._is_ready and self._activated.is_set() and not self._is_focus_sent:
            self._is_focus_sent = True
            self._adapter.update_window_focus_state(self._has_focus)

    def _send(self, tree: AccessibleTree) -> None:
        if self._is_ready and self._activated.is_set():
            update = self._update(tree)
            self._adapter.update_if_active(lambda: update)

    def _update(self, tree: AccessibleTree) -> Any:
        from saythesum.screen.accessibility.nodes import tree_update

        return tree_update(tree, self._ids, self._places)
