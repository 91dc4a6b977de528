"""Where samples stand in the run, by how blocks come in. Here one sample is one millisecond."""

from saythesum.sound.device_time import LATE_BLOCKS, LATE_MS, DeviceTime

BLOCK = 100


def _time() -> DeviceTime:
    return DeviceTime(1_000, rate_hz=1_000)


def test_blocks_that_are_held_up_move_nothing() -> None:
    time = _time()
    for number in range(1, 200):
        held_up = 0 if number % LATE_BLOCKS == 0 else 3 * LATE_MS
        time.arrived(number * BLOCK, 1_000 + number * BLOCK + held_up)
    assert time.began == 1_000


def test_a_block_that_comes_before_its_time_began_earlier() -> None:
    time = _time()
    time.arrived(BLOCK, 1_000 + 23)
    assert time.began == 1_000 - 77
    time.arrived(2 * BLOCK, 1_000 + 123)
    assert time.began == 1_000 - 77


def test_lateness_that_stays_is_lost_sound() -> None:
    time = _time()
    for number in range(1, LATE_BLOCKS + 1):
        assert time.began == 1_000
        time.arrived(number * BLOCK, 1_000 + number * BLOCK + 400 + number % 3)
    assert time.began == 1_400


def test_a_little_lateness_never_moves_anything() -> None:
    time = _time()
    for number in range(1, 200):
        time.arrived(number * BLOCK, 1_000 + number * BLOCK + LATE_MS)
    assert time.began == 1_000
