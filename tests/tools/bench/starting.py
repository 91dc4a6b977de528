"""From the start of a program to what it is for: each time a process of its own."""

import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from tests.app.command import COMMAND, Person
from tests.tools.bench.lines import TIMES, Figure

FIRST_WORD, MODEL_LOADING = (f"tests.tools.bench.started.{name}" for name in ("first_word", "model_loading"))


def to_the_first_word(person: Person) -> float:
    """Seconds to a sentence that is ready to be played."""
    began = time.perf_counter()
    process = subprocess.Popen(
        [sys.executable, "-m", FIRST_WORD],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        env=person.environment(),
        cwd=person.home,
    )
    assert process.stdout
    assert process.stdout.readline()
    took_s = time.perf_counter() - began
    process.communicate()
    return took_s


def first_words() -> Iterator[Figure]:
    cold, warm = [], []
    for _ in range(TIMES):
        with tempfile.TemporaryDirectory() as home:
            cold.append(to_the_first_word(Person(Path(home))))
            warm.append(to_the_first_word(Person(Path(home))))
    yield Figure("start to first spoken word ready, nothing kept yet", cold, "s", 1.5)
    yield Figure("start to first spoken word ready, said before", warm, "s", 1.5)


def model_loading() -> Iterator[Figure]:
    runs = []
    for _ in range(TIMES):
        done = subprocess.run([sys.executable, "-m", MODEL_LOADING], capture_output=True, text=True, check=True)
        runs.append([float(value) for value in done.stdout.split()])
    imported, loaded, grown = zip(*runs, strict=True)
    yield Figure("listening: libraries imported", imported, "ms")
    yield Figure("listening: model loaded", loaded, "ms")
    yield Figure("listening: tree of the numbers grown", grown, "ms")


def memory(times: int = 5) -> Iterator[Figure]:
    """Of a rehearsal of two cells by the real engine; the program and its voice beside it."""
    program, together = [], []
    for _ in range(times):
        with tempfile.TemporaryDirectory() as home:
            person = Person(Path(home))
            person.writes("oars.toml", 'title = "Oars"\nadd = [5]\nstart = [38, 57]\n')
            own_mb, all_mb = _peaks(person, "rehearse", "--grid", "oars.toml")
            program.append(own_mb)
            together.append(all_mb)
    yield Figure("memory of a rehearsal: the program", program, "MB", 300)
    yield Figure("memory of a rehearsal: with its voice", together, "MB", 300)


def _peaks(person: Person, *words: str) -> tuple[float, float]:
    """The program's own peak, and the most that it and its children held at one moment, in MB.

    Both are looked up while it runs: what the system counts for an ended child (`ru_maxrss`) begins with what its
    parent held when it was started, here the whole bench.
    """
    process = subprocess.Popen([*COMMAND, *words], stdout=subprocess.DEVNULL, env=person.environment(), cwd=person.home)
    own_kb = most_kb = 0
    while process.poll() is None:
        own_kb = max(own_kb, _kb(process.pid, "VmHWM"))
        most_kb = max(most_kb, sum(_kb(pid, "VmRSS") for pid in _family(process.pid)))
        time.sleep(0.02)
    assert process.returncode == 0
    return own_kb / 1000, most_kb / 1000


def _family(pid: int) -> list[int]:
    with suppress(OSError):
        children = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
        return [pid, *(grandchild for child in children for grandchild in _family(int(child)))]
    return [pid]


def _kb(pid: int, what: str) -> int:
    """Nothing of a process that has ended."""
    with suppress(OSError, StopIteration):
        status = Path(f"/proc/{pid}/status").read_text().splitlines()
        return int(next(line for line in status if line.startswith(what)).split()[1])
    return 0
