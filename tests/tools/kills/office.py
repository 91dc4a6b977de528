"""`python -m tests.tools.kills.office [take-in] [move] [move-back] [desk-move] [desk-move-back] [erase] [plan]
[--every N]`: an operation of the office by its verb, or by the form on the desk, killed at each system call that
changes a file (strace), at every N-th with --every. After each kill the operation is run again, and must come to what
it comes to unkilled.
"""

import argparse
import shutil
import signal
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from contextlib import closing
from itertools import count
from pathlib import Path

from saythesum.app.setup.folders import Places
from saythesum.errors import SayTheSumError
from saythesum.office.giving import give
from saythesum.office.moving import move
from saythesum.office.plans.weeks import list_plans
from saythesum.office.pupils import add_pupil
from saythesum.store.reading import open_to_read
from tests.app.command import COMMAND, TOP, Person
from tests.office.places import home_in
from tests.office.school import NOW, all_rows, keeps, more, some_answers

CALLS = ("pwrite64", "fdatasync", "fsync", "ftruncate", "unlink", "rename", "mkdir")
MOST_CALLS = 400
OPERATIONS = ("take-in", "move", "move-back", "desk-move", "desk-move-back", "erase", "plan")
ON_THE_DESK = (sys.executable, "-m", "tests.desk.one_move")


def command_for(operation: str, folder: Path, home: Path) -> Sequence[str]:
    moved, _ = some_answers("both", "ab")
    return {
        "take-in": (*COMMAND, "records", "take-in", str(folder / "there.json")),
        "move": (*COMMAND, "records", "move", "cd", str(moved.id), "--rows", "1-2"),
        "move-back": (*COMMAND, "records", "move", "ab", str(moved.id), "--rows", "1-2"),
        "desk-move": (*ON_THE_DESK, str(home), str(moved.id), "ab", "cd"),
        "desk-move-back": (*ON_THE_DESK, str(home), str(moved.id), "cd", "ab"),
        "erase": (*COMMAND, "records", "erase", "ab", "--yes"),
        "plan": (*COMMAND, "plan", "make", "harbour", "--for", "ab", "--on", "monday=ferry,probe"),
    }[operation]


def begun(folder: Path, operation: str) -> Path:
    """The home before it, and beside it a file from another laptop."""
    here, there = home_in(folder / "here"), home_in(folder / "there")
    both, rows = some_answers("both", "ab")
    for places, minute, continued in ((here, 30, 2), (there, 20, 4)):
        keeps(places, both, rows[:3])
        keeps(places, both, more(both, 3, continued), minute)
    add_pupil(here, "cd", NOW)
    give(there, folder / "there.json", NOW)
    if operation.endswith("-back"):
        move(here, both.id, "cd", NOW, first=1, last=2)
    return here.data


def state(places: Places) -> object:
    rows = {id: (pupil, kept) for id, (pupil, kept, _) in all_rows(places).items()}
    with closing(open_to_read(places.records_file)) as reader:
        owners = [reader.practice(id).owners for id in rows]
    plans = [(card.name, card.week) for card in list_plans(places)]
    return rows, owners, plans, sorted(path.name for path in (places.data / "pupils").glob("*.toml"))


def runs(command: Sequence[str], home: Path) -> int:
    environment = Person(home).environment({"PYTHONDONTWRITEBYTECODE": "1"})
    return subprocess.run(command, capture_output=True, check=False, env=environment, cwd=TOP).returncode


def is_killed_at(home: Path, command: Sequence[str], call: str, number: int) -> bool:
    trace = ("strace", "-f", "-qq", "-o", "/dev/null", "-e", f"trace={call}")
    inject = ("-e", f"inject={call}:signal=KILL:when={number}")
    return runs([*trace, *inject, *command], home) in (-signal.SIGKILL, 128 + signal.SIGKILL)


def at_each_call(operation: str, every: int) -> str:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        before = begun(folder, operation)
        whole = _copy(before, folder / "whole")
        assert runs(command_for(operation, folder, whole), whole) == 0
        wanted, nothing = state(home_in(whole)), state(home_in(before))
        kills, halves, others = 0, 0, 0
        for call in CALLS:
            for number in count(1, every):
                home = _copy(before, folder / "home")
                command = command_for(operation, folder, home)
                if number > MOST_CALLS or not is_killed_at(home, command, call, number):
                    break
                kills += 1
                if operation != "erase":  # which is finished by whoever comes next
                    halves += _state_or_error(home) not in (wanted, nothing)
                runs(command, home)
                others += state(home_in(home)) != wanted
    return f"{operation}: {kills} kills, {halves} times neither all nor nothing, {others} times another end"


def _state_or_error(home: Path) -> object:
    """What cannot be read is neither all nor nothing."""
    try:
        return state(home_in(home))
    except SayTheSumError as error:
        return error


def _copy(home: Path, to: Path) -> Path:
    shutil.rmtree(to, ignore_errors=True)
    return Path(shutil.copytree(home, to))


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("operations", nargs="*", default=list(OPERATIONS))
    parser.add_argument("--every", type=int, default=1)
    options = parser.parse_args()
    for operation in options.operations:
        print(at_each_call(operation, options.every), flush=True)


if __name__ == "__main__":
    main()
