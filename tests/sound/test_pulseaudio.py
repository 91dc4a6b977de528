"""The sink that leads to one loudspeaker only: made by PulseAudio itself, left alone anywhere else."""

from pathlib import Path

import pytest

from saythesum.errors import DeviceError
from saythesum.sound.pulseaudio import PrivateSink, all_outputs
from tests.tools.rig.server import Rig


@pytest.fixture
def on_rig(rig: Rig, monkeypatch: pytest.MonkeyPatch) -> None:
    for name, value in rig.environment.items():
        monkeypatch.setenv(name, value)


def ways() -> int:
    return [place.sink for place in all_outputs()].count(PrivateSink.NAME)


@pytest.mark.rig
@pytest.mark.usefixtures("on_rig")
def test_it_is_there_once_and_gone_when_it_is_closed() -> None:
    PrivateSink("tool")  # of a program that was killed
    way = PrivateSink("tool")
    assert ways() == 1
    way.close()
    assert ways() == 0


@pytest.mark.rig
@pytest.mark.usefixtures("on_rig")
def test_a_server_that_makes_none_is_told() -> None:
    with pytest.raises(DeviceError, match="no sink that leads only to a tin can"):
        PrivateSink("a tin can")
    assert ways() == 0


def test_another_server_in_its_place_is_not_asked_for_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """In place of pactl a program that answers for PipeWire, and writes down what it was asked."""
    asked = tmp_path / "asked"
    program = tmp_path / "pactl"
    program.write_text(f'#!/bin/sh\necho "$1" >> {asked}\necho "Server Name: PulseAudio (on PipeWire 1.0.5)"\n')
    program.chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}:/bin:/usr/bin")
    with pytest.raises(DeviceError, match="leads only to tool"):
        PrivateSink("tool")
    assert asked.read_text().split() == ["list", "info"]


def test_without_a_server_there_is_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    with pytest.raises(DeviceError, match="leads only to tool"):
        PrivateSink("tool")
