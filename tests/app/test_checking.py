"""What `check` says of this machine: a line for each thing, with what to do where something does not work."""

import subprocess
from pathlib import Path

import pytest

from tests.app.command import COMMAND, TOP, Person
from tests.rig.server import Rig

THINGS = ("Voice", "Loudspeaker", "Microphone", "Listening", "Window", "Records")


def test_a_line_for_each_thing(person: Person) -> None:
    """Without a display; the sound devices are those of this machine, or none."""
    done = person.runs("check")
    assert (done.code, done.told) == (0, [])
    lines = {line.split(":")[0]: line for line in done.shown}
    assert tuple(lines) == THINGS
    assert "works; it takes" in lines["Voice"]
    assert "understood a known recording" in lines["Listening"]
    assert "none yet" in lines["Records"]
    assert all(line[-1] == "." or "records.sqlite" in line for line in lines.values())


def test_records_that_are_there(person: Person) -> None:
    person.runs("practise", "--by", "text", given="41\n")
    records = (person.home / "records.sqlite").read_bytes()
    assert any(line.startswith("Records: can be read") for line in person.runs("check").shown)
    assert (person.home / "records.sqlite").read_bytes() == records


@pytest.mark.rig
def test_with_a_loudspeaker_and_a_microphone(rig: Rig, tmp_path: Path) -> None:
    """A null sink plays exact zeros: a microphone that is switched off or muted sounds like that."""
    environment = {name: value for name, value in rig.environment.items() if "DISPLAY" not in name}
    done = subprocess.run(
        [*COMMAND, "check"],
        capture_output=True,
        text=True,
        check=True,
        cwd=tmp_path,
        env={**environment, "SAYTHESUM_HOME": str(tmp_path), "PYTHONPATH": str(TOP)},
    )
    assert done.stderr == ""
    loudspeaker = next(line for line in done.stdout.splitlines() if line.startswith("Loudspeaker"))
    assert "works, if you have just heard a sentence" in loudspeaker
    microphone = [line for line in done.stdout.splitlines() if line.startswith("Microphone")]
    assert "listens to the room for ten seconds" in microphone[0]
    assert "nothing but silence" in microphone[1]
