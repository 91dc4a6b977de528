"""A talk about a pattern in the window, for a screen reader and on a braille line."""

from random import Random

import pytest

from saythesum.core.grids.grid import Cell
from saythesum.core.meanings import Number
from saythesum.core.patterns.finding import patterns_of
from saythesum.core.patterns.moves import talk_about
from saythesum.core.patterns.questions import OwnStart
from saythesum.dialogue.turns.effects import Ear
from saythesum.keyboard.answer_entry import Typing
from saythesum.scene.accessible import accessible_tree
from saythesum.scene.pattern import BRAILLE_CELLS, in_braille, marks_of, question_shown
from saythesum.scene.scene import scene
from tests.core.patterns.plain_arithmetic import made_grid
from tests.scene.watched import answer_in, sum_in
from tests.talk import Talk, plan_of


def talking() -> Talk:
    talk = Talk(plan_of((8, 57), (1, 5, 8), offers_patterns=True), Ear.KEYS)
    talk.begin()
    for total in (9, 13, 16, 58, 62, 65):
        talk.type(Number(total))
    talk.type("yes")
    return talk


def test_while_the_pupil_thinks_the_lines_stand_out_and_nothing_is_asked() -> None:
    shown = scene(talking().state, Typing())
    assert shown.sum is None and shown.answer is None and shown.verdict is None
    assert shown.grid.marks.columns == {0, 1} and not shown.grid.marks.rows
    assert shown.grid.marks.cells == {Cell(row, column) for row in (0, 1) for column in (0, 1)}
    assert shown.pattern is not None
    assert shown.pattern.name == "Add one: nine, fifty-eight. Add five: thirteen, sixty-two."
    assert shown.pattern.braille == ("+1:  9 58", "+5: 13 62")


def test_a_question_has_its_numbers_in_signs_and_its_name_in_words() -> None:
    talk = talking()
    talk.type("go on")
    shown = scene(talk.state, Typing(digits=(4,)))
    assert (sum_in(shown).text, sum_in(shown).name) == ("9 → 13", "From nine to thirteen, how much more?")
    assert (answer_in(shown).text, answer_in(shown).part) == ("4", "more")


def test_a_screen_reader_hears_what_stands_out() -> None:
    tree = accessible_tree(scene(talking().state, Typing()), "saythesum")
    names = [node.name for node in tree.root.all()]
    assert "Add one: nine, fifty-eight. Add five: thirteen, sixty-two." in names
    assert {"+1:  9 58", "+5: 13 62"} <= set(names)
    assert sum("in the pattern" in name for name in names) == 4


@pytest.mark.parametrize("seed", range(20))
def test_whatever_the_grid_a_line_of_braille_has_twenty_cells(seed: int) -> None:
    grid = made_grid(Random(f"braille {seed}"))
    for pattern in patterns_of(grid):
        talk = talk_about(grid, pattern)
        assert all(len(line) <= BRAILLE_CELLS for line in in_braille(talk.heard)), pattern
        assert marks_of(pattern).cells == pattern.cells
        for move in talk.moves:
            if move.question is not None:
                shown = question_shown(move.question)
                asked = shown.text.replace(" ", "")
                line = f"{asked} {shown.part}: 1099" if shown.part else f"{asked}=1099"
                assert len(line) <= BRAILLE_CELLS, line
                assert shown.name or isinstance(move.question, OwnStart)
