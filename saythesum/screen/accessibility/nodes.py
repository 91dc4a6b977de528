"""An accessible tree as accesskit's nodes."""

from collections.abc import Mapping, Sequence

from accesskit import (
    Action,
    Live,
    Node,
    Rect,
    Role,
    TextDirection,
    TextPosition,
    TextSelection,
    Tree,
    TreeUpdate,
)

from saythesum.keyboard.keys import Focus
from saythesum.scene import accessible
from saythesum.scene.accessible import Accessible, AccessibleTree
from saythesum.scene.number_pad import Pressable
from saythesum.screen.shapes import Box, Button

_ROLES: Mapping[accessible.Role, Role] = {
    accessible.Role.WINDOW: Role.WINDOW,
    accessible.Role.TEXT: Role.LABEL,
    accessible.Role.LIVE_TEXT: Role.LABEL,
    accessible.Role.FIELD: Role.TEXT_INPUT,
    accessible.Role.TABLE: Role.TABLE,
    accessible.Role.ROW: Role.ROW,
    accessible.Role.ROW_HEADER: Role.ROW_HEADER,
    accessible.Role.COLUMN_HEADER: Role.COLUMN_HEADER,
    accessible.Role.CELL: Role.CELL,
    accessible.Role.BUTTON: Role.BUTTON,
    accessible.Role.GROUP: Role.GROUP,
}
_TEXT_OF_FIELD = "text of "
_CELL_PX = 10
"""A field's characters need places; nothing is drawn from them."""


class NodeIds:
    """accesskit's numbers for our names. A name keeps its number."""

    def __init__(self) -> None:
        self._numbers: dict[str, int] = {}
        self._names: dict[int, str] = {}

    def number(self, name: str) -> int:
        if name not in self._numbers:
            self._numbers[name] = len(self._numbers) + 1
            self._names[self._numbers[name]] = name
        return self._numbers[name]

    def name(self, number: int) -> str | None:
        return self._names.get(number)


def tree_update(shown: AccessibleTree, ids: NodeIds, places: Sequence[Button] = ()) -> TreeUpdate:
    """Whole, as accesskit finds out by itself what has changed. `places`: where what can be pressed is drawn."""
    boxes = {button.presses: button.box for button in places}
    root = ids.number(shown.root.id)
    update = TreeUpdate(ids.number(shown.focus))
    tree = Tree(root)
    tree.toolkit_name = "saythesum"
    update.tree = tree
    nodes = []
    for each in shown.root.all():
        nodes.append((ids.number(each.id), _node(each, ids, boxes)))
        if each.role is accessible.Role.FIELD:
            nodes.append((ids.number(_TEXT_OF_FIELD + each.id), _text_run(each.value)))
    update.nodes = nodes
    return update


def _node(shown: Accessible, ids: NodeIds, boxes: Mapping[Pressable, Box]) -> Node:
    node = Node(_ROLES[shown.role])
    place = Focus.ANSWER if shown.role is accessible.Role.FIELD else shown.presses
    box = boxes.get(place) if place is not None else None
    if box:
        node.set_bounds(Rect(box.x, box.y, box.right, box.bottom))
    children = [ids.number(child.id) for child in shown.children]
    if shown.role is accessible.Role.FIELD:
        run = ids.number(_TEXT_OF_FIELD + shown.id)
        caret = TextPosition(run, len(shown.value) if shown.caret is None else shown.caret)
        node.set_text_selection(TextSelection(caret, caret))
        children = [ids.number(_TEXT_OF_FIELD + shown.id)]
        node.add_action(Action.FOCUS)
    node.set_children(children)
    if shown.role in (accessible.Role.TEXT, accessible.Role.LIVE_TEXT):
        node.set_value(shown.name)  # a text's words are its value
    else:
        node.set_label(shown.name)
    if shown.role is accessible.Role.LIVE_TEXT:
        node.set_live(Live.POLITE)
    if shown.description:
        node.set_description(shown.description)
    if shown.presses is not None:
        node.add_action(Action.CLICK)
    if shown.presses is not None or shown.role is accessible.Role.CELL:
        node.add_action(Action.FOCUS)
    if shown.row is not None and shown.column is not None:
        node.set_row_index(shown.row)
        node.set_column_index(shown.column)
    return node


def _text_run(text: str) -> Node:
    run = Node(Role.TEXT_RUN)
    run.set_value(text)
    run.set_character_lengths([1] * len(text))
    run.set_character_positions([float(at * _CELL_PX) for at in range(len(text))])
    run.set_character_widths([float(_CELL_PX)] * len(text))
    run.set_word_lengths([len(text)])
    run.set_text_direction(TextDirection.LEFT_TO_RIGHT)
    run.set_bounds(Rect(0, 0, max(1, len(text)) * _CELL_PX, _CELL_PX))
    return run
