"""The ring against a plain list that keeps everything."""

import sys
from threading import Thread

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from saythesum.sound.ring import Ring

SIZE = 10


@given(st.lists(st.one_of(st.integers(0, 2 * SIZE), st.none()), max_size=40))
def test_it_gives_the_newest_frames_and_says_where_they_stand(steps: list[int | None]) -> None:
    """A number writes that many frames, None reads."""
    ring = Ring(frames=SIZE, channels=2)
    everything: list[int] = []
    read = 0
    for step in steps:
        if step is None:
            first, frames = ring.read()
            assert first == max(read, len(everything) - SIZE)
            assert frames[:, 0].tolist() == everything[first:]
            assert frames[:, 1].tolist() == [-value for value in everything[first:]]
            read = len(everything)
        else:
            block = np.arange(len(everything), len(everything) + step, dtype=np.int16)
            ring.write(np.stack([block, -block], axis=1))
            everything += block.tolist()
        assert ring.written == len(everything)


def test_a_block_over_unread_sound_is_counted() -> None:
    ring = Ring(frames=SIZE, channels=1)
    block = np.zeros((4, 1), np.int16)
    for _ in range(2):
        ring.write(block)
    assert ring.overflows == 0
    ring.write(block)
    ring.write(block)
    assert ring.overflows == 2
    ring.read()
    ring.write(block)
    assert ring.overflows == 2


def test_the_block_in_the_callers_hand_can_be_used_again() -> None:
    ring = Ring(frames=SIZE, channels=1)
    block = np.ones((4, 1), np.int16)
    ring.write(block)
    block[:] = 9
    assert ring.read()[1].max() == 1


def test_a_reader_in_a_hurry_never_sees_a_torn_or_repeated_frame() -> None:
    """Two threads: every frame carries its own number, so whatever is read must count up by one."""
    ring = Ring(frames=300, channels=1)
    count = 1_000_000

    def write() -> None:
        for begin in range(0, count, 40):
            ring.write((np.arange(begin, begin + 40) % 30_000).astype(np.int16)[:, None])

    switch_s = sys.getswitchinterval()
    sys.setswitchinterval(1e-6)  # the threads take turns as often as they can
    try:
        writer = Thread(target=write)
        writer.start()
        next_frame = 0
        is_on = True
        while is_on:
            is_on = writer.is_alive()
            first, frames = ring.read()
            assert first >= next_frame
            assert frames[:, 0].tolist() == (np.arange(first, first + len(frames)) % 30_000).tolist()
            next_frame = first + len(frames)
        writer.join()
    finally:
        sys.setswitchinterval(switch_s)
    assert next_frame == count
