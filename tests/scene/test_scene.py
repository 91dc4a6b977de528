"""What a window shows: the sentence that is said, the sum, and never a right answer before the pupil said it."""

from dataclasses import dataclass, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.core.grids.grid import Cell
from saythesum.core.meanings import Number
from saythesum.core.records.rows import Answer
from saythesum.core.sums import CLOSING_PARTS
from saythesum.dialogue import messages as say
from saythesum.dialogue.turns.effects import Ear, Effect, Say
from saythesum.keyboard.answer_entry import Typing
from saythesum.keyboard.keys import Focus
from saythesum.scene.scene import LEFT_OPEN, Jump, LineShown, Now, Scene, grid_extract, scene
from saythesum.wording.speak.said import said
from tests.talk import Talk, plan_of

NOTHING_TYPED = Typing()


@dataclass
class Watched:
    """A practice, and what its window shows while each thing is said."""

    talk: Talk
    last: Scene | None = None

    def after(self, effects: list[Effect]) -> Scene:
        messages: list[say.Message] = [effect.message for effect in effects if isinstance(effect, Say)]
        self.last = scene(self.talk.state, NOTHING_TYPED, messages[-1] if messages else "")
        return self.last

    def typed(self, *lines: str) -> Scene:
        for line in lines:
            self.after(self.talk.type(line))
        assert self.last
        return self.last


def practice(*starts: int, amounts: tuple[int, ...] = (3, 5, 8), ear: Ear = Ear.OPEN) -> Watched:
    talk = Talk(plan_of(starts or (38, 57), amounts), ear)
    watched = Watched(talk)
    watched.after(talk.begin())
    return watched


def shown(watched: Watched, saying: say.Message | str = "", typing: Typing = NOTHING_TYPED) -> Scene:
    return scene(watched.talk.state, typing, saying)


def test_the_first_question() -> None:
    at_first = practice().last
    assert at_first
    assert (at_first.sum, at_first.answer, at_first.part, at_first.is_whole) == ("38 + 3", "", "", True)
    assert at_first.caption == "Thirty-eight add three."
    assert at_first.grid.starts == ("38", "57")
    assert at_first.grid.amounts == ("+3", "+5", "+8")
    assert at_first.grid.current == Cell(0, 0)
    assert at_first.line == LineShown("38", (Jump("3", ""),))


@pytest.mark.parametrize("length", ["brief", "short", "full"])
def test_the_caption_is_the_sentence_that_is_said(length: str) -> None:
    talk = Talk(plan_of((38,), (3,), length=length))  # type: ignore[arg-type]
    for effect in talk.begin():
        if isinstance(effect, Say):
            assert scene(talk.state, NOTHING_TYPED, effect.message).caption == said(effect.message, length)  # type: ignore[arg-type]


def test_before_the_first_question_there_is_a_caption_and_no_sum() -> None:
    talk = Talk(plan_of((38,), (3,)))
    at_first = scene(talk.state, NOTHING_TYPED, "Press Enter to begin.")
    assert (at_first.caption, at_first.sum, at_first.line, at_first.grid.current) == (
        "Press Enter to begin.",
        "",
        None,
        None,
    )


def test_what_is_typed_is_shown_as_it_stands() -> None:
    watched = practice()
    typed = shown(watched, say.NotYet(), Typing(digits=(4, 0), focus=Focus.STOP, shows_grid=True))
    assert typed.answer == "40"
    assert [button.name for button in typed.buttons if button.is_focused] == ["Stop"]
    assert [button.focus for button in typed.buttons] == list(Focus)
    assert typed.shows_grid


def test_typing_after_a_verdict_belongs_to_the_next_question() -> None:
    watched = practice()
    watched.typed("41")
    typed = shown(watched, say.Right(watched.talk.plan.exercise_at(Cell(0, 0)), is_by_steps=False), Typing(digits=(4,)))
    assert (typed.sum, typed.answer) == ("38 + 5", "4")


@pytest.mark.parametrize(("heard", "is_right"), [("forty-one", True), ("forty-eight", False)])
def test_a_spoken_answer_is_shown_as_heard_and_looks_the_same_right_or_wrong(heard: str, is_right: bool) -> None:
    watched = practice()
    watched.talk.hear(heard)
    said_back = watched.after(watched.talk.wait())
    number = 41 if is_right else 48
    assert said_back.answer == str(number)
    unanswered = practice().last
    assert unanswered
    assert replace(said_back, answer="", caption="", now=Now.LISTENING, now_words="") == replace(
        unanswered, answer="", caption="", now=Now.LISTENING, now_words=""
    )


def test_a_verdict_is_shown_with_its_sum_and_answer_though_the_next_is_asked() -> None:
    watched = practice()
    watched.typed("41")
    right = shown(watched, say.Right(watched.talk.plan.exercise_at(Cell(0, 0)), is_by_steps=False))
    assert (right.sum, right.answer, right.caption) == ("38 + 3", "41", "Yes.")
    assert right.line == LineShown("38", (Jump("2", "40"), Jump("1", "41")))
    assert right.grid.cells[0] == ("41", "", "")
    watched.typed("45")
    wrong = shown(watched, say.NotYet())
    assert (wrong.sum, wrong.answer) == ("38 + 5", "45")
    assert wrong.grid.cells[0] == ("41", "", "")


def test_the_line_fills_with_what_the_pupil_said() -> None:
    watched = practice(57, amounts=(8, 9))
    lines = [watched.typed(line).line for line in ("I don't know", "60", "3", "5")]
    assert lines == [
        LineShown("57", (Jump("", ""), Jump("", ""))),
        LineShown("57", (Jump("", "60"), Jump("", ""))),
        LineShown("57", (Jump("3", "60"), Jump("", ""))),
        LineShown("57", (Jump("3", "60"), Jump("5", ""))),
    ]
    watched.typed("65")
    closed = shown(watched, say.Right(watched.talk.plan.exercise_at(Cell(0, 0)), is_by_steps=True))
    assert closed.line == LineShown("57", (Jump("3", "60"), Jump("5", "65")))


def test_a_sum_that_lands_on_the_ten_keeps_it_hidden() -> None:
    watched = practice(57, amounts=(3, 8))
    at_the_gap = watched.typed("I don't know")
    assert at_the_gap.part == "To the next ten"
    assert at_the_gap.line == LineShown("57", (Jump("", ""),))
    assert watched.typed("3").line == LineShown("57", (Jump("3", ""),))


def test_the_names_of_the_parts() -> None:
    watched = practice(57, amounts=(8,))
    names = [watched.typed(line).part for line in ("I don't know", "60", "3", "5")]
    assert names == ["The next ten", "To the next ten", "What is left", "All together"]
    assert watched.last
    assert watched.last.is_whole
    assert practice(42).typed("I don't know").part == "The ones"


def test_a_cell_worked_through_and_left_open_shows_no_answer() -> None:
    watched = practice(57, amounts=(8, 9))
    for _ in range(30):
        if watched.talk.state.progress.closed:
            break
        watched.typed("90")
    assert watched.last
    assert watched.last.grid.cells[0] == (LEFT_OPEN, "")


@pytest.mark.parametrize(
    ("ear", "waiting"), [(Ear.OPEN, Now.LISTENING), (Ear.PRESS, Now.ENTER_LISTENS), (Ear.KEYS, Now.TYPE)]
)
def test_whose_turn_it_is_in_words(ear: Ear, waiting: Now) -> None:
    watched = practice(ear=ear)
    seen = [shown(watched)]
    if ear is Ear.PRESS:
        watched.talk.press()
        assert shown(watched).now is Now.LISTENING
    watched.talk.adult_takes()
    seen.append(shown(watched))
    watched.talk.adult_gives()
    watched.talk.type("please wait")
    seen.append(shown(watched))
    watched.talk.type("go on")
    watched.talk.type("stop there")
    seen.append(shown(watched))
    assert [at.now for at in seen] == [waiting, Now.ADULTS_TURN, Now.PAUSED, Now.OVER]
    assert len({at.now_words for at in seen}) == 4


def test_at_the_end_no_question_is_left_but_the_last_verdict_is_shown_with_its_answer() -> None:
    watched = practice(38, amounts=(3,))
    over = watched.typed("41")
    assert (over.now, over.sum, over.part, over.answer) == (Now.OVER, "", "", "")
    right = shown(watched, say.Right(watched.talk.plan.exercise_at(Cell(0, 0)), is_by_steps=False))
    assert (right.sum, right.answer) == ("38 + 3", "41")


def test_while_the_tool_talks_the_open_ear_is_shut() -> None:
    talk = Talk(plan_of((38,), (3,)))
    talk.begin()
    closed = replace(talk.state, channel=replace(talk.state.channel, open_ear=None))
    assert scene(closed, NOTHING_TYPED).now is Now.NOT_LISTENING


def test_a_part_of_a_large_grid_is_named() -> None:
    grid = practice(*range(38, 58), amounts=(3, 5, 8)).last
    assert grid
    assert grid_extract(range(2, 5), range(3), grid.grid) == "Rows 3 to 5 of 20"
    assert grid_extract(range(4, 5), range(1, 3), grid.grid) == "Row 5 of 20. Columns 2 to 3 of 3"
    assert grid_extract(range(20), range(3), grid.grid) == ""


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_no_right_answer_is_shown_before_the_pupil_said_it(data: st.DataObject) -> None:
    """Any practice by spoken or typed numbers and commands, seen at every single thing that is said."""
    starts, amounts = (28, 47), (2, 5, 9)
    talk = Talk(plan_of(starts, amounts), data.draw(st.sampled_from([Ear.OPEN, Ear.KEYS])))
    near = st.integers(0, 60).map(lambda value: Number(value, certainty=0.9))
    commands = st.sampled_from(["help me", "I don't know", "skip this one", "say that again", "not what I said"])
    effects = talk.begin()
    for _ in range(data.draw(st.integers(1, 14))):
        _check(talk, effects)
        if talk.finished:
            break
        told = data.draw(near | commands | st.just("the answer"))
        effects = _give(talk, told)
    _check(talk, effects)


def _give(talk: Talk, told: Number | str) -> list[Effect]:
    if told == "the answer":
        ask = talk.state.progress.ask
        assert ask
        told = Number(talk.plan.exercise_at(Cell(*ask.place)).answer_to(ask.part), certainty=0.9)
    if talk.ear is Ear.OPEN:
        return talk.answer(told)
    return talk.type(str(told.value) if isinstance(told, Number) else told)


def _check(talk: Talk, effects: list[Effect]) -> None:
    given = {
        (row.row, row.column)
        for row in talk.state.progress.live
        if isinstance(row, Answer) and row.right and row.part in CLOSING_PARTS
    }
    for effect in effects:
        if not isinstance(effect, Say):
            continue
        at = scene(talk.state, NOTHING_TYPED, effect.message)
        for row, texts in enumerate(at.grid.cells):
            for column, text in enumerate(texts):
                right = str(talk.plan.exercise_at(Cell(row, column)).total)
                assert text == right if (row, column) in given else text in ("", LEFT_OPEN)
        cell = at.grid.current
        if cell is None:
            assert at.line is None
            continue
        asked = talk.plan.exercise_at(cell)
        if (cell.row, cell.column) not in given:
            assert at.line
            assert str(asked.total) not in {jump.to for jump in at.line.jumps}
            assert at.answer or _is_asked_part_hidden(at)


def _is_asked_part_hidden(at: Scene) -> bool:
    """The jump or the stop that is being asked for is a question mark as long as it is asked for."""
    assert at.line
    jumps = at.line.jumps
    match at.part:
        case "The next ten":
            return jumps[0].to == ""
        case "To the next ten":
            return jumps[0].by == ""
        case "What is left":
            return jumps[-1].by == ""
        case _:
            return True


def test_the_same_plan_gives_the_same_scene() -> None:
    """Scenes compare as values, so that a window draws only what has changed."""
    plan = plan_of((38,), (3,))
    one, other = Talk(plan), Talk(plan)
    one.begin()
    other.begin()
    assert scene(one.state, NOTHING_TYPED) == scene(other.state, NOTHING_TYPED)
