"""A live practice on the rig: the program as a person starts it, and a pupil who follows its log and speaks.

The tool's sentences go into one sink; the pupil's answers come out of the other one's monitor, its microphone; keys
come through a terminal.
"""

import json
import os
import subprocess
import time
from collections import deque
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from saythesum.app.rehearsal.recorded_phrases import pupil_phrase
from tests.app.command import COMMAND, TOP
from tests.log_lines import Line
from tests.tools.rig.server import Rig

POLL_S = 0.01
F9 = b"\x1b[20~"
LOG_NAME, SHOWN_NAME = "log.jsonl", "shown.txt"


@dataclass
class Program:
    """The running program, its log and its keyboard."""

    rig: Rig
    home: Path
    process: subprocess.Popen[bytes]
    keyboard: int
    lines: list[Line] = field(default_factory=list)
    """Of the log, as far as it was read."""
    _read_bytes: int = 0
    _waiting: deque[Line] = field(default_factory=deque)
    """Read, and not looked at yet."""

    def press(self, keys: bytes) -> int:
        """When it was pressed, by the rig's clock."""
        now_ms = self.rig.clock.since_start_ms()
        os.write(self.keyboard, keys)
        return now_ms

    def says(self, text: str) -> None:
        """The pupil, into the microphone."""
        sound = pupil_phrase(text)
        assert sound, f"{text} was never recorded"
        self.rig.play_as_pupil(sound)

    def new_lines(self) -> list[Line]:
        """What has been logged since the last look."""
        log = self.home / LOG_NAME
        if not log.exists():
            return []
        with log.open("rb") as file:
            file.seek(self._read_bytes)
            whole = file.read()
        whole = whole[: whole.rfind(b"\n") + 1]
        self._read_bytes += len(whole)
        new = [json.loads(line) for line in whole.splitlines()]
        self.lines += new
        return new

    def wait_for(self, is_it: Callable[[Line], bool], within_s: float) -> Line:
        """The first line from now on that is it."""
        deadline = time.monotonic() + within_s  # noqa: TID251
        while time.monotonic() < deadline:  # noqa: TID251
            self._waiting += self.new_lines()
            while self._waiting:
                if is_it(line := self._waiting.popleft()):
                    return line
            assert self.process.poll() is None, f"it ended: {self.said()}"
            time.sleep(POLL_S)
        raise AssertionError(f"it did not come to that within {within_s} s; said was {self.said()}")

    def wait_until_shown(self, text: str, within_s: float) -> None:
        """What is no part of the practice is in no log."""
        deadline = time.monotonic() + within_s  # noqa: TID251
        while text not in self.shown:
            assert time.monotonic() < deadline, f"{text!r} was not shown; shown was {self.shown}"  # noqa: TID251
            time.sleep(POLL_S)

    @property
    def shown(self) -> str:
        """What stands on standard output and standard error."""
        return (self.home / SHOWN_NAME).read_text(encoding="utf-8")

    def wait_for_kind(self, kind: str, within_s: float) -> Line:
        return self.wait_for(lambda line: line["kind"] == kind, within_s)

    def said(self) -> list[str]:
        return [line["text"] for line in self.lines if line["kind"] == "say"]

    def ends(self, within_s: float) -> int:
        """The exit code."""
        code = self.process.wait(within_s)
        self.new_lines()
        return code


@contextmanager
def program_on(
    rig: Rig, home: Path, *words: str, under: Sequence[str] = (), more: Mapping[str, str] | None = None
) -> Iterator[Program]:
    """`saythesum WORDS --log …`; what an older log has is left unread. Killed at the end where it still runs.

    `under`: a command that runs it, a tracer for instance; `more`: variables of the environment.
    """
    ours, its = os.openpty()
    environment = {name: value for name, value in rig.environment.items() if "DISPLAY" not in name}
    log = home / LOG_NAME
    environment |= {"SAYTHESUM_HOME": str(home), "PYTHONPATH": str(TOP), **(more or {})}
    read_bytes = log.stat().st_size if log.exists() else 0
    with (home / SHOWN_NAME).open("ab") as shown:
        process = subprocess.Popen(
            [*under, *COMMAND, *words, "--log", str(log)],
            stdin=its,
            stdout=shown,
            stderr=shown,
            env=environment,
            cwd=home,
        )
        try:
            yield Program(rig, home, process, ours, _read_bytes=read_bytes)
        finally:
            process.kill()
            process.wait()
            os.close(ours)
            os.close(its)


@dataclass
class Pupil:
    """Answers each time the ear opens. `replies` has the words for a part of a cell (row, column, part), one after
    the other each time it is asked; None stays silent. Whatever is not there is answered rightly.
    """

    program: Program
    replies: dict[tuple[int, int, str], list[str | Callable[[Program], None]]]
    right: Callable[[Line], str]
    """The right answer to an `ask`, in words."""
    after_ms: int = 0
    """How long after the ear has opened."""
    _ask: Line | None = None
    _about: str = ""

    def practise(self, within_s: float) -> None:
        """Until the program ends."""
        deadline = time.monotonic() + within_s  # noqa: TID251
        while self.program.process.poll() is None:
            assert time.monotonic() < deadline, f"it does not end; said was {self.program.said()}"  # noqa: TID251
            for line in self.program.new_lines():
                self._notice(line)
            time.sleep(POLL_S)
        self.program.new_lines()

    def _notice(self, line: Line) -> None:
        match line["kind"]:
            case "ask":
                self._ask = line
            case "say":
                self._about = line["about"]
            case "listen" if self._about != "said-back":
                self._answer()
            case _:
                pass

    def _answer(self) -> None:
        assert self._ask
        ask = self._ask
        waiting = self.replies.get((ask["row"], ask["column"], ask["part"]))
        reply = waiting.pop(0) if waiting else self.right(ask)
        if isinstance(reply, str):
            rig = self.program.rig
            rig.pupil.wait_until_ms(rig.clock.since_start_ms() + self.after_ms)
            self.program.says(reply)
        else:
            reply(self.program)


@dataclass(frozen=True, slots=True)
class Cut:
    to_sound_ms: float
    """From the key that has it said to its first sound."""
    to_silence_ms: float
    """From the key that cuts it to its last."""


def said_again_and_cut(program: Program, after_ms: int) -> Cut:
    """Space has the question said again, Escape cuts it so long after it began."""
    tool = program.rig.tool
    asked_ms = program.press(b" ")
    begun_ms = tool.first_sound_ms(asked_ms)
    assert begun_ms is not None, "nothing is heard"
    tool.wait_until_ms(begun_ms + after_ms)
    pressed_ms = program.press(b"\x1b")
    silent_ms = tool.silent_from_ms(begun_ms)
    assert silent_ms is not None
    assert silent_ms < begun_ms + 1_000, "it was not cut but came to its end"
    return Cut(begun_ms - asked_ms, silent_ms - pressed_ms)
