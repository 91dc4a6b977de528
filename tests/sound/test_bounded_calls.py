"""Calls that never return: nobody waits for them for ever."""

from threading import Event

import pytest

from saythesum.errors import DeviceError
from saythesum.sound.bounded_calls import BoundedCalls


@pytest.fixture
def left_behind() -> list[str]:
    return []


def test_a_call_gives_what_it_gives(left_behind: list[str]) -> None:
    calls = BoundedCalls(lambda: left_behind.append("one"), within_s=60)
    assert calls.call(lambda: 40 + 5) == 45
    with pytest.raises(ZeroDivisionError):
        calls.call(lambda: 1 // 0)
    assert calls.call(lambda: "still there") == "still there"
    assert (calls.is_stuck, left_behind) == (False, [])


def test_a_call_that_does_not_return_is_left_behind_and_no_other_is_made_until_it_does(left_behind: list[str]) -> None:
    answered, made = Event(), []
    calls = BoundedCalls(lambda: left_behind.append("one"), within_s=0.05)
    with pytest.raises(DeviceError, match="does not answer"):
        calls.call(answered.wait)
    assert (calls.is_stuck, left_behind) == (True, ["one"])
    with pytest.raises(DeviceError, match="does not answer"):
        calls.call(lambda: made.append("another"))
    assert made == []
    answered.set()
    while calls.is_stuck:
        pass
    for _ in range(100):  # on a busy machine even this may be late
        if made:
            break
        try:
            calls.call(lambda: made.append("another"))
        except DeviceError:
            continue
    assert made[:1] == ["another"]


def test_closing_waits_for_nothing(left_behind: list[str]) -> None:
    calls = BoundedCalls(lambda: left_behind.append("one"), within_s=0.05)
    with pytest.raises(DeviceError):
        calls.call(Event().wait)
    calls.close()
    assert calls.is_stuck
