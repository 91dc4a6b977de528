"""Where samples stand in the run, by how blocks come in. Here one sample is one millisecond."""

from saythesum.sound.device_clock import LATE_BLOCKS, LATE_MS, OFF_BLOCKS, OFF_MS, DeviceTime

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


def _told_up_to(number: int, *, lost: int = 0) -> DeviceTime:
    """That many blocks, the device saying of each when it was recorded; the last sample of block 0 was at 1,040."""
    time = _time()
    for block in range(number):
        time.recorded((block + 1) * BLOCK, 1_040 + block * BLOCK + lost)
    return time


def test_a_device_that_tells_when_it_recorded_is_believed_at_once() -> None:
    assert _told_up_to(1).began == 940
    assert _told_up_to(100).began == 940


def test_what_a_device_tells_wrongly_once_moves_nothing() -> None:
    """Also not where it is a little off for good."""
    time = _told_up_to(10)
    for block, off in enumerate((2_000, 0, 2_000, -2_000, 0, *[OFF_MS] * 50), 10):
        time.recorded((block + 1) * BLOCK, 1_040 + block * BLOCK + off)
    assert time.began == 940


def test_sound_that_a_device_lost_is_known_a_few_blocks_later() -> None:
    time = _told_up_to(10)
    for block in range(10, 10 + OFF_BLOCKS):
        assert time.began == 940
        time.recorded((block + 1) * BLOCK, 1_040 + block * BLOCK + 300 + block % 2)
    assert time.began == 1_240


def test_a_device_whose_clock_is_fast_is_followed() -> None:
    """One part in a thousand: far more than any real one."""
    time = _time()
    for block in range(2_000):
        time.recorded((block + 1) * BLOCK, 1_000 + (block + 1) * BLOCK * 999 // 1_000)
        assert abs(time.began + (block + 1) * BLOCK - 1_000 - (block + 1) * BLOCK * 999 // 1_000) <= OFF_MS + 1
