"""Who listens on a real accessibility bus, and that each of them is called before anything is said."""

import signal
import subprocess
import time
from pathlib import Path
from threading import Event

import pytest

from saythesum.screen.accessibility.listeners import Listeners, registered_events
from tests.tools.assistive.client import DEBIANS_PYTHON
from tests.tools.assistive.session import assistive_session

LISTENER = Path(__file__).parents[1] / "tools" / "assistive" / "at_spi_listener.py"
LONGEST_S = 60


def wait_until_registered() -> None:
    """Its request is on its way when it says that it listens."""
    deadline = time.perf_counter() + LONGEST_S
    while not any("announcement" in event.lower() for event in registered_events() or ()):
        assert time.perf_counter() < deadline
        time.sleep(0.02)


def test_a_listener_is_found_and_one_that_is_busy_is_waited_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Stopped, it answers nothing; as Orca 43 does on a busy machine when it meets a new program."""
    ready = Event()
    listeners = Listeners(ready.set)
    with assistive_session(tmp_path) as session:
        for name, value in session.environment.items():
            monkeypatch.setenv(name, value)
        listeners.come()
        assert ready.wait(LONGEST_S), "where nobody listens nobody is waited for"
        assert not listeners.hear_changes()
        listeners.left()
        ready.clear()
        with subprocess.Popen([DEBIANS_PYTHON, str(LISTENER)], stdout=subprocess.PIPE, text=True) as busy:
            assert busy.stdout is not None
            busy.stdout.readline()
            wait_until_registered()
            busy.send_signal(signal.SIGSTOP)
            listeners.come()
            was_ready = ready.wait(1)
            busy.send_signal(signal.SIGCONT)
            is_ready, hears = ready.wait(LONGEST_S), listeners.hear_live_text()
            busy.kill()
        assert (was_ready, is_ready, hears) == (False, True, True)
        listeners.left()
        assert not listeners.are_ready


def test_without_a_bus_nobody_is_waited_for(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("DBUS_SESSION_BUS_ADDRESS", "unix:path=/nowhere/bus")
    ready = Event()
    listeners = Listeners(ready.set)
    listeners.come()
    assert ready.wait(LONGEST_S)
    assert not listeners.hear_changes()
    listeners.left()
