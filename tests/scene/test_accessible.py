"""The tree of names, roles and values, of every scene that a practice comes to."""

import pytest

from saythesum.keyboard.answer_entry import Typing
from saythesum.keyboard.keys import Focus
from saythesum.scene.accessible import Accessible, Role, accessible_tree
from saythesum.scene.scene import Scene
from tests.screen.scenes import MAKERS, Shown

NAMED = (Role.WINDOW, Role.FIELD, Role.TABLE, Role.ROW_HEADER, Role.COLUMN_HEADER, Role.CELL, Role.BUTTON, Role.GROUP)


def nodes(scene: Scene) -> dict[str, Accessible]:
    return {node.id: node for node in accessible_tree(scene, "Say the sum").root.all()}


@pytest.mark.parametrize("name", MAKERS)
def test_every_thing_has_a_name_an_id_of_its_own_and_the_focus_is_on_one_of_them(name: str) -> None:
    tree = accessible_tree(MAKERS[name](), "Say the sum")
    all_of_them = list(tree.root.all())
    assert len({node.id for node in all_of_them}) == len(all_of_them)
    assert tree.focus in {node.id for node in all_of_them}
    assert [node.id for node in all_of_them if node.role in NAMED and not node.name] == []


def test_the_field_holds_the_whole_sum_as_it_is_typed() -> None:
    shown = Shown()
    shown.typing = Typing(digits=(4,))
    assert nodes(shown.scene)["answer"].value == "38+3=4"


def test_where_the_grid_is_open_the_current_cell_has_the_focus() -> None:
    shown = Shown()
    shown.typing = Typing(shows_grid=True)
    tree = accessible_tree(shown.scene, "Say the sum")
    assert tree.focus == "cell 0 0"
    assert nodes(shown.scene)["cell 0 0"].name == "thirty-eight add three, not done"


def test_the_focus_follows_tab() -> None:
    shown = Shown()
    shown.typing = Typing(focus=Focus.HELP)
    assert accessible_tree(shown.scene, "Say the sum").focus == "help"


def test_a_cell_says_the_header_that_a_move_to_it_would_change() -> None:
    shown = nodes(Shown().scene)
    described = {id: shown[id].description for id in ("cell 0 0", "cell 0 2", "cell 1 0", "cell 1 2")}
    assert described == {
        "cell 0 0": "",
        "cell 0 2": "add eight",
        "cell 1 0": "fifty-seven",
        "cell 1 2": "fifty-seven, add eight",
    }


def test_the_adult_finds_the_list_and_the_pupil_is_told_nothing_of_it() -> None:
    pupil = Shown().says("31")
    before = pupil.scene.spoken
    pupil.talk.adult_takes()
    shown = nodes(pupil.scene)
    listed = [node.name for node in shown["for adult"].children]
    assert listed[0] == "The adult's turn. The last answer: 38 + 3, 31, not right."
    assert "1 that was right" in listed
    assert pupil.scene.spoken == before


@pytest.mark.parametrize("shows_grid", [False, True])
def test_the_buttons_stand_in_the_order_of_tab(shows_grid: bool) -> None:
    shown = Shown()
    shown.typing = Typing(shows_grid=shows_grid)
    buttons = [node.presses for node in nodes(shown.scene).values() if isinstance(node.presses, Focus)]
    assert buttons == [focus for focus in shown.typing.places if focus is not Focus.ANSWER]
