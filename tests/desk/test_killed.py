"""Killed while a form is being saved: all of it or none."""

import shutil
import signal
import subprocess
import sys
from itertools import count
from pathlib import Path

import pytest

from saythesum.office.pupils import changes, note_changes, own_values
from tests.app.command import TOP, Person
from tests.desk.application import NOW
from tests.desk.homes import one_pupil
from tests.desk.one_save import KEPT
from tests.office.places import home_in

pytestmark = pytest.mark.skipif(not shutil.which("strace"), reason="strace is Linux's")


def save_killed_at(home: Path, call: str, number: int) -> bool:
    """At the so-manieth call of that name. Whether it came to that."""
    trace = ("strace", "-f", "-qq", "-o", "/dev/null", "-e", f"trace={call}")
    done = subprocess.run(
        [
            *trace,
            "-e",
            f"inject={call}:signal=KILL:when={number}",
            sys.executable,
            "-m",
            "tests.desk.one_save",
            str(home),
        ],
        cwd=TOP,
        env=Person(home).environment({"PYTHONDONTWRITEBYTECODE": "1"}),
        check=False,
        capture_output=True,
    )
    return done.returncode in (-signal.SIGKILL, 128 + signal.SIGKILL)


@pytest.mark.parametrize(("call", "most"), [("fsync", 2), ("rename", 2), ("fdatasync", 4)])
def test_a_form_is_saved_whole_or_not_at_all(tmp_path: Path, call: str, most: int) -> None:
    kills = 0
    for number in count(1):
        home = tmp_path / f"{number}"
        home.mkdir()
        one_pupil(home)
        before = own_values(home_in(home), "rk-7")
        if number > most or not save_killed_at(home, call, number):
            break
        kills += 1
        places = home_in(home)
        now = own_values(places, "rk-7")
        assert now in (before, {**before, **KEPT}), f"{call} {number}"
        # What was changed is known, whoever looks next.
        note_changes(places, "rk-7", NOW)
        assert {one.setting: one.after for one in changes(places, "rk-7") if "." in one.setting} == dict(now)
    print(f"killed at {kills} calls of {call}")
    assert kills
