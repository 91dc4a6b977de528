"""What every microphone must do: the one with a device, whether or not that tells its time, and the tests' own."""

from collections.abc import Iterator
from itertools import pairwise
from typing import Protocol

import numpy as np
import pytest

from saythesum.ports import LISTENING_RATE_HZ, Captured, Microphone, Samples
from saythesum.sound.devices import Direction, chosen
from saythesum.sound.microphone import PortAudioMicrophone
from saythesum.sound.portaudio import PortAudio
from tests.fakes.clock import FakeClock
from tests.fakes.one_microphone import COMES_IN_AFTER_MS, OneMicrophone
from tests.fakes.sound_devices import FedMicrophone

BLOCK_MS = 50
BLOCK = BLOCK_MS * LISTENING_RATE_HZ // 1000


class Room(Protocol):
    @property
    def microphone(self) -> Microphone: ...

    def sounds(self, block: Samples) -> None:
        """The next 50 ms."""


class Fed:
    def __init__(self) -> None:
        self.microphone = FedMicrophone()
        self._at = 0

    def sounds(self, block: Samples) -> None:
        self.microphone.feed(self._at, block)
        self._at += len(block)


class OnDevice:
    def __init__(self, *, tells_time: bool) -> None:
        self._clock = FakeClock()
        self._device = OneMicrophone(self._clock, tells_time=tells_time)
        portaudio = PortAudio(self._device)
        named = chosen(portaudio.devices(), Direction.IN, None)
        self.microphone = PortAudioMicrophone(portaudio, named, clock=self._clock, post=lambda _: None, only_this=True)
        self._ended_ms = 0

    def sounds(self, block: Samples) -> None:
        self._ended_ms += BLOCK_MS
        self._device.give(block, self._ended_ms)


@pytest.fixture(params=["fed", "device that tells its time", "device that does not"])
def room(request: pytest.FixtureRequest) -> Iterator[Room]:
    room: Room = Fed() if request.param == "fed" else OnDevice(tells_time=request.param.endswith("tells its time"))
    yield room
    room.microphone.close()


def block(number: int) -> Samples:
    return np.full(BLOCK, number / 100, np.float32)


def read(room: Room, count: int) -> list[Captured]:
    """All that has been sounded: as many blocks."""
    found: list[Captured] = []
    while sum(len(each.samples) for each in found) < count * BLOCK:
        found.append(room.microphone.read(10))
    return found


def test_everything_is_read_once_and_in_order(room: Room) -> None:
    for number in range(1, 9):
        room.sounds(block(number))
    whole = np.concatenate([each.samples for each in read(room, 8)])
    expected = np.concatenate([block(number) for number in range(1, 9)])
    assert np.allclose(whole, expected, atol=1e-4)
    assert len(room.microphone.read(0.01).samples) == 0


def test_each_piece_stands_behind_the_one_before_it_where_it_was_recorded(room: Room) -> None:
    found = []
    for number in range(1, 9):
        room.sounds(block(number))
        found += read(room, 1)
    assert all(later.at_sample == before.end_sample for before, later in pairwise(found))
    off = found[-1].end_sample - 8 * BLOCK
    assert 0 <= off <= COMES_IN_AFTER_MS * LISTENING_RATE_HZ // 1000, "what tells no time may stand late by its way in"


def test_where_nothing_is_new_nothing_is_given(room: Room) -> None:
    assert len(room.microphone.read(0.01).samples) == 0
    room.sounds(block(1))
    (heard,) = read(room, 1)
    nothing = room.microphone.read(0.01)
    assert (len(nothing.samples), nothing.at_sample) == (0, heard.end_sample)
