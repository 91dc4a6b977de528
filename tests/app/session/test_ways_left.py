"""Who can still answer when window, terminal and sound go away, in any order."""

from itertools import permutations

import pytest

from saythesum.app.session.speech.listener import ListeningLost
from saythesum.app.session.ways_left import ScreenLost, WaysLeft
from saythesum.sound.device_events import LoudspeakerFound, LoudspeakerLost, MicrophoneFound, MicrophoneLost
from saythesum.sound.devices import Device

HEADSET = Device("Ferry headset", "ALSA", 1, 2, 48_000)
SCREEN, MICROPHONE, LOUDSPEAKER = ScreenLost("gone"), MicrophoneLost("gone"), LoudspeakerLost("gone")
ORDERS = list(permutations([SCREEN, MICROPHONE, LOUDSPEAKER]))


@pytest.mark.parametrize("losses", ORDERS)
def test_the_last_way_that_goes_is_the_end(losses: tuple[object, ...]) -> None:
    ways = WaysLeft(has_terminal=False, has_window=True, hears_by_itself=True)
    for loss in losses:
        assert not ways.are_none
        ways.note(loss)
    assert ways.are_none


@pytest.mark.parametrize("losses", ORDERS)
def test_at_a_terminal_it_goes_on(losses: tuple[object, ...]) -> None:
    ways = WaysLeft(has_terminal=True, has_window=True, hears_by_itself=True)
    for loss in losses:
        ways.note(loss)
    assert not ways.are_none


def test_an_ear_that_opens_by_key_is_no_way_by_itself() -> None:
    ways = WaysLeft(has_terminal=False, has_window=True, hears_by_itself=False)
    ways.note(SCREEN)
    assert ways.are_none


def test_what_comes_back_counts_again() -> None:
    ways = WaysLeft(has_terminal=False, has_window=False, hears_by_itself=True)
    for lost in (MICROPHONE, LOUDSPEAKER):
        ways.note(lost)
    ways.note(MicrophoneFound(HEADSET))
    assert not ways.are_none
    ways.note(MICROPHONE)
    ways.note(LoudspeakerFound(HEADSET))
    assert not ways.are_none, "the pupil can be told to plug the microphone in"


def test_without_an_engine_nobody_is_heard() -> None:
    ways = WaysLeft(has_terminal=False, has_window=False, hears_by_itself=True)
    ways.note(ListeningLost("no model"))
    assert ways.are_none
