"""The queue of sounds against a timeline written down by hand and by a slower way. One sample is one millisecond."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from saythesum.dialogue.turns.events import UtteranceId
from saythesum.sound.playback_queue import Mono, PlaybackQueue

RATE_HZ = 1_000


def _queued(queue: PlaybackQueue, id: int, length: int, *, after_ms: int = 0) -> None:
    queue.append(UtteranceId(id), after_ms=after_ms)
    queue.add(np.full(length, id, np.int16), is_last=True)


def _played(queue: PlaybackQueue, ms: int, *, from_ms: int = 0, block: int = 10) -> list[int]:
    out: list[int] = []
    for at in range(from_ms, from_ms + ms, block):
        made: Mono = np.full(block, 99, np.int16)
        queue.fill(made, at)
        out += made.tolist()
    return out


def test_an_empty_line_is_silence() -> None:
    assert _played(PlaybackQueue(RATE_HZ), 20) == [0] * 20


def test_sounds_in_order_with_pauses_between() -> None:
    queue = PlaybackQueue(RATE_HZ, ready_ms=5)
    _queued(queue, 1, 7, after_ms=50)
    _queued(queue, 2, 4, after_ms=13)
    assert _played(queue, 40) == [0] * 5 + [1] * 7 + [0] * 13 + [2] * 4 + [0] * 11
    assert queue.over(11) == []
    assert queue.next_over_ms == 12
    assert queue.over(12) == [1]
    assert queue.over(40) == [2]
    assert queue.is_empty


def test_a_sound_that_comes_after_the_pause_begins_at_once() -> None:
    queue = PlaybackQueue(RATE_HZ)
    _queued(queue, 1, 5, after_ms=10)
    _played(queue, 30)
    assert queue.over(30) == [1]
    _queued(queue, 2, 3, after_ms=10)
    assert _played(queue, 10, from_ms=30) == [2] * 3 + [0] * 7


def test_what_is_not_whole_waits_for_more() -> None:
    queue = PlaybackQueue(RATE_HZ)
    queue.append(UtteranceId(1), after_ms=0)
    queue.add(np.full(5, 1, np.int16), is_last=False)
    assert _played(queue, 10) == [1] * 5 + [0] * 5
    assert queue.over(10) == []
    queue.add(np.full(3, 1, np.int16), is_last=True)
    assert _played(queue, 10, from_ms=10) == [1] * 3 + [0] * 7
    assert queue.over(13) == [1]


def test_a_sound_that_turns_out_to_be_whole_ended_where_it_stopped() -> None:
    queue = PlaybackQueue(RATE_HZ)
    queue.append(UtteranceId(1), after_ms=0)
    queue.add(np.full(5, 1, np.int16), is_last=False)
    _played(queue, 20)
    queue.add(np.zeros(0, np.int16), is_last=True)
    assert _played(queue, 10, from_ms=20) == [0] * 10
    assert queue.over(5) == [1]


def test_it_says_when_the_end_of_a_sound_is_in_a_block() -> None:
    queue = PlaybackQueue(RATE_HZ)
    _queued(queue, 1, 15)
    out: Mono = np.zeros(10, np.int16)
    assert [queue.fill(out, at) for at in (0, 10, 20)] == [False, True, False]


def test_cut_tells_how_much_was_heard_of_each() -> None:
    queue = PlaybackQueue(RATE_HZ)
    _queued(queue, 1, 50)
    _queued(queue, 2, 50)
    _played(queue, 60)  # the device has taken more than was heard
    assert queue.cut(30) == [(1, 30), (2, 0)]
    assert queue.is_empty
    assert _played(queue, 10, from_ms=30) == [0] * 10


def test_after_a_cut_nothing_waits() -> None:
    queue = PlaybackQueue(RATE_HZ)
    _queued(queue, 1, 50)
    _played(queue, 20)
    queue.cut(20)
    _queued(queue, 2, 5, after_ms=1_000)
    assert _played(queue, 10, from_ms=20) == [2] * 5 + [0] * 5


def test_what_was_cut_takes_no_more_pieces() -> None:
    queue = PlaybackQueue(RATE_HZ)
    queue.append(UtteranceId(1), after_ms=0)
    queue.add(np.full(5, 1, np.int16), is_last=False)
    queue.cut(0)
    queue.add(np.full(5, 1, np.int16), is_last=True)
    assert _played(queue, 10) == [0] * 10


@given(
    st.lists(st.tuples(st.integers(0, 30), st.integers(0, 40)), min_size=1, max_size=6),
    st.integers(1, 17),
    st.integers(0, 25),
)
def test_any_sounds_in_any_blocks(sounds: list[tuple[int, int]], block: int, ready_ms: int) -> None:
    """Lengths and pauses; the ends are told in order, each when the timeline says."""
    queue = PlaybackQueue(RATE_HZ, ready_ms=ready_ms)
    expected: list[int] = [0] * ready_ms
    ends = []
    for id, (length, after_ms) in enumerate(sounds, start=1):
        _queued(queue, id, length, after_ms=after_ms)
        expected += [0] * (after_ms if id > 1 else 0) + [id] * length
        ends.append((len(expected), id))
    total = len(expected) + 2 * block
    played = _played(queue, total, block=block)
    assert played[: len(expected)] == expected
    assert not any(played[len(expected) :])
    assert [(at, id) for at in range(total + 1) for id in queue.over(at)] == ends
