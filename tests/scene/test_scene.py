"""What a window shows: the sentence that is said, the sum, and never a right answer before the pupil said it."""

from dataclasses import dataclass, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.core.grids.grid import Cell
from saythesum.core.meanings import Number
from saythesum.core.records.rows import Answer
from saythesum.core.sums import CLOSING_PARTS
from saythesum.dialogue.turns.effects import Ear, Effect, Say
from saythesum.dialogue.tutor.plan import planned
from saythesum.keyboard.answer_entry import Typing
from saythesum.keyboard.keys import Focus, NoRoom
from saythesum.scene.scene import (
    LEFT_OPEN,
    Aside,
    Jump,
    LineShown,
    News,
    Now,
    Scene,
    VerdictShown,
    grid_extract,
    scene,
)
from tests.dialogue.at_the_keys import AtTheKeys
from tests.talk import PRACTICE, Talk, plan_of

NOTHING_TYPED = Typing()


@dataclass
class Watched:
    """A practice, and what its window shows while each thing is said."""

    talk: Talk
    last: Scene | None = None

    def after(self, _effects: list[Effect]) -> Scene:
        self.last = scene(self.talk.state, NOTHING_TYPED)
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


def shown(watched: Watched, typing: Typing = NOTHING_TYPED) -> Scene:
    return scene(watched.talk.state, typing)


def test_the_first_question() -> None:
    at_first = practice().last
    assert at_first
    assert (at_first.sum, at_first.answer, at_first.part, at_first.is_whole) == ("38 + 3", "", "", True)
    assert at_first.caption == "Two rows, three sums in each. Thirty-eight add three."
    assert at_first.grid.starts == ("38", "57")
    assert at_first.grid.amounts == ("+3", "+5", "+8")
    assert at_first.grid.current == Cell(0, 0)
    assert at_first.line == LineShown("38", (Jump("3", ""),))


@pytest.mark.parametrize("length", ["brief", "short", "full"])
def test_the_caption_is_all_that_is_said_in_a_turn(length: str) -> None:
    """Whoever reads is not hurried along by the voice."""
    talk = Talk(plan_of((38,), (3,), length=length))  # type: ignore[arg-type]
    talk.begin()
    assert scene(talk.state, NOTHING_TYPED).caption == " ".join(talk.said)


def test_what_is_said_beside_the_dialogue_is_shown_until_the_dialogue_says_something() -> None:
    watched = practice()
    turns = watched.talk.state.channel.turns_said
    news, key = News("The headset has gone; plug it in again."), NoRoom()
    for message, words in ((news, news.sentence), (key, "No more digits. Enter or Backspace.")):
        assert scene(watched.talk.state, NOTHING_TYPED, Aside(message, turns)).caption == words
    watched.typed("say that again")
    assert scene(watched.talk.state, NOTHING_TYPED, Aside(news, turns)).caption.startswith("Two rows")


def test_before_the_first_question_there_is_no_sum() -> None:
    talk = Talk(plan_of((38,), (3,)))
    at_first = scene(talk.state, NOTHING_TYPED)
    assert (at_first.caption, at_first.sum, at_first.line, at_first.grid.current) == (
        "",
        "",
        None,
        None,
    )


def test_what_is_typed_is_shown_as_it_stands() -> None:
    watched = practice()
    typed = shown(watched, Typing(digits=(4, 0), focus=Focus.STOP, shows_grid=True))
    assert typed.answer == "40"
    assert [button.name for button in typed.buttons if button.is_focused] == ["Stop"]
    assert [button.focus for button in typed.buttons] == list(Focus)
    assert typed.shows_grid


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
    right = watched.typed("41")
    assert right.verdict == VerdictShown("38 + 3", "41", "Yes.", is_right=True)
    assert (right.sum, right.answer, right.caption) == ("38 + 5", "", "Thirty-eight add five.")
    assert right.grid.cells[0] == ("41", "", "")
    wrong = watched.typed("45")
    assert wrong.verdict == VerdictShown("38 + 5", "45", "Not yet.", is_right=False)
    assert (wrong.sum, wrong.answer) == ("38 + 5", "")
    assert wrong.caption == "Forty and five is forty-five. How many of the five get you to forty?"
    assert wrong.grid.cells[0] == ("41", "", "")


def test_a_verdict_goes_with_the_next_answer() -> None:
    watched = practice()
    watched.typed("41")
    watched.talk.hear("forty-three")
    assert shown(watched).verdict, "not understood yet"
    said_back = watched.after(watched.talk.wait())
    assert (said_back.answer, said_back.verdict) == ("43", None)
    watched.talk.wait()
    assert shown(watched).verdict == VerdictShown("38 + 5", "43", "Yes.", is_right=True)


def test_a_verdict_stays_through_questions_of_the_pupil_and_sounds_that_mean_nothing() -> None:
    watched = practice()
    watched.typed("45", "where am I", "say that again", "I don't know")
    assert shown(watched).verdict == VerdictShown("38 + 3", "45", "Not yet.", is_right=False)


def test_a_verdict_that_was_taken_back_is_gone() -> None:
    watched = practice()
    assert watched.typed("45").verdict
    assert watched.typed("not what I said").verdict is None


def test_a_verdict_goes_with_the_next_key_and_not_with_one_that_changes_the_look() -> None:
    pupil = AtTheKeys()
    pupil.keys("4 1 enter")
    verdicts = []
    for key in ("bigger", "view", "colours", "tab", "escape"):
        pupil.keys(key)
        verdicts.append(scene(pupil.talk.state, pupil.typing).verdict is not None)
    assert verdicts == [True, True, True, False, False]
    pupil.keys("4 3 enter")
    assert scene(pupil.talk.state, pupil.typing).verdict == VerdictShown("38 + 5", "43", "Yes.", is_right=True)


def test_a_practice_that_goes_on_shows_the_verdict_that_it_says_once_more() -> None:
    talk = practice().talk
    talk.type("45")
    again = talk.again()
    again.begin()
    assert scene(again.state, NOTHING_TYPED).verdict == VerdictShown("38 + 3", "45", "Not yet.", is_right=False)
    talk.type("41")
    again = talk.again()
    again.begin()
    assert scene(again.state, NOTHING_TYPED).verdict is None


def test_at_a_part_of_the_way_what_is_said_of_the_answer_stays_in_the_caption() -> None:
    watched = practice(57, amounts=(8,))
    at_the_gap = watched.typed("I don't know", "60")
    assert at_the_gap.verdict is None
    assert at_the_gap.caption == "Sixty. How many to get there?"


def test_the_line_fills_with_what_the_pupil_said() -> None:
    watched = practice(57, amounts=(8,))
    lines = [watched.typed(line).line for line in ("I don't know", "60", "3", "5")]
    assert lines == [
        LineShown("57", (Jump("", ""), Jump("", ""))),
        LineShown("57", (Jump("", "60"), Jump("", ""))),
        LineShown("57", (Jump("3", "60"), Jump("", ""))),
        LineShown("57", (Jump("3", "60"), Jump("5", ""))),
    ]
    closed = watched.typed("65")
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
    over = practice(38, amounts=(3,)).typed("41")
    assert (over.now, over.sum, over.answer, over.caption) == (
        Now.OVER,
        "38 + 3",
        "41",
        "That one's done. Bye for now.",
    )
    assert over.verdict == VerdictShown("38 + 3", "41", "Yes.", is_right=True)


def test_stop_leaves_no_question_and_no_verdict() -> None:
    over = practice().typed("45", "stop there")
    assert (over.now, over.sum, over.part, over.answer, over.verdict) == (Now.OVER, "", "", "", None)


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
        told = Number(talk.plan.sum_at(Cell(ask.row, ask.column)).answer_to(ask.part), certainty=0.9)
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
        at = scene(talk.state, NOTHING_TYPED)
        for row, texts in enumerate(at.grid.cells):
            for column, text in enumerate(texts):
                right = str(talk.plan.sum_at(Cell(row, column)).total)
                assert text == right if (row, column) in given else text in ("", LEFT_OPEN)
        cell = at.grid.current
        if cell is None:
            assert at.line is None
            continue
        asked = talk.plan.sum_at(cell)
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
    plan = planned(PRACTICE, plan_of((38,), (3,)).grid, 0, plan_of((38,), (3,)).settings)
    one, other = Talk(plan), Talk(plan)
    one.begin()
    other.begin()
    assert scene(one.state, NOTHING_TYPED) == scene(other.state, NOTHING_TYPED)
