"""A list of sums, and a missing number: each sum at the head of a row, and no header that gives a number away."""

import re

import pytest

from saythesum.core.grids.grid import Grid
from saythesum.core.grids.written_sums import exercise_from
from saythesum.core.sums import Hidden
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.tutor.plan import activity, planned
from saythesum.keyboard.answer_entry import Typing
from saythesum.scene.accessible import accessible_tree
from saythesum.scene.scene import Scene, scene
from saythesum.settings import Settings
from tests.talk import PRACTICE, Talk


def listed(*sums: str) -> Talk:
    grid = Grid("Oars", (), (), listed=tuple(map(exercise_from, sums)))
    return begun(grid)


def begun(grid: Grid) -> Talk:
    talk = Talk(planned(PRACTICE, [activity(grid, 0)], Settings()), Ear.TEXT)
    talk.begin()
    return talk


def shown(talk: Talk, typing: Typing | None = None) -> Scene:
    return scene(talk.state, typing or Typing())


def braille(seen: Scene) -> str:
    values = [node.value for node in accessible_tree(seen, "Oars").root.all() if node.id == "answer"]
    return values[0]


def test_a_list_is_a_table_of_sums_and_answers() -> None:
    talk = listed("38+5", "47+?=52", "?-5=47")
    talk.type("43")
    grid = shown(talk).grid
    assert grid.name == "List, three sums"
    assert [row.text for row in grid.rows] == ["38 + 5", "47 + ? = 52", "? \N{MINUS SIGN} 5 = 47"]
    assert grid.rows[1].name == "forty-seven add what number makes fifty-two"
    assert [column.name for column in grid.columns] == ["answer"]
    assert [[cell.text for cell in row] for row in grid.cells] == [["43"], [""], [""]]
    assert grid.current is not None and (grid.current.row, grid.current.column) == (1, 0)


@pytest.mark.parametrize("hidden", [Hidden.AMOUNT, Hidden.START])
def test_nothing_shown_holds_the_missing_number(hidden: Hidden) -> None:
    talk = begun(Grid("Oars", (47, 68), (5, 9), hidden=hidden))
    seen = shown(talk)
    texts = [header.text for header in (*seen.grid.rows, *seen.grid.columns)]
    texts += [cell.text for row in seen.grid.cells for cell in row]
    missing = {"5", "9"} if hidden is Hidden.AMOUNT else {"47", "68"}
    assert not missing & {number for text in texts for number in re.findall(r"\d+", text)}
    assert seen.line is None, "its jump could be counted on the ticks"


def test_the_hole_is_filled_as_it_is_typed_and_said() -> None:
    talk = listed("47+?=52", "38+5")
    assert braille(shown(talk)) == "47+?=52"
    assert braille(shown(talk, Typing((5,)))) == "47+5=52"
    talk.type("5")
    after = shown(talk)
    assert after.verdict is not None
    assert (after.verdict.text, after.verdict.name) == (
        "47 + 5 = 52. Yes.",
        "Forty-seven add five is fifty-two. Yes.",
    )


def test_the_line_has_both_jumps_with_what_is_known() -> None:
    talk = listed("47+?=52")
    talk.type("3")
    line = shown(talk).line
    assert line is not None
    assert [(jump.by, jump.to) for jump in line.jumps] == [(3, 50), (None, 52)]


def test_a_missing_start_has_the_line_of_its_way_back() -> None:
    talk = listed("?+5=52")
    talk.type("I don't know")
    line = shown(talk).line
    assert line is not None
    assert (line.start, line.sign) == (52, "\N{MINUS SIGN}")


def test_an_amount_with_tens_has_three_jumps() -> None:
    talk = listed("47+25")
    talk.type("I don't know")
    talk.type("67")
    line = shown(talk).line
    assert line is not None
    assert [(jump.by, jump.to) for jump in line.jumps] == [(20, 67), (None, None), (None, None)]
    assert line.name.endswith(
        "First jump: twenty, to sixty-seven. Second jump: not known yet. Third jump: not known yet."
    )
