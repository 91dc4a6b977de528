"""Whatever happens to the switch: the practice goes on, and nothing is answered by accident."""

from random import Random

import pytest

from saythesum.core.records.rows import EndReason
from saythesum.dialogue.turns.stack import AdultsTurn, OfferingPattern
from saythesum.keyboard.keys import Key, Pressed
from saythesum.ports import SwitchFound, SwitchLost
from saythesum.settings import Switch
from saythesum.sound.device_events import LoudspeakerFound, LoudspeakerLost
from saythesum.sound.devices import Device
from saythesum.wording.speak.said_switch import PRESS_TO_GO_ON, SWITCH_BACK, SWITCH_LOST
from tests.switching.hands import Kind, Pupil, Way
from tests.switching.room import SwitchRoom
from tests.talk import plan_of

ONE, BY_PRESSING, TWO = (way.value for way in Way)


def room_of(switch: Switch = ONE, *, starts: tuple[int, ...] = (38,), longest_ms: int = 300_000) -> SwitchRoom:
    return SwitchRoom(plan_of(starts, (5,)), switch, longest_ms=longest_ms)


def at_ease(room: SwitchRoom, seed: int = 0) -> Pupil:
    """A pupil who does everything right from now on."""
    way = next(way for way in Way if way.value == room.switch)
    pupil = Pupil(Kind.QUICK, way, Random(seed))
    room.chosen = lambda name: pupil.has_chosen(room, name)
    return pupil


def finishes(room: SwitchRoom) -> None:
    """From here on a pupil gets to the end of it, and no row is there but what was meant."""
    pupil = at_ease(room)
    room.pupil = pupil
    assert room.run() is EndReason.FINISHED
    assert [answer.given for answer in room.answers] == pupil.meant


@pytest.mark.parametrize("switch", [ONE, BY_PRESSING, TWO])
@pytest.mark.parametrize("held_ms", [60_000, 3_000])
def test_held_for_a_minute_it_is_one_press(switch: Switch, held_ms: int) -> None:
    """One choice at the most, and with two switches or where presses move on, none."""
    room = room_of(switch, longest_ms=8_000 + held_ms)
    room.press(8_000, held_ms=held_ms + 1_000)
    for repeat_ms in range(8_500, 8_000 + held_ms, 40):
        room.agenda.at(repeat_ms, Pressed(Key.SWITCH, repeat_ms, is_repeat=True))
    assert room.run() is None
    assert room.answers == []
    assert len(room.choices) == (1 if switch is ONE else 0)


def test_a_switch_that_bounces_without_end_chooses_once() -> None:
    dice = Random(21)
    room = room_of(longest_ms=60_000)
    at_ms = 10_000
    while at_ms < 50_000:
        room.press(at_ms, held_ms=20)
        at_ms += dice.randint(30, 450)
    room.run()
    assert len(room.choices) == 1
    assert room.answers == []


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("first", [Key.SWITCH, Key.SECOND_SWITCH])
def test_both_at_once_choose_nothing(first: Key, seed: int) -> None:
    """A hand that lands on both, whichever of them is a little before the other."""
    dice = Random(seed)
    room = room_of(TWO, longest_ms=60_000)
    room.press(8_000, Key.SWITCH)
    for at_ms in range(10_000, 50_000, 2_000):
        second = Key.SECOND_SWITCH if first is Key.SWITCH else Key.SWITCH
        room.press(at_ms, first)
        room.press(at_ms + dice.randint(0, 79), second)
    room.run()
    assert room.choices == []


@pytest.mark.parametrize("switch", [ONE, BY_PRESSING])
def test_unplugged_in_the_middle_it_is_told_and_waited_for(switch: Switch) -> None:
    room = room_of(switch)
    room.press(8_000, held_ms=50)
    room.agenda.at(8_300, SwitchLost(8_300))
    room.agenda.at(90_000, SwitchFound(90_000))

    def nothing_meanwhile(room: SwitchRoom, offered: str) -> None:
        if 8_300 < room.now_ms < 90_000:
            assert not offered
        elif room.now_ms >= 90_000:
            room.pupil = at_ease(room)
            room.pupil(room, offered)

    room.pupil = nothing_meanwhile
    assert room.run() is EndReason.FINISHED
    assert (room.written.count(SWITCH_LOST), room.written.count(SWITCH_BACK)) == (1, 1)
    assert [answer.given for answer in room.answers] == [43]


def test_a_loudspeaker_that_goes_takes_the_offers_with_it() -> None:
    """Without a window nobody would know what a press chooses."""
    room = room_of()
    room.agenda.at(9_000, LoudspeakerLost("The loudspeaker has gone; plug it in again."))
    room.press(30_000)
    room.press(32_000)
    room.agenda.at(60_000, LoudspeakerFound(Device("Ferry speaker", "ALSA", 0, 2, 48_000)))
    finishes(room)
    assert not [at for at, _ in room.offered if 9_000 < at < 60_000]
    assert not [at for at, _ in room.choices if at < 60_000]


def test_the_adult_takes_the_turn_in_the_middle_and_the_switch_does_nothing_until_it_is_given_back() -> None:
    room = room_of()
    room.agenda.at(12_000, Pressed(Key.ADULT, 12_000))
    for at_ms in range(14_000, 40_000, 1_000):
        room.press(at_ms)
    room.agenda.at(50_000, Pressed(Key.ADULT, 50_000))

    def watched(room: SwitchRoom, offered: str) -> None:
        if room.now_ms >= 50_000:
            room.pupil = at_ease(room)
            room.pupil(room, offered)

    room.pupil = watched
    assert room.run() is EndReason.FINISHED
    assert not [at for at, _ in (*room.offered, *room.choices) if 12_000 < at < 50_000]


def test_a_pupil_calls_for_the_adult_and_takes_the_turn_back() -> None:
    """Two presses take it back, so that none does it by accident."""
    room = room_of()
    seen: list[bool] = []

    def calls(room: SwitchRoom, offered: str) -> None:
        is_adults = isinstance(room.runner.state.talk.topics[-1], AdultsTurn)
        if offered == "The adult's turn.":
            room.press(500)
        elif is_adults and not seen and not offered:
            seen.append(True)
            room.press(20_000)
        elif offered == "Back to my turn.":
            room.pupil = at_ease(room)
            room.press(700)

    room.pupil = calls
    assert room.run() is EndReason.FINISHED
    assert seen == [True]
    assert [offer for _, offer in room.choices[:1]] == ["The adult's turn."]
    assert "Back to my turn." in [name for _, name in room.offered]
    assert [answer.given for answer in room.answers] == [43]


def test_after_three_silent_rounds_it_waits_for_ever_and_a_press_begins_again() -> None:
    room = room_of(longest_ms=24 * 3_600_000)
    day_ms = 20 * 3_600_000
    room.press(day_ms)

    def later(room: SwitchRoom, offered: str) -> None:
        if room.now_ms >= day_ms:
            room.pupil = at_ease(room)
            room.pupil(room, offered)

    room.pupil = later
    assert room.run() is EndReason.FINISHED
    before = [name for at, name in room.offered if at < day_ms]
    assert before.count("Zero.") == 3
    assert before.count("Stop.") == 3
    assert room.written.count(PRESS_TO_GO_ON) == 1


def test_whoever_sits_beside_can_answer_by_keys_in_the_middle() -> None:
    room = room_of()
    for place, digit in enumerate((4, 3)):
        room.agenda.at(9_000 + 300 * place, Pressed(Key.DIGIT, 9_000 + 300 * place, digit=digit))
    room.agenda.at(10_000, Pressed(Key.ENTER, 10_000))
    assert room.run() is EndReason.FINISHED
    assert [(answer.given, answer.by) for answer in room.answers] == [(43, "keys")]


@pytest.mark.parametrize("switch", [ONE, BY_PRESSING, TWO])
def test_answers_of_three_digits_have_three_places_in_every_sum(switch: Switch) -> None:
    room = SwitchRoom(plan_of((38, 97), (5,)), switch)
    pupil = at_ease(room)
    pupil.places = 3
    room.pupil = pupil
    assert room.run() is EndReason.FINISHED
    assert [answer.given for answer in room.answers] == [43, 102]
    assert (0, 4, 3) in room.typed
    assert (1, 0, 2) in room.typed


def test_a_talk_about_a_pattern_is_reached_and_gone_through_by_one_switch() -> None:
    """Yes to the offer, ready after listening, and every number; the practice ends as by keys."""
    plan = plan_of((38, 58), (3, 5, 8))
    room = SwitchRoom(plan, ONE)
    seen: set[str] = set()
    sums = at_ease(room)

    def pupil(room: SwitchRoom, offered: str) -> None:
        state = room.runner.state
        top, shown = state.talk.topics[-1], room.live._scanner.shown if room.live._scanner else None
        if not offered and shown and shown.is_open:
            seen.add("waited for a press")
            room.press(400)
        elif isinstance(top, OfferingPattern):
            seen.add("offered")
            room.press(400) if offered == "Yes." else None
        elif state.progress.is_talking and offered in ("Go on.", "Skip this one."):
            seen.add("talked")
            room.press(400)
        elif not state.progress.is_talking:
            sums(room, offered)

    room.pupil = pupil
    assert room.run() is EndReason.FINISHED
    assert {"offered", "talked", "waited for a press"} <= seen
