"""How what was said reaches a screen reader exactly once: which trees it gets, in which order.

Newer screen readers listen for live text. Orca 43 does not; it says a changed description of the node that has the
focus, and reads that description again whenever the focus comes to the node. So for those the text is a description
for a moment only, sent after the focus and taken away again: the change is an event that is said, and whoever reads
the node afterwards finds nothing. With newer ones an event that is overtaken by the next one of its kind is dropped.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace

from saythesum.scene.accessible import SPOKEN, Accessible, AccessibleTree
from saythesum.scene.spoken import Spoken


class Announcer:
    """For a screen reader that may come and go."""

    def __init__(self, hears_live_text: Callable[[], bool]) -> None:
        self._hears_live_text = hears_live_text
        self._spoken = Spoken("", 0)
        self._is_due = False
        """The text was not handed over yet."""
        self._borrowed = ""
        """The node whose description was the text. Its own comes back when the focus has left it."""

    def takes(self, spoken: Spoken) -> None:
        """The same text again is a turn of its own."""
        if spoken != self._spoken:
            self._spoken, self._is_due = spoken, bool(spoken.text)

    def say_again(self) -> None:
        """For a screen reader that has come and hears changes."""
        self._is_due = bool(self._spoken.text)

    def for_newcomer(self, tree: AccessibleTree) -> AccessibleTree:
        """What a screen reader finds that begins to listen later: it says the focused node with its description."""
        self._is_due, self._borrowed = False, tree.focus
        return with_description(tree, tree.focus, self._spoken.text)

    def updates(self, tree: AccessibleTree, *, is_heard: bool) -> Sequence[AccessibleTree]:
        """To be sent in this order. `is_heard`: the window has the keyboard; until then nothing is announced."""
        moved = with_description(tree, self._borrowed, "") if self._borrowed else tree
        if tree.focus != self._borrowed:
            self._borrowed = ""
        if not (self._is_due and is_heard):
            return (moved,)
        self._is_due = False
        if self._hears_live_text():
            return (with_text(moved, ""), moved)  # the same text is no change that anybody would be told of
        self._borrowed = tree.focus
        emptied = with_description(tree, tree.focus, "")
        return (moved, with_description(tree, tree.focus, self._spoken.text), emptied)


def with_description(tree: AccessibleTree, id: str, text: str) -> AccessibleTree:
    return replace(tree, root=_changed(tree.root, id, lambda node: replace(node, description=text)))


def with_text(tree: AccessibleTree, text: str) -> AccessibleTree:
    """With other live text."""
    return replace(tree, root=_changed(tree.root, SPOKEN, lambda node: replace(node, name=text)))


def _changed(node: Accessible, id: str, change: Callable[[Accessible], Accessible]) -> Accessible:
    if node.id == id:
        return change(node)
    return replace(node, children=tuple(_changed(child, id, change) for child in node.children))
