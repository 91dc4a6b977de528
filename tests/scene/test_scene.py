"""What a window shows: the sentence that is said, the sum, and never a right answer before the pupil said it."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.core.grids.grid import Cell
from saythesum.core.meanings import Number
from saythesum.core.records.rows import Answer
from saythesum.core.sums import CLOSING_PARTS
from saythesum.dialogue.turns.effects import Ear
from saythesum.keyboard.answer_entry import Typing
from saythesum.keyboard.keys import Focus, NoRoom
from saythesum.scene.caption import Aside, Caption, News
from saythesum.scene.grid import LEFT_OPEN
from saythesum.scene.scene import Now, Scene, scene
from saythesum.scene.spoken import Spoken
from saythesum.settings import Length
from saythesum.wording.speak.said_shown import grid_extract
from tests.scene.watched import NOTHING_TYPED, answer_in, practice, sum_in
from tests.talk import Talk, plan_of


def test_the_first_question() -> None:
    at_first = practice().shown()
    assert (sum_in(at_first).text, answer_in(at_first).text, answer_in(at_first).part) == ("38 + 3", "", "")
    assert at_first.caption == Caption("Two rows, three sums in each. Thirty-eight add three.", is_help=False)
    assert at_first.grid.current == Cell(0, 0)


@pytest.mark.parametrize("length", ["brief", "short", "full"])
def test_the_caption_is_all_that_is_said_in_a_turn(length: Length) -> None:
    """Whoever reads is not hurried along by the voice."""
    talk = Talk(plan_of((38,), (3,), length=length))
    talk.begin()
    assert scene(talk.state, NOTHING_TYPED).caption.text == " ".join(talk.said)


def test_sums_that_are_said_are_shown_in_digits_where_the_settings_ask_for_it() -> None:
    plan = plan_of((38,), (5,))
    window = replace(plan.settings.window, sums_in_digits=True)
    talk = Talk(replace(plan, settings=replace(plan.settings, window=window)))
    talk.begin()
    talk.type("45")
    told = scene(talk.state, NOTHING_TYPED).caption
    shown = "Forty and five is forty-five. 40 + 5 = 45. How many of the five get you to forty? 38 + ? = 40."
    assert told.text.replace("\N{NO-BREAK SPACE}", " ") == shown
    assert told.is_help


def test_what_is_said_beside_the_dialogue_is_shown_until_the_dialogue_says_something() -> None:
    watched = practice()
    state = watched.talk.state
    turns = state.channel.turns_said
    news, key = News("The headset has gone; plug it in again."), NoRoom()
    for message, words in ((news, news.sentence), (key, "No more digits. Enter or Backspace.")):
        assert scene(state, NOTHING_TYPED, Aside(message, turns)).caption == Caption(words, is_help=True)
    watched.typed("say that again")
    again = scene(watched.talk.state, NOTHING_TYPED, Aside(news, turns))
    assert again.caption.text == "Two rows, three sums in each. Thirty-eight add three."


def test_before_the_first_question_there_is_no_sum() -> None:
    at_first = scene(Talk(plan_of((38,), (3,))).state, NOTHING_TYPED)
    assert (at_first.caption.text, at_first.sum, at_first.answer, at_first.line) == ("", None, None, None)


def test_what_is_typed_is_shown_as_it_stands() -> None:
    typed = practice().shown(Typing(digits=(4, 0), shows_grid=True))
    assert answer_in(typed).text == "40"
    assert typed.shows_grid
    assert [button.focus for button in typed.buttons] == [focus for focus in Focus if focus is not Focus.ANSWER]


@pytest.mark.parametrize(("heard", "number"), [("forty-one", "41"), ("forty-eight", "48")])
def test_a_spoken_answer_is_shown_as_heard_and_looks_the_same_right_or_wrong(heard: str, number: str) -> None:
    watched = practice()
    watched.talk.hear(heard)
    watched.talk.wait()
    said_back, unanswered = watched.shown(), practice().shown()
    assert answer_in(said_back).text == number
    assert _without_answer(said_back) == _without_answer(unanswered)


def _without_answer(scene: Scene) -> Scene:
    answer = replace(answer_in(scene), text="", value="")
    silent = replace(scene, caption=Caption("", is_help=False), spoken=Spoken("", 0))
    return replace(silent, answer=answer, now=Now.LISTENING, now_words="")


@pytest.mark.parametrize(
    ("ear", "waiting"), [(Ear.OPEN, Now.LISTENING), (Ear.PRESS, Now.ENTER_LISTENS), (Ear.KEYS, Now.TYPE)]
)
def test_whose_turn_it_is_in_words(ear: Ear, waiting: Now) -> None:
    watched = practice(ear=ear)
    seen = [watched.shown()]
    if ear is Ear.PRESS:
        watched.talk.press()
        assert watched.shown().now is Now.LISTENING
    watched.talk.adult_takes()
    seen.append(watched.shown())
    watched.talk.adult_gives()
    watched.talk.type("please wait")
    seen.append(watched.shown())
    watched.talk.type("go on")
    watched.talk.type("stop there")
    seen.append(watched.shown())
    assert [at.now for at in seen] == [waiting, Now.ADULTS_TURN, Now.PAUSED, Now.OVER]
    assert len({at.now_words for at in seen}) == 4


def test_while_the_tool_talks_the_open_ear_is_shut() -> None:
    talk = Talk(plan_of((38,), (3,)))
    talk.begin()
    closed = replace(talk.state, channel=replace(talk.state.channel, open_ear=None))
    assert scene(closed, NOTHING_TYPED).now is Now.NOT_LISTENING


def test_a_part_of_a_large_grid_is_named() -> None:
    assert grid_extract(range(2, 5), range(3), 20, 3) == "Rows 3 to 5 of 20"
    assert grid_extract(range(4, 5), range(1, 3), 20, 3) == "Row 5 of 20. Columns 2 to 3 of 3"
    assert grid_extract(range(20), range(3), 20, 3) == ""


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_no_right_answer_is_shown_before_the_pupil_said_it(data: st.DataObject) -> None:
    """Any practice by spoken or typed numbers and commands, seen after every single thing."""
    starts, amounts = (28, 47), (2, 5, 9)
    talk = Talk(plan_of(starts, amounts), data.draw(st.sampled_from([Ear.OPEN, Ear.KEYS])))
    near = st.integers(0, 60).map(lambda value: Number(value, certainty=0.9))
    commands = st.sampled_from(["help me", "I don't know", "skip this one", "say that again", "not what I said"])
    talk.begin()
    for _ in range(data.draw(st.integers(1, 14))):
        _check(talk)
        if talk.finished:
            break
        told = data.draw(near | commands | st.just("the answer"))
        _give(talk, told)
    _check(talk)


def _give(talk: Talk, told: Number | str) -> None:
    if told == "the answer":
        ask = talk.state.progress.ask
        assert ask
        told = Number(talk.plan.exercise_at(Cell(*ask.place)).answer_to(ask.part), certainty=0.9)
    if talk.ear is Ear.OPEN:
        talk.answer(told)
    else:
        talk.type(str(told.value) if isinstance(told, Number) else told)


def _check(talk: Talk) -> None:
    given = {
        (row.row, row.column)
        for row in talk.state.progress.live
        if isinstance(row, Answer) and row.right and row.part in CLOSING_PARTS
    }
    at = scene(talk.state, NOTHING_TYPED)
    for row, cells in enumerate(at.grid.cells):
        for column, cell in enumerate(cells):
            right = str(talk.plan.exercise_at(Cell(row, column)).total)
            assert cell.text == right if (row, column) in given else cell.text in ("", LEFT_OPEN)
    current = at.grid.current
    if current is None:
        assert at.line is None
    elif (current.row, current.column) not in given:
        assert at.line
        assert talk.plan.exercise_at(current).total not in {jump.to for jump in at.line.jumps}
        assert answer_in(at).text or _is_asked_part_hidden(at)


def _is_asked_part_hidden(at: Scene) -> bool:
    """The jump or the stop that is being asked for is a question mark as long as it is asked for."""
    assert at.line
    jumps = at.line.jumps
    match answer_in(at).part:
        case "":
            return jumps[-1].lands_at is None
        case "The next ten":
            return jumps[0].to is None
        case "To the next ten":
            return jumps[0].by is None
        case "What is left":
            return jumps[-1].by is None
        case _:
            return True


def test_the_same_plan_gives_the_same_scene() -> None:
    """Scenes compare as values, so that a window draws only what has changed."""
    plan = plan_of((38,), (3,))
    one, other = Talk(plan), Talk(plan)
    one.begin()
    other.begin()
    assert scene(one.state, NOTHING_TYPED) == scene(other.state, NOTHING_TYPED)
