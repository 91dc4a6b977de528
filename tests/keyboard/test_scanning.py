"""The scan by itself: what is offered, and what presses, rests and bounces come to."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.core.exercises.adding import Sum
from saythesum.core.grids.grid import Grid
from saythesum.core.meanings import Awaiting
from saythesum.dialogue.tutor.plan import activity, planned
from saythesum.keyboard.answer_entry import Situation, situation
from saythesum.keyboard.keys import Key, Pressed
from saythesum.keyboard.offers import Offer, most_digits, offers
from saythesum.keyboard.scanning import (
    OF_THE_LAST_MS,
    Choose,
    FallSilent,
    SayOffer,
    Scan,
    ScanAction,
    Scanned,
    WaitFor,
    offer_said,
    offering,
    switch_pressed,
    wait_over,
)
from saythesum.settings import Settings, Switch
from tests.talk import PRACTICE, Talk, plan_of

ONE = Switch(first="Space")
THREE = (Offer(Key.DIGIT, 0), Offer(Key.DIGIT, 1), Offer(Key.HELP))


def asked() -> Situation:
    talk = Talk(plan_of((38,), (5,)))
    talk.begin()
    return situation(talk.state)


def keys(offered: tuple[Offer, ...]) -> list[Key]:
    return [offer.key for offer in offered]


EVERY_ROUND = {Key.BACKSPACE, Key.SPACE, Key.HELP, Key.SKIP, Key.PAUSE, Key.ADULT, Key.STOP}


@pytest.mark.parametrize("typed", [(), (4,), (4, 3)])
def test_rubbing_out_hearing_again_help_skip_pause_and_stop_are_in_every_round(typed: tuple[int, ...]) -> None:
    assert set(keys(offers(asked(), typed, 2, is_called=False))) >= EVERY_ROUND


def test_digits_come_from_nought_until_all_places_are_filled_and_then_thats_it() -> None:
    assert [offer.digit for offer in offers(asked(), (), 2, is_called=False)][:11] == [*range(10), None]
    second = offers(asked(), (4,), 2, is_called=False)
    assert [offer.digit for offer in second][:10] == [*range(10)]
    assert second[10].key is Key.ENTER
    assert offers(asked(), (4, 3), 2, is_called=False)[0].key is Key.ENTER


def test_in_a_talk_about_patterns_a_number_may_be_longer_than_any_of_the_grid() -> None:
    talk = replace(asked(), is_talk=True)
    third = offers(talk, (1, 0), 2, is_called=False)
    assert [offer.key for offer in third][:2] == [Key.ENTER, Key.DIGIT]
    assert offers(talk, (1, 0, 9, 9), 2, is_called=False)[1].key is Key.BACKSPACE


def test_a_list_of_sums_has_room_for_its_longest_number() -> None:
    listed = Grid("Oars", (), (), listed=(Sum(38, 5), Sum(97, 8)))
    plan = planned(PRACTICE, [activity(listed, 0)], Settings())
    assert most_digits(plan) == 3


def test_yes_or_no_and_being_ready_are_offered_where_they_are_awaited() -> None:
    choice = replace(asked(), awaits=Awaiting.CHOICE)
    ready = replace(asked(), awaits=Awaiting.COMMAND)
    assert keys(offers(choice, (), 2, is_called=False))[:2] == [Key.YES, Key.NO]
    assert keys(offers(ready, (), 2, is_called=False))[0] is Key.GO_ON


def test_nothing_is_offered_while_the_tool_speaks_or_in_an_adults_turn_nobody_called_for() -> None:
    assert offers(replace(asked(), awaits=None), (), 2, is_called=False) == ()
    assert offers(replace(asked(), is_adults_turn=True), (), 2, is_called=False) == ()
    assert keys(offers(replace(asked(), is_adults_turn=True), (), 2, is_called=True)) == [Key.ADULT]


@pytest.mark.parametrize(
    ("starts", "amounts", "digits"), [((38, 57), (3, 5), 2), ((97, 38), (5,), 3), ((12,), (3,), 2)]
)
def test_every_number_has_as_many_places_as_the_longest(
    starts: tuple[int, ...], amounts: tuple[int, ...], digits: int
) -> None:
    assert most_digits(plan_of(starts, amounts)) == digits


# ---- one switch, things come by themselves


def begun(switch: Switch = ONE) -> Scan:
    return offering(Scan(), THREE, switch, 0, by_itself=True)[0]


def passed(scan: Scan, at_ms: int, switch: Switch = ONE) -> Scanned:
    """What is offered has been said and its time is over."""
    scan, _ = offer_said(scan, switch, at_ms)
    return wait_over(scan, scan.wait, switch, at_ms)


def offered(actions: tuple[ScanAction, ...]) -> list[Offer]:
    return [action.offer for action in actions if isinstance(action, SayOffer)]


def chosen(actions: tuple[ScanAction, ...]) -> list[Offer]:
    return [action.offer for action in actions if isinstance(action, Choose)]


def test_one_comes_after_the_other_and_begins_anew_after_the_last() -> None:
    scan, came = begun(), []
    for at_ms in range(2_000, 10_000, 2_000):
        scan, actions = passed(scan, at_ms)
        came += offered(actions)
    assert came == [THREE[1], THREE[2], THREE[0], THREE[1]]


def test_its_time_is_not_over_until_it_has_been_said() -> None:
    scan, actions = wait_over(begun(), begun().wait, ONE, 2_000)
    assert actions == ()
    _, actions = offer_said(scan, ONE, 2_700)
    assert offered(actions) == [THREE[1]]


def test_a_press_chooses_what_is_offered() -> None:
    scan, _ = passed(begun(), 2_000)
    scan, actions = switch_pressed(scan, Pressed(Key.SWITCH, 2_600), ONE)
    assert chosen(actions) == [THREE[1]]
    assert scan.offered is None


@pytest.mark.parametrize(("after_ms", "meant"), [(OF_THE_LAST_MS - 1, THREE[0]), (OF_THE_LAST_MS, THREE[1])])
def test_a_press_just_after_a_change_was_for_the_one_before(after_ms: int, meant: Offer) -> None:
    scan, _ = passed(begun(), 2_000)
    _, actions = switch_pressed(scan, Pressed(Key.SWITCH, 2_000 + after_ms), ONE)
    assert chosen(actions) == [meant]


def test_the_first_of_a_round_is_never_taken_for_the_last_of_the_one_before() -> None:
    """Which is "Stop"."""
    scan = begun()
    for at_ms in (2_000, 4_000, 6_000):
        scan, _ = passed(scan, at_ms)
    _, actions = switch_pressed(scan, Pressed(Key.SWITCH, 6_010), ONE)
    assert chosen(actions) == [THREE[0]]


def test_after_three_silent_rounds_nothing_more_is_offered_until_a_press() -> None:
    scan, told = begun(), []
    for at_ms in range(2_000, 20_000, 2_000):
        scan, actions = passed(scan, at_ms)
        told += [action for action in actions if isinstance(action, FallSilent)]
    assert (len(told), scan.offered) == (1, None)
    scan, actions = switch_pressed(scan, Pressed(Key.SWITCH, 90_000), ONE)
    assert (offered(actions), chosen(actions)) == ([THREE[0]], [])


def test_an_old_wait_means_nothing() -> None:
    scan, _ = passed(begun(), 2_000)
    assert wait_over(scan, begun().wait, ONE, 2_001) == (scan, ())


# ---- one switch, each press moves on

BY_PRESSING = Switch(first="Space", scanning="by pressing")


def test_nothing_is_chosen_by_resting_before_the_first_press() -> None:
    scan, actions = offering(Scan(), THREE, BY_PRESSING, 0, by_itself=True)
    assert (scan.offered, actions) == (None, ())


def test_presses_move_on_and_a_rest_chooses() -> None:
    scan, _ = offering(Scan(), THREE, BY_PRESSING, 0, by_itself=True)
    for at_ms in (1_000, 2_000):
        scan, _ = switch_pressed(scan, Pressed(Key.SWITCH, at_ms), BY_PRESSING)
        scan, _ = switch_pressed(scan, Pressed(Key.SWITCH, at_ms + 80, is_let_go=True), BY_PRESSING)
    _, actions = passed(scan, 4_100, BY_PRESSING)
    assert chosen(actions) == [THREE[1]]


def test_no_rest_begins_while_it_is_held() -> None:
    scan, _ = offering(Scan(), THREE, BY_PRESSING, 0, by_itself=True)
    scan, _ = switch_pressed(scan, Pressed(Key.SWITCH, 1_000), BY_PRESSING)
    scan, actions = passed(scan, 3_000, BY_PRESSING)
    assert actions == ()
    scan, actions = switch_pressed(scan, Pressed(Key.SWITCH, 61_000, is_let_go=True), BY_PRESSING)
    assert [action.ms for action in actions if isinstance(action, WaitFor)] == [BY_PRESSING.pace_ms]
    _, actions = wait_over(scan, scan.wait, BY_PRESSING, 63_000)
    assert chosen(actions) == [THREE[0]]


# ---- two switches

TWO = Switch(first="Space", second="F8")


def test_one_moves_and_the_other_chooses_a_moment_later() -> None:
    scan, _ = offering(Scan(), THREE, TWO, 0, by_itself=True)
    scan, actions = switch_pressed(scan, Pressed(Key.SWITCH, 1_000), TWO)
    assert offered(actions) == [THREE[0]]
    scan, actions = switch_pressed(scan, Pressed(Key.SECOND_SWITCH, 2_000), TWO)
    assert chosen(actions) == []
    _, actions = wait_over(scan, scan.wait, TWO, 2_080)
    assert chosen(actions) == [THREE[0]]


def test_nothing_passes_by_itself() -> None:
    scan, _ = offering(Scan(), THREE, TWO, 0, by_itself=True)
    scan, actions = switch_pressed(scan, Pressed(Key.SWITCH, 1_000), TWO)
    assert not [action for action in actions if isinstance(action, WaitFor)]
    assert offer_said(scan, TWO, 1_500)[1] == ()


# ---- whatever happens

SWITCHES = [ONE, BY_PRESSING, TWO, Switch(first="Space", debounce_ms=0)]
_EVENTS = st.lists(
    st.tuples(
        st.integers(0, 3_000), st.sampled_from(["press", "second", "let go", "repeat", "said", "wait", "old wait"])
    ),
    max_size=60,
)


@given(events=_EVENTS, place=st.integers(0, len(SWITCHES) - 1))
def test_never_more_choices_than_presses_and_never_two_within_the_debounce(
    events: list[tuple[int, str]], place: int
) -> None:
    switch = SWITCHES[place]
    scan, _ = offering(Scan(), THREE, switch, 0, by_itself=True)
    at_ms = presses = choices = 0
    pressed_ms: list[int] = []
    for after_ms, event in events:
        at_ms += after_ms
        key = Key.SECOND_SWITCH if event == "second" else Key.SWITCH
        if event in ("press", "second"):
            presses += 1
            if not pressed_ms or at_ms - pressed_ms[-1] >= switch.debounce_ms:
                pressed_ms.append(at_ms)
        match event:
            case "said":
                scan, actions = offer_said(scan, switch, at_ms)
            case "wait":
                scan, actions = wait_over(scan, scan.wait, switch, at_ms)
            case "old wait":
                scan, actions = wait_over(scan, scan.wait - 1, switch, at_ms)
            case _:
                press = Pressed(key, at_ms, is_repeat=event == "repeat", is_let_go=event == "let go")
                scan, actions = switch_pressed(scan, press, switch)
        choices += len(chosen(actions))
        if chosen(actions):
            assert chosen(actions)[0] in THREE
            scan, _ = offering(scan, THREE, switch, at_ms, by_itself=True)
    assert choices <= len(pressed_ms)
