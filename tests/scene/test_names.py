"""Everything that is shown has a name in words, for a screen reader."""

from dataclasses import replace

from saythesum.core.grids.grid import Cell
from saythesum.keyboard.answer_entry import Typing
from saythesum.keyboard.keys import Focus
from saythesum.scene.scene import scene
from saythesum.settings import Keys
from tests.scene.watched import Watched, answer_in, practice, sum_in
from tests.talk import Talk, plan_of


def test_the_grid_is_a_table_with_headers() -> None:
    watched = practice()
    grid = watched.typed("41", "43").grid
    assert grid.name == "Grid, two rows, three sums in each"
    assert [(row.text, row.name) for row in grid.rows] == [("38", "thirty-eight"), ("57", "fifty-seven")]
    assert [(column.text, column.name) for column in grid.columns] == [
        ("+3", "add three"),
        ("+5", "add five"),
        ("+8", "add eight"),
    ]
    assert [(cell.text, cell.name, cell.value) for cell in (*grid.cells[0], grid.cells[1][2])] == [
        ("41", "thirty-eight add three", "forty-one"),
        ("43", "thirty-eight add five", "forty-three"),
        ("", "thirty-eight add eight", "not done"),
        ("", "fifty-seven add eight", "not done"),
    ]
    assert grid.current == Cell(0, 2)


def test_a_cell_worked_through_and_left_open_shows_no_answer() -> None:
    watched = practice(57, amounts=(8, 9))
    for _ in range(30):
        if watched.talk.state.progress.closed:
            break
        watched.typed("90")
    left = watched.shown().grid.cells[0][0]
    assert (left.text, left.value) == ("–", "left for another day")


def test_the_answer_is_a_field_with_a_label_and_a_value() -> None:
    watched = practice(57, amounts=(8,))
    whole = answer_in(watched.shown())
    assert (whole.name, whole.value, whole.is_focused) == ("Answer to fifty-seven add eight", "nothing yet", True)
    typed = answer_in(watched.shown(Typing(digits=(6, 5), focus=Focus.STOP)))
    assert (typed.text, typed.value, typed.is_focused) == ("65", "six, five", False)
    watched.talk.hear("sixty-five")
    watched.talk.wait()
    assert (answer_in(watched.shown()).text, answer_in(watched.shown()).value) == ("65", "sixty-five")


def test_the_parts_of_the_way_have_names() -> None:
    watched = practice(57, amounts=(8,))
    answers = [answer_in(watched.typed(line)) for line in ("I don't know", "60", "3", "5")]
    names = ["The next ten", "To the next ten", "What is left", "All together"]
    assert [answer.part for answer in answers] == [answer.name for answer in answers] == names
    assert [answer.is_of_sum for answer in answers] == [False, False, False, True]
    assert answer_in(practice(42).typed("I don't know")).name == "The ones"


def test_buttons_have_names_and_keys() -> None:
    watched = practice()
    buttons = watched.shown(Typing(focus=Focus.STOP)).buttons
    assert [(button.name, button.keys) for button in buttons] == [
        ("Question", "Space"),
        ("Grid", ""),
        ("Help", "Page Down"),
        ("Not what I said", "Backspace"),
        ("Skip", ""),
        ("Stop", ""),
    ]
    assert [button.name for button in buttons if button.is_focused] == ["Stop"]


def test_patterns_are_looked_for_in_the_opened_grid() -> None:
    opened = practice().shown(Typing(shows_grid=True)).buttons
    assert [(button.name, button.keys) for button in opened][-2:] == [("Patterns", "F4"), ("Stop", "")]


def test_buttons_have_the_keys_of_the_pupils_own_too() -> None:
    plan = plan_of((38,), (5,))
    own = replace(plan, settings=replace(plan.settings, keys=Keys(help="F5", skip="F6")))
    talk = Talk(own)
    talk.begin()
    keys = {button.name: button.keys for button in scene(talk.state, Typing()).buttons}
    assert (keys["Help"], keys["Skip"]) == ("Page Down or F5", "F6")


def test_the_sum_has_its_words() -> None:
    assert sum_in(practice().shown()).name == "thirty-eight add three"


def test_where_sums_come_one_by_one_the_grid_has_the_one_that_is_asked() -> None:
    nothing_asked = Watched(Talk(plan_of((38,), (3,)))).shown().grid
    assert nothing_asked.current is None
