"""Tests on the rig run last and one after the other: nothing else takes time while sound is on its way."""

import signal
from collections.abc import Iterator

import pytest
from hypothesis import settings

from tests.tools.rig.server import Rig

# No test fails because the machine is busy; the same examples every time. New ones: --hypothesis-profile default.
settings.register_profile("unhurried", deadline=None, derandomize=True)
settings.load_profile("unhurried")


def pytest_configure(config: pytest.Config) -> None:
    config.addinivalue_line("markers", "rig: plays and records through a private PulseAudio server")
    _take_signals_that_were_ignored()


def _take_signals_that_were_ignored() -> None:
    """A shell starts what it puts in the background with interrupts ignored, and nohup ignores hang-ups. Every program
    that a test starts would inherit that, and never notice the signal that the test sends it.
    """
    if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
        signal.signal(signal.SIGINT, signal.default_int_handler)
    if signal.getsignal(signal.SIGHUP) is signal.SIG_IGN:
        signal.signal(signal.SIGHUP, lambda _number, _frame: None)  # the tests themselves go on ignoring it


def pytest_make_parametrize_id(val: object, argname: str) -> str | None:
    """Bytes by their length: some are archives with the time in them, and all processes must name a test alike."""
    return f"{argname} of {len(val)} bytes" if isinstance(val, bytes) else None


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    items.sort(key=lambda item: item.get_closest_marker("rig") is not None)


@pytest.fixture(scope="session")
def rig() -> Iterator[Rig]:
    """A rig that cannot start fails every test that asks for it, with the reason."""
    with Rig() as rig:
        yield rig
