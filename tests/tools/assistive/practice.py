"""One whole practice: by keys alone, and in the window by whatever presses what it finds there."""

import json
import subprocess
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeAlias

from tests.app.command import COMMAND, TOP
from tests.tools.assistive.session import Session

Line: TypeAlias = Mapping[str, Any]
GRID = 'title = "Rows of oars"\nadd = [5, 8, 4]\nstart = [38, 57]\n'
BUTTON_KEYS = {"Help": "\x1b[6~", "Grid": "\t\n", "Skip": "\t\t\t\t\n"}
X_KEYS = {"Help": ("Next",), "Grid": ("Tab", "Return"), "Skip": (*["Tab"] * 4, "Return")}
STEPS: Sequence[int | str] = (43, 45, "Help", 2, 6, 46, "Grid", "Grid", 42, 62, 65, 61, "Skip")
"""Numbers typed and buttons pressed: a wrong answer, help, a look round the grid, all six done, no talk after."""
OF_ONE_RUN = ("id", "practice", "at", "at_ms", "heard", "took_ms", "because", "of")
LONGEST_S = 60
_LOG = "log.jsonl"
WITH_A_SCREEN_READER = "[window]\nscreen_reader = true\n"


@dataclass(frozen=True, slots=True)
class Practised:
    """What came of it."""

    lines: Sequence[Line]

    def rows(self) -> list[Line]:
        """Without what differs from one run to the next: ids and times."""
        kept = [line for line in self.lines if line["kind"] in ("ask", "answer", "end")]
        return [{name: value for name, value in line.items() if name not in OF_ONE_RUN} for line in kept]

    def turns(self) -> list[str]:
        """What was said at the beginning, and after each step that the dialogue heard of."""
        turns: list[list[str]] = [[]]
        for line in self.lines:
            if line["kind"] == "heard":
                turns.append([])
            if line["kind"] == "say":
                turns[-1].append(line["text"])
        return [" ".join(said) for said in turns]


def practised(home: Path) -> Practised:
    """So far: nothing before it has begun, and no line that is being written."""
    log = home / _LOG
    lines = log.read_text(encoding="utf-8").splitlines(keepends=True) if log.exists() else []
    return Practised([json.loads(line) for line in lines if line.endswith("\n")])


def by_keys(home: Path) -> Practised:
    """In a terminal without a window."""
    _prepare(home)
    keys = "".join(f"{step}\n" if isinstance(step, int) else BUTTON_KEYS[step] for step in STEPS)
    subprocess.run(
        [*COMMAND, "practise", "--by", "keys", "--grid", "oars.toml", "--log", _LOG],
        input=keys.encode(),
        cwd=home,
        env={"SAYTHESUM_HOME": str(home), "PYTHONPATH": str(TOP), "PATH": "/usr/bin:/bin"},
        check=True,
        capture_output=True,
    )
    return practised(home)


def keys_of(step: int | str) -> Sequence[str]:
    """By the names of X."""
    return (*str(step), "Return") if isinstance(step, int) else X_KEYS[step]


def wait_for_line(home: Path, is_it: Callable[[Line], bool]) -> Line:
    """The first such line of the log."""
    deadline = time.perf_counter() + LONGEST_S
    while not (found := next(filter(is_it, practised(home).lines), None)):
        assert time.perf_counter() < deadline, practised(home).lines[-8:]
        time.sleep(0.05)
    return found


@contextmanager
def in_a_window(
    session: Session, home: Path, settings: str = WITH_A_SCREEN_READER
) -> Iterator[subprocess.Popen[bytes]]:
    _prepare(home, settings)
    program = subprocess.Popen(
        [*COMMAND, "practise", "--by", "keys", "--grid", "oars.toml", "--log", _LOG],
        cwd=home,
        env={**session.environment, "SAYTHESUM_HOME": str(home), "PYTHONPATH": str(TOP)},
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    try:
        yield program
    finally:
        program.kill()
        program.wait()


def _prepare(home: Path, settings: str = WITH_A_SCREEN_READER) -> None:
    home.mkdir(mode=0o700, exist_ok=True)
    (home / "oars.toml").write_text(GRID, encoding="utf-8")
    (home / "settings.toml").write_text(settings, encoding="utf-8")
