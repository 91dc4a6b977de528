"""What every clock must do."""

from datetime import timedelta

import pytest

from saythesum.app.rehearsal.computed_sound import SampleClock
from saythesum.app.setup.clock import RealClock
from saythesum.ports import Clock
from tests.fakes.clock import FakeClock


@pytest.fixture(params=[RealClock, FakeClock, SampleClock])
def clock(request: pytest.FixtureRequest) -> Clock:
    clock: Clock = request.param()
    return clock


def pass_some(clock: Clock) -> None:
    match clock:
        case FakeClock():
            clock.pass_ms(5)
        case SampleClock():
            clock.samples += 80
        case _:
            while clock.since_start_ms() < 1:
                pass


def test_it_begins_near_zero_and_never_runs_backwards(clock: Clock) -> None:
    times = [clock.since_start_ms()]
    for _ in range(20):
        pass_some(clock)
        times.append(clock.since_start_ms())
    assert times[0] >= 0
    assert times[-1] > 0
    assert times == sorted(times)


def test_the_time_of_day_is_utc_and_goes_on_with_it(clock: Clock) -> None:
    before = clock.now()
    pass_some(clock)
    assert before.utcoffset() == timedelta(0)
    assert clock.now() >= before
