"""Killed while a form is being saved, or half a practice is moved to another pupil and back: all of it or none."""

import shutil
import signal
import subprocess
import sys
from contextlib import closing
from itertools import count
from pathlib import Path

import pytest

from saythesum.app.setup.folders import Places
from saythesum.office.pupils import add_pupil, changes, note_changes, own_values
from saythesum.store.reading import open_to_read
from tests.app.command import TOP, Person
from tests.desk.application import NOW, Application
from tests.desk.homes import one_pupil
from tests.desk.one_save import KEPT
from tests.office.places import home_in
from tests.office.school import keeps, some_answers
from tests.office.test_killed import at_statements, before_and_after

EVERY = 25
"""Statements from one kill to the next; `python -m tests.tools.kills.office desk-move desk-move-back` takes each."""


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


@pytest.mark.skipif(not shutil.which("strace"), reason="strace is Linux's")
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


def test_half_a_practice_is_moved_and_moved_back_whole_or_not_at_all(tmp_path: Path) -> None:
    begun = home_in(tmp_path / "begun")
    stored = keeps(begun, *some_answers("both", "ab"))
    add_pupil(begun, "cd", NOW)

    def moves(places: Places, of: str, to: str) -> None:
        path = f"/pupils/{of}/practices/{stored.id}/"
        assert Application(places.data).sends(path, to=to, first="2", last="3").status_code == 303

    def owners(places: Places) -> tuple[str, ...]:
        with closing(open_to_read(places.records_file)) as reader:
            return tuple(dict.fromkeys(reader.practice(stored.id).owners))

    there = at_statements(tmp_path, begun.data, lambda places: moves(places, "ab", "cd"), owners, EVERY)
    before_and_after(there, ())
    moves(begun, "ab", "cd")
    back = at_statements(tmp_path, begun.data, lambda places: moves(places, "cd", "ab"), owners, EVERY)
    before_and_after(back, ("ab", "cd"))
    assert back[-1] == ("ab",)
    print(f"killed at {len(there) + len(back) - 2} statements")
