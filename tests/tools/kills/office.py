"""`python -m tests.tools.kills.office [take-in] [move] [erase] [plan] [--every N]`: an operation of the office by its
verb, killed at each system call that changes a file (strace), at every N-th with --every. After each kill the operation
is run again, and must come to what it comes to unkilled.
"""

import argparse
import shutil
import signal
import subprocess
import tempfile
from collections.abc import Sequence
from itertools import count
from pathlib import Path

from saythesum.app.setup.folders import Places
from saythesum.errors import SayTheSumError
from saythesum.office.giving import give
from saythesum.office.plans.weeks import list_plans
from saythesum.office.pupils import add_pupil
from tests.app.command import COMMAND, Person
from tests.office.places import home_in
from tests.office.school import NOW, all_rows, keeps, more, some_answers

CALLS = ("pwrite64", "fdatasync", "fsync", "ftruncate", "unlink", "rename", "mkdir")
MOST_CALLS = 400
OPERATIONS = ("take-in", "move", "erase", "plan")


def words_for(operation: str, folder: Path) -> Sequence[str]:
    moved, _ = some_answers("both", "ab")
    return {
        "take-in": ("records", "take-in", str(folder / "there.json")),
        "move": ("records", "move", "cd", str(moved.id), "--rows", "1-2"),
        "erase": ("records", "erase", "ab", "--yes"),
        "plan": ("plan", "make", "harbour", "--for", "ab", "--on", "monday=ferry,probe"),
    }[operation]


def begun(folder: Path) -> Path:
    """The home before it, and beside it a file from another laptop."""
    here, there = home_in(folder / "here"), home_in(folder / "there")
    both, rows = some_answers("both", "ab")
    for places, minute, continued in ((here, 30, 2), (there, 20, 4)):
        keeps(places, both, rows[:3])
        keeps(places, both, more(both, 3, continued), minute)
    add_pupil(here, "cd", NOW)
    give(there, folder / "there.json", NOW)
    return here.data


def state(places: Places) -> object:
    rows = {id: (pupil, kept) for id, (pupil, kept, _) in all_rows(places).items()}
    plans = [(card.name, card.week) for card in list_plans(places)]
    return rows, plans, sorted(path.name for path in (places.data / "pupils").glob("*.toml"))


def is_killed_at(home: Path, words: Sequence[str], call: str, number: int) -> bool:
    trace = ("strace", "-f", "-qq", "-o", "/dev/null", "-e", f"trace={call}")
    inject = ("-e", f"inject={call}:signal=KILL:when={number}")
    done = subprocess.run(
        [*trace, *inject, *COMMAND, *words], capture_output=True, check=False, env=Person(home).environment(), cwd=home
    )
    return done.returncode in (-signal.SIGKILL, 128 + signal.SIGKILL)


def at_each_call(operation: str, every: int) -> str:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        before = begun(folder)
        words = words_for(operation, folder)
        whole = _copy(before, folder / "whole")
        Person(whole).runs(*words)
        wanted, nothing = state(home_in(whole)), state(home_in(before))
        kills, halves, others = 0, 0, 0
        for call in CALLS:
            for number in count(1, every):
                home = _copy(before, folder / "home")
                if number > MOST_CALLS or not is_killed_at(home, words, call, number):
                    break
                kills += 1
                if operation != "erase":  # which is finished by whoever comes next
                    halves += _state_or_error(home) not in (wanted, nothing)
                Person(home).runs(*words)
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
