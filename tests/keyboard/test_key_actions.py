from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.core.meanings import Command, Given, HowHeard, Number, Unclear, WhyUnclear
from saythesum.core.records.rows import Answer, By, HeardId, Settled, Void
from saythesum.core.sums import Part
from saythesum.dialogue.step import State, opened, step
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.turns.events import (
    AdultMarked,
    Began,
    CountsAgain,
    EarAsked,
    Entered,
    InputEnded,
    TurnGivenBack,
    TurnTaken,
)
from saythesum.dialogue.tutor.progress import Progress
from saythesum.keyboard.answer_entry import Typing, situation
from saythesum.keyboard.key_actions import pressed
from saythesum.keyboard.keys import (
    AdultHasTurn,
    ChangeLook,
    CutSpeech,
    DigitTyped,
    Focus,
    FocusMoved,
    Key,
    LookChange,
    NoRoom,
    Post,
    Pressed,
    PutBack,
    ReadBack,
    RubbedOut,
    SpeakKey,
    StillTyped,
)
from tests.dialogue.at_the_keys import SLOWLY_MS, AtTheKeys
from tests.talk import Talk, plan_of

ID = HeardId("this press")


def commands(pupil: AtTheKeys) -> list[Command]:
    return [
        event.heard.command for event in pupil.posted if isinstance(event, Entered) and isinstance(event.heard, Given)
    ]


def numbers(pupil: AtTheKeys) -> list[int]:
    return [
        event.heard.value for event in pupil.posted if isinstance(event, Entered) and isinstance(event.heard, Number)
    ]


# ---- typing an answer ----------------------------------------------------------------------------------


def test_a_digit_rubbed_out_is_in_no_answer() -> None:
    pupil = AtTheKeys().keys("4 7 backspace 4 enter")
    assert pupil.given == [44]
    assert numbers(pupil) == [44]
    assert pupil.at == (0, 0)
    assert pupil.told == [DigitTyped(4), DigitTyped(7), RubbedOut(7, is_empty=False), DigitTyped(4)]
    (answer,) = pupil.talk.answers
    assert (answer.by, answer.certainty) == (By.KEYS, None)


def test_an_answer_began_with_its_first_key() -> None:
    pupil = AtTheKeys()
    began_ms = pupil.talk.now_ms + 400
    pupil.keys("4 backspace 4 1 enter", every_ms=400)
    (event,) = pupil.posted
    assert event == Entered(Number(41), "41", By.KEYS, began_ms + 1600, began_ms, HeardId("press 5"))


@given(st.lists(st.integers(0, 9), max_size=12))
def test_nothing_is_sent_by_itself(digits: list[int]) -> None:
    pupil = AtTheKeys().keys(" ".join(map(str, digits)))
    assert pupil.posted == []
    assert pupil.typing.digits == tuple(digits[:4])
    assert pupil.told[4:] == [NoRoom()] * max(0, len(digits) - 4)


@pytest.mark.parametrize("typed", ["1 1 0 0", "9 9 9 9"])
def test_a_number_too_large_to_be_said_is_no_number(typed: str) -> None:
    pupil = AtTheKeys().keys(f"{typed} enter")
    (event,) = pupil.posted
    assert isinstance(event, Entered)
    assert event.heard == Unclear(WhyUnclear.OTHER)
    assert pupil.given == []


def test_the_largest_number_and_leading_noughts() -> None:
    assert numbers(AtTheKeys().keys("1 0 9 9 enter")) == [1099]
    assert numbers(AtTheKeys().keys("0 0 4 1 enter")) == [41]


def test_enter_with_nothing_typed_asks_for_the_ear() -> None:
    pupil = AtTheKeys().keys("enter")
    assert pupil.posted == [EarAsked(pupil.talk.now_ms)]


def test_a_held_key_acts_once() -> None:
    pupil = AtTheKeys()
    held = [Pressed(Key.DIGIT, 5000 + 30 * time, is_repeat=time > 0, digit=7) for time in range(2000)]
    pupil.presses(held)
    assert pupil.typing.digits == (7,)
    assert pupil.told == [DigitTyped(7)]
    pupil.keys("backspace")
    pupil.presses(Pressed(key, 99_000, is_repeat=True) for key in Key)
    assert pupil.posted == []


@given(
    st.lists(st.sampled_from(["0", "1", "4", "9", "backspace", "enter"]), max_size=25).filter(
        lambda keys: keys.count("enter") <= 6
    )
)
def test_what_is_sent_is_what_a_plain_list_would_hold(keys: list[str]) -> None:
    """Against a list with append and pop. Backspace on nothing is left out: it takes back an answer."""
    line: list[str] = []
    sent: list[str] = []
    pupil = AtTheKeys()
    for key in keys:
        if pupil.talk.finished:
            break
        if key == "backspace" and not line:
            continue
        if key == "backspace":
            line.pop()
        elif key == "enter":
            sent += ["".join(line)] if line else []
            line.clear()
        elif len(line) < 4:
            line.append(key)
        pupil.keys(key)
    assert [event.text for event in pupil.posted if isinstance(event, Entered)] == sent


# ---- taking back ---------------------------------------------------------------------------------------


def test_rubbing_out_too_often_takes_nothing_back() -> None:
    pupil = AtTheKeys().keys("4 2 enter 5")
    pupil.keys("backspace backspace", every_ms=700)
    assert pupil.given == [42]
    pupil.keys("backspace", every_ms=701)
    assert pupil.given == []
    assert commands(pupil) == [Command.NOT_WHAT_I_SAID]


def test_a_run_of_backspaces_is_one_rubbing_out() -> None:
    """As a held key comes in a terminal, that cannot tell."""
    pupil = AtTheKeys().keys("4 2 enter 5 6")
    pupil.keys("backspace " * 50, every_ms=40)
    assert pupil.given == [42]
    assert commands(pupil) == []
    assert pupil.typing.digits == ()


def test_an_answer_typed_since_ends_the_rubbing_out() -> None:
    pupil = AtTheKeys().keys("4 7 backspace 2 enter backspace", every_ms=100)
    assert (pupil.given, commands(pupil)) == ([], [Command.NOT_WHAT_I_SAID])


def test_nothing_to_take_back_is_told_each_time() -> None:
    pupil = AtTheKeys().keys("backspace backspace")
    assert commands(pupil) == [Command.NOT_WHAT_I_SAID] * 2
    assert pupil.talk.said.count("There is nothing to take back.") == 2


@pytest.mark.parametrize("typed", ["4 2", "4 1"])
@pytest.mark.parametrize("every_ms", [50, 5000])
def test_the_same_key_at_once_puts_it_back(typed: str, every_ms: int) -> None:
    """Where it went on to after a wrong answer, and after a right one, it goes on to again."""
    pupil = AtTheKeys().keys(f"{typed} enter")
    before = (pupil.given, pupil.at, pupil.talk.said[-1], pupil.talk.answers[-1].right)
    pupil.keys("backspace", every_ms=every_ms)
    assert pupil.given == []
    assert "Taken back." in pupil.talk.said
    pupil.keys("backspace", every_ms=every_ms)
    assert (pupil.given, pupil.at, pupil.talk.said[-1], pupil.talk.answers[-1].right) == before
    assert pupil.told[-1] == PutBack(int(typed.replace(" ", "")))
    for _ in range(3):
        pupil.keys("backspace", every_ms=50)
        assert pupil.given == before[0], "one too many in the same run is no new taking back"


def test_what_was_not_heard_for_sure_is_no_surer_when_it_is_put_back() -> None:
    pupil = AtTheKeys(Talk(plan_of((38,), (5,)), Ear.OPEN)).keys("4 5 enter")
    pupil.talk.answer("three", 0.9, is_clear=False)
    pupil.follow()
    heard = pupil.talk.answers[-1]
    assert (heard.part, heard.sure) == (Part.GAP, False)
    pupil.keys("backspace backspace")
    again = pupil.talk.answers[-1]
    assert again.id != heard.id
    assert (again.given, again.part, again.sure, again.settled) == (3, Part.GAP, False, Settled.FOLLOWED)


@pytest.mark.parametrize("between", ["tab", "space", "5 backspace", "right", "up", "escape"])
def test_after_any_other_key_it_is_not_put_back(between: str) -> None:
    pupil = AtTheKeys().keys(f"4 2 enter backspace {between} backspace")
    assert pupil.given == []
    assert not any(isinstance(message, PutBack) for message in pupil.told)


@pytest.mark.parametrize(
    ("spoken", "given"),
    [("forty-one", [41]), ("forty-three", [43]), ("skip this one", [])],
    ids=["right", "wrong", "skip"],
)
def test_after_something_spoken_it_is_not_put_back(spoken: str, given: list[int]) -> None:
    pupil = AtTheKeys(Talk(plan_of((38, 57), (3, 5, 8)), Ear.OPEN)).keys("4 2 enter backspace")
    pupil.talk.answer(spoken)
    pupil.follow()
    assert pupil.given == given
    pupil.keys("backspace")
    assert pupil.given == []
    assert commands(pupil) == [Command.NOT_WHAT_I_SAID] * 2


def by_voice() -> AtTheKeys:
    return AtTheKeys(Talk(plan_of((38, 57), (3, 5, 8)), Ear.OPEN))


def test_a_number_said_back_is_taken_back_and_put_back() -> None:
    pupil = by_voice()
    pupil.talk.hear("forty-one", 0.8, heard=HeardId("spoken"))
    pupil.talk.wait()
    assert pupil.talk.said[-1] == "Forty-one."
    pupil.keys("backspace", every_ms=100)
    pupil.talk.wait()
    assert pupil.given == []
    pupil.keys("backspace")
    (answer,) = pupil.talk.answers
    assert (answer.given, answer.by, answer.certainty, answer.heard) == (41, By.VOICE, 0.8, "spoken")
    assert (answer.settled, answer.took_ms) == (Settled.SAID_BACK, None)
    assert not any(isinstance(row, Void) for row in pupil.talk.rows)


def test_a_number_that_was_asked_about_is_put_back_as_confirmed() -> None:
    pupil = by_voice()
    for _ in range(3):
        pupil.talk.hear("forty-one", 0.5)
        pupil.talk.wait()
    assert pupil.talk.said[-1] == "Was that forty-one? Yes or no."
    pupil.keys("backspace backspace")
    (answer,) = pupil.talk.answers
    assert (answer.given, answer.by, answer.certainty, answer.settled) == (41, By.VOICE, 0.5, Settled.CONFIRMED)


@given(
    st.sampled_from([By.KEYS, By.VOICE]),
    st.sampled_from([41, 42, 40, 113]),
    st.sampled_from([(), (31,), (14, 47)]),
    st.integers(0, 9_000),
)
def test_what_is_put_back_is_as_it_was_but_has_no_time(
    by: By, value: int, close_to: tuple[int, ...], thinking_ms: int
) -> None:
    """A second press is no quick recall, and what the hearing was worth has not changed."""
    pupil = by_voice()
    pupil.talk.wait(thinking_ms)
    if by is By.KEYS:
        pupil.keys(" ".join(str(value)) + " enter")
    else:
        pupil.talk.answer(Number(value, close_to=close_to))
        pupil.follow()
    (first,) = pupil.talk.answers
    assert first.took_ms is not None
    pupil.keys("backspace backspace", every_ms=100)
    (again,) = pupil.talk.answers
    assert again == replace(first, id=again.id, took_ms=None)
    assert again.id != first.id


def test_an_answer_for_a_later_part_is_put_back_as_that() -> None:
    """The whole answer, where the next ten was asked."""
    pupil = AtTheKeys().keys("4 1 enter help 4 3 enter")
    before = pupil.talk.answers[-1]
    assert (before.given, before.part) == (43, Part.WHOLE)
    pupil.keys("backspace backspace")
    assert pupil.talk.answers[-1] == replace(before, id=pupil.talk.answers[-1].id, took_ms=None)


# ---- half-typed answers stay with their questions --------------------------------------------------------


def test_a_half_typed_answer_comes_back_with_its_cell() -> None:
    pupil = AtTheKeys().keys("4 right")
    assert (pupil.at, pupil.typing.digits) == ((0, 1), ())
    pupil.keys("9 left")
    assert (pupil.at, pupil.typing.digits) == ((0, 0), (4,))
    assert pupil.told[-1] == StillTyped((4,))
    pupil.keys("1 enter")
    sent = [event for event in pupil.posted if isinstance(event, Entered)][-1]
    assert sent.began_ms == sent.at_ms - SLOWLY_MS, "thinking began again with the question"
    assert pupil.given == [41]
    assert (pupil.at, pupil.typing.digits) == ((0, 1), (9,))


def test_a_half_typed_answer_does_not_run_into_a_step() -> None:
    pupil = AtTheKeys().keys("4 help")
    ask = pupil.talk.state.progress.ask
    assert ask is not None
    assert ask.part is not Part.WHOLE
    assert pupil.typing.digits == ()


def test_hearing_the_question_again_keeps_what_is_typed() -> None:
    pupil = AtTheKeys().keys("4 space where-am-i keys-aloud say-again 1 enter")
    assert pupil.given == [41]


# ---- commands, buttons, steps back -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "command"),
    [
        ("space", Command.SAY_AGAIN),
        ("say-again", Command.SAY_AGAIN),
        ("help", Command.HELP),
        ("where-am-i", Command.WHERE_AM_I),
        ("left", Command.LEFT),
        ("right", Command.RIGHT),
        ("up", Command.UP),
        ("down", Command.DOWN),
        ("home", Command.ROW_START),
        ("end", Command.ROW_END),
        ("keys-aloud", Command.KEYS_ALOUD),
        ("skip", Command.SKIP),
        ("not-what-i-said", Command.NOT_WHAT_I_SAID),
        ("stop", Command.STOP),
    ],
)
def test_commands(key: str, command: Command) -> None:
    assert commands(AtTheKeys().keys(key)) == [command]


def test_tab_goes_round_and_says_where_it_is() -> None:
    pupil = AtTheKeys().keys("4 " + "tab " * 7)
    went = [message.focus for message in pupil.told if isinstance(message, FocusMoved)]
    ring = [focus for focus in Focus if focus is not Focus.PATTERNS]
    assert went == ring[2:] + ring[:2]
    assert pupil.told[-1] == FocusMoved(Focus.ANSWER, (4,))
    pupil.keys("shift-tab " * 7)
    back = [message.focus for message in pupil.told if isinstance(message, FocusMoved)][7:]
    assert back == [*ring[:1], *reversed(ring[1:])]
    assert pupil.posted == []


@pytest.mark.parametrize(
    ("tabs", "command"),
    [
        (6, Command.SAY_AGAIN),
        (1, Command.READ_ROW),
        (2, Command.HELP),
        (3, Command.NOT_WHAT_I_SAID),
        (4, Command.SKIP),
        (5, Command.STOP),
    ],
)
def test_a_button_is_pressed_once_and_leaves_what_is_typed(tabs: int, command: Command) -> None:
    pupil = AtTheKeys().keys("4 " + "tab " * tabs + "enter")
    assert commands(pupil) == [command]
    assert numbers(pupil) == []
    assert pupil.typing.focus is Focus.ANSWER
    assert pupil.talk.finished is (command is Command.STOP)


def test_in_the_opened_grid_tab_goes_to_patterns_too() -> None:
    pupil = AtTheKeys().keys("tab enter " + "tab " * 5 + "enter")
    assert commands(pupil) == [Command.READ_ROW, Command.PATTERNS]


def test_closing_the_grid_from_its_button_leaves_tab_a_way_on() -> None:
    pupil = AtTheKeys().keys("tab enter " + "tab " * 5 + "view tab enter")
    assert commands(pupil) == [Command.READ_ROW, Command.STOP]


def test_digits_go_to_the_answer_from_any_button() -> None:
    pupil = AtTheKeys().keys("tab tab 4 1 enter")
    assert pupil.given == [41]


def test_escape_goes_one_step_back_and_never_quits() -> None:
    pupil = AtTheKeys().keys("tab enter")
    assert pupil.typing.shows_grid
    pupil.keys("tab escape")
    assert (pupil.typing.focus, pupil.typing.shows_grid) == (Focus.ANSWER, True)
    pupil.keys("escape")
    assert not pupil.typing.shows_grid
    posted = len(pupil.posted)
    pupil.keys("4 escape escape escape")
    assert (len(pupil.posted), pupil.typing.digits) == (posted, (4,))
    pupil.talk.type("please wait")
    pupil.keys("escape")
    assert commands(pupil)[-1] is Command.GO_ON
    pupil.keys("1 enter")
    assert pupil.given == [41]


def not_begun() -> State:
    return opened(plan_of((38, 57), (3, 5, 8)), Progress(), Ear.OPEN)


def speaking() -> State:
    """The first question is being said."""
    return step(not_begun(), Began(0))[0]


def test_escape_hushes_and_does_nothing_else() -> None:
    typing = Typing(focus=Focus.STOP)
    assert pressed(typing, Pressed(Key.ESCAPE, 300), situation=situation(speaking()), heard_id=ID) == (
        replace(typing, question=situation(speaking()).question),
        (CutSpeech(),),
    )


@pytest.mark.parametrize(
    ("press", "message"),
    [(Pressed(Key.DIGIT, 300, digit=4), DigitTyped(4)), (Pressed(Key.TAB, 300), FocusMoved(Focus.GRID, ()))],
)
def test_a_key_with_a_sound_of_its_own_cuts_speech(press: Pressed, message: DigitTyped | FocusMoved) -> None:
    _, actions = pressed(Typing(), press, situation=situation(speaking()), heard_id=ID)
    assert actions == (CutSpeech(), SpeakKey(message))


@pytest.mark.parametrize("back", ["adult", "escape"])
def test_in_the_adults_turn_nothing_counts(back: str) -> None:
    pupil = AtTheKeys().keys("adult")
    assert pupil.told == [AdultHasTurn()]
    rows, said = len(pupil.talk.rows), len(pupil.talk.said)
    pupil.keys("4 1 enter help right backspace space tab enter")
    assert pupil.posted[0] == TurnTaken(1500)
    assert [event.digit for event in pupil.posted[1:] if isinstance(event, AdultMarked)] == [4, 1] and len(
        pupil.posted
    ) == 3, "digits mark, and there is no answer to mark yet"
    assert (len(pupil.talk.rows), len(pupil.talk.said)) == (rows, said)
    pupil.keys(back)
    assert pupil.posted[3:] == [TurnGivenBack(pupil.talk.now_ms)]
    assert pupil.talk.said[said:].count("Thirty-eight add three.") == 1
    assert pupil.keys("4 1 enter").given == [41]


def test_stop_means_stop_in_the_adults_turn_too() -> None:
    pupil = AtTheKeys().keys("adult stop")
    assert isinstance(pupil.posted[-1], InputEnded)
    assert pupil.talk.finished


def test_what_the_window_looks_like() -> None:
    """In the adult's turn, too: an adult may make it larger for the pupil."""
    pupil = AtTheKeys().keys("bigger smaller view adult colours")
    changes = (LookChange.BIGGER, LookChange.SMALLER, LookChange.NEXT_VIEW, LookChange.NEXT_COLOURS)
    assert pupil.others == [ChangeLook(change) for change in changes]


def test_a_look_is_told_in_place_of_what_is_being_said() -> None:
    pupil = AtTheKeys(Talk(plan_of((38, 57), (3, 5, 8)), Ear.KEYS, 2000))
    assert situation(pupil.talk.state).is_speaking
    pupil.keys("colours", every_ms=100)
    assert pupil.others == [CutSpeech(), ChangeLook(LookChange.NEXT_COLOURS)]


def test_another_view_takes_the_place_of_an_opened_grid() -> None:
    pupil = AtTheKeys().keys("tab enter")
    assert pupil.typing.shows_grid
    assert not pupil.keys("view").typing.shows_grid


# ---- letters of braille ------------------------------------------------------------------------------------


def letters(digits: str) -> list[Pressed]:
    return [Pressed(Key.DIGIT, 9_000, digit=int(digit), is_letter=True) for digit in digits]


def test_letters_that_stand_for_digits_are_read_back_before_they_are_judged() -> None:
    pupil = AtTheKeys().presses(letters("44"))
    assert pupil.told == [DigitTyped(4, is_letter=True)] * 2
    pupil.keys("enter")
    assert pupil.given == [44]
    assert pupil.told[2:] == [ReadBack(44)]


@pytest.mark.parametrize("keys", ["4 1 enter", "backspace 4 1 enter", "4 1 enter 4 3 enter"])
def test_typed_digits_are_not_read_back(keys: str) -> None:
    pupil = AtTheKeys()
    if keys.startswith("backspace"):
        pupil.presses(letters("4"))
    assert ReadBack(41) not in pupil.keys(keys).told


def test_letters_too_many_for_a_number_are_not_read_back() -> None:
    pupil = AtTheKeys().presses(letters("9999")).keys("enter")
    assert not any(isinstance(message, ReadBack) for message in pupil.told)
    assert pupil.given == []


def test_the_end_of_the_input() -> None:
    pupil = AtTheKeys().keys("close 4 1 enter escape")
    assert pupil.posted == [InputEnded(1500)]
    assert pupil.talk.finished


def test_before_the_practice_has_begun_no_key_counts() -> None:
    for key in Key:
        assert pressed(Typing(), Pressed(key, 0, digit=4), situation=situation(not_begun()), heard_id=ID) == (
            Typing(),
            (),
        )


# ---- whatever is pressed -----------------------------------------------------------------------------------


@pytest.mark.parametrize("key", [*(key.value for key in Key if key is not Key.DIGIT), "4"])
def test_every_key_twice_quickly(key: str) -> None:
    """At most one answer, and it is what was typed; nothing that counted is lost."""
    pupil = AtTheKeys().keys("4 1 enter 4 3")
    pupil.keys(f"{key} {key}", every_ms=50)
    assert pupil.given == ([41, 43] if key == "enter" else [41])
    empty = AtTheKeys().keys("4 1 enter").keys(f"{key} {key}", every_ms=50)
    assert empty.given == [41]


presses = st.lists(
    st.tuples(
        st.one_of(
            st.sampled_from([key for key in Key if key is not Key.CLOSE]), st.just(Key.DIGIT), st.just(Key.ENTER)
        ),
        st.integers(0, 9),
        st.sampled_from([0, 40, 300, 701, 4000]),
        st.sampled_from([False, False, False, True]),
    ),
    max_size=60,
)


@given(presses)
def test_storms(storm: list[tuple[Key, int, int, bool]]) -> None:
    """No key raises; every answer was typed and sent; nothing but stop or the last cell ends the practice."""
    pupil = AtTheKeys()
    sends = 0
    for key, digit, after_ms, is_repeat in storm:
        pupil.talk.now_ms += after_ms
        sends += key in (Key.ENTER, Key.BACKSPACE) and not is_repeat
        pupil.press(Pressed(key, pupil.talk.now_ms, is_repeat, digit if key is Key.DIGIT else None))
    kept = [row for row in pupil.talk.rows if isinstance(row, Answer)]
    assert len(kept) <= len(numbers(pupil)) <= sends
    assert {row.given for row in kept} <= set(numbers(pupil))
    for event in pupil.posted:
        if isinstance(event, Entered) and isinstance(event.heard, Number):
            assert int(event.text) == event.heard.value
            assert event.began_ms <= event.at_ms
    if pupil.talk.finished:
        is_all_done = len(pupil.talk.state.progress.closed) == 6
        assert (
            is_all_done
            or Command.STOP in commands(pupil)
            or isinstance(pupil.posted[-1], InputEnded)
            or _is_left(pupil)
        )


def _is_left(pupil: AtTheKeys) -> bool:
    """Cells that were skipped to the end are left for another day."""
    return any("left for another day" in line for line in pupil.talk.said)


def test_posts_are_in_order() -> None:
    """A number put back is told before it is answered."""
    pupil = AtTheKeys().keys("4 2 enter backspace")
    press = Pressed(Key.BACKSPACE, pupil.talk.now_ms + 20)
    _, actions = pressed(pupil.typing, press, situation=situation(pupil.talk.state), heard_id=ID)
    told, post = actions
    assert told == SpeakKey(PutBack(42))
    how = HowHeard(By.KEYS, HeardId("press 3"), None)
    assert post == Post(CountsAgain(Number(42), how, Settled.KEYS, Part.WHOLE, press.at_ms))


@pytest.mark.parametrize("tabs", range(len(Focus)))
def test_space_repeats_the_question_wherever_tab_is(tabs: int) -> None:
    pupil = AtTheKeys().keys("tab " * tabs)
    focus = pupil.typing.focus
    pupil.keys("space")
    (entered,) = (event for event in pupil.posted if isinstance(event, Entered))
    assert entered.heard == Given(Command.SAY_AGAIN)
    assert pupil.typing.focus is focus
