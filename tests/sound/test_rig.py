"""The rig itself: a child process finds its devices, and a rig that cannot start says why."""

import subprocess
import sys
from pathlib import Path

import pytest

from tests.tools.rig.server import Rig, RigError

LISTED = """
from saythesum.sound.portaudio import load_portaudio
for device in load_portaudio().devices():
    print(device.name, device.inputs > 0, device.outputs > 0, device.is_default_in and device.is_default_out)
"""


@pytest.mark.rig
def test_a_child_process_finds_a_microphone_and_a_loudspeaker(rig: Rig) -> None:
    done = subprocess.run(
        [sys.executable, "-c", LISTED], env=rig.environment, capture_output=True, text=True, check=True
    )
    assert "default True True True" in done.stdout.splitlines()


def test_a_missing_program_is_told_with_what_to_install(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    with (
        pytest.raises(RigError, match=r"cannot start: there is no pulseaudio here; .* apt-get install pulseaudio"),
        Rig(),
    ):
        pass


def test_a_server_that_does_not_start_is_told(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """In place of the server a program that says no and ends."""
    for name in ("pulseaudio", "pactl", "parec", "pacat"):
        program = tmp_path / name
        program.write_text("#!/bin/sh\necho 'no room on this machine' >&2\nexit 1\n")
        program.chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}:/bin")
    with pytest.raises(RigError, match=r"does not answer \(no room on this machine\)"), Rig():
        pass
