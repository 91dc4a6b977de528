"""`python -m tests.tools.kills [COUNT]`: so many kills at random instants, 200 unless said, then one at each system
call of each kind while the first records are made, an older format is brought up to date, and a practice goes on.
"""

import random
import shutil
import sqlite3
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import closing
from itertools import count
from pathlib import Path

from tests.app.command import Person
from tests.tools.kills import BY_TEXT, CALLS, Came, Reference, came_of, killed_after, killed_at_call, reference, summary

OLD_FORMAT = Path(__file__).parents[2] / "store" / "version-1.sql"
MOST_CALLS = 400


def at_random(number: int, folder: Path, whole: Reference) -> Iterator[Came]:
    dice = random.Random(number)
    longest_s = 1.0
    for _ in range(number):
        with tempfile.TemporaryDirectory(dir=folder) as home:
            shown = killed_after(Path(home), dice.uniform(0.1, longest_s))
            longest_s *= 0.9 if shown is None else 1.02
            yield came_of(Path(home), shown, whole)


def at_each_call(begin: Callable[[Path], object], folder: Path, whole: Reference) -> Iterator[Came]:
    for call in CALLS:
        for number in count(1):
            with tempfile.TemporaryDirectory(dir=folder) as home:
                begin(Path(home))
                shown = killed_at_call(Path(home), call, number)
                if shown is None or number > MOST_CALLS:
                    break
                yield came_of(Path(home), shown, whole)


def old_records(home: Path) -> None:
    """Of an older format, of another pupil."""
    with closing(sqlite3.connect(home / "records.sqlite")) as connection:
        dump = OLD_FORMAT.read_text(encoding="utf-8").replace("'pupil-1'", "'mo'")
        connection.executescript(dump)


def begun(home: Path) -> None:
    Person(home).runs(*BY_TEXT)


def main(number: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "reference").mkdir()
        whole = reference(Path(folder) / "reference")
        print("at random:", summary(list(at_random(number, Path(folder), whole))), flush=True)
        if not shutil.which("strace"):
            print("strace is missing: no kills at system calls")
            return
        ways = {"first records": lambda _: None, "an older format": old_records, "going on": begun}
        for name, begin in ways.items():
            print(f"{name}, at each call:", summary(list(at_each_call(begin, Path(folder), whole))), flush=True)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)
