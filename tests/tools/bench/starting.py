"""From the start of a program to what it is for: each time a process of its own."""

import os
import resource
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from tests.app.command import COMMAND, Person
from tests.tools.bench.lines import TIMES, Figure

FIRST_WORD = """
import sys
from saythesum.app.opening import Wish, practice, setup_for
from saythesum.app.tool_voice import ToolVoice
from saythesum.dialogue.effects import Ear
from saythesum.dialogue.events import Began

class Outlets:
    def say(self, id, text):
        voice.render(text)
        print(text, flush=True)
        sys.stdin.read()
        voice.close()
        sys.exit()

setup = setup_for("pupil-1")
voice = ToolVoice(setup.settings.speech, setup.places.cache)
with practice(Wish("pupil-1"), setup, Ear.OPEN, Outlets()) as runner:
    runner.post(Began(runner.now_ms))
"""
"""A practice as it is opened live, up to the sound of its first sentence; only the loudspeaker is left out."""

MODEL = """
from time import perf_counter
began = perf_counter()
from saythesum.hearing.neural import NeuralRecogniser, tree
from saythesum.dialogue.heard import Awaiting
from saythesum.hearing.embedded_model import embedded_model
imported = perf_counter()
embedded_model()
loaded = perf_counter()
tree(Awaiting.NUMBER)
print((imported - began) * 1000, (loaded - imported) * 1000, (perf_counter() - loaded) * 1000)
"""


def to_the_first_word(person: Person) -> float:
    """Seconds to a sentence that is ready to be played."""
    began = time.perf_counter()
    process = subprocess.Popen(
        [sys.executable, "-c", FIRST_WORD],
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
        done = subprocess.run([sys.executable, "-c", MODEL], capture_output=True, text=True, check=True)
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
    """The program's own peak, and the most that it and its children held at one moment, in MB."""
    process = subprocess.Popen([*COMMAND, *words], stdout=subprocess.DEVNULL, env=person.environment(), cwd=person.home)
    most_kb = 0
    is_over = threading.Event()

    def watch() -> None:
        nonlocal most_kb
        while not is_over.wait(0.02):
            most_kb = max(most_kb, sum(map(_resident_kb, _family(process.pid))))

    watching = threading.Thread(target=watch)
    watching.start()
    _, status, used = os.wait4(process.pid, 0)
    is_over.set()
    watching.join()
    process.returncode = status
    assert status == 0
    assert isinstance(used, resource.struct_rusage)
    return used.ru_maxrss / 1000, most_kb / 1000


def _family(pid: int) -> list[int]:
    with suppress(OSError):
        children = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
        return [pid, *(grandchild for child in children for grandchild in _family(int(child)))]
    return [pid]


def _resident_kb(pid: int) -> int:
    with suppress(OSError, StopIteration):
        status = Path(f"/proc/{pid}/status").read_text().splitlines()
        return int(next(line for line in status if line.startswith("VmRSS")).split()[1])
    return 0
