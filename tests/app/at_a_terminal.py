"""A program at a terminal of its own (a pty)."""

import os
import select
import subprocess
import sys
import termios
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

LOOK_AGAIN_S = 0.05


@dataclass
class Terminal:
    """A program at a terminal of its own."""

    program: subprocess.Popen[bytes]
    our_side: int
    its_side: int
    before: list[object]
    _shown: bytes = b""

    @property
    def shown(self) -> str:
        """So far; a letter of which only a part has come is left out."""
        return self._shown.decode(errors="ignore")

    def type(self, data: bytes) -> None:
        os.write(self.our_side, data)

    def wait_for(self, text: str) -> None:
        """Fails where the program ends without it, or by the test's own time limit."""
        while text not in self.shown:
            has_ended = self.program.poll() is not None
            while select.select([self.our_side], [], [], LOOK_AGAIN_S)[0]:
                self._shown += os.read(self.our_side, 4096)
            assert text in self.shown or not has_ended, f"it ended without {text!r}: {self.shown}"

    @property
    def now(self) -> list[object]:
        return list(termios.tcgetattr(self.its_side))


@contextmanager
def at_a_terminal(script: str, environment: dict[str, str] | None = None) -> Iterator[Terminal]:
    ours, its = os.openpty()
    before = list(termios.tcgetattr(its))
    program = subprocess.Popen(
        [sys.executable, "-c", script],
        stdin=its,
        stdout=its,
        stderr=its,
        start_new_session=True,
        env=os.environ | (environment or {}),
    )
    try:
        yield Terminal(program, ours, its, before)
    finally:
        program.kill()
        program.wait()
        os.close(ours)
        os.close(its)
