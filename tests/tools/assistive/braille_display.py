"""A braille display that is not there: BRLTTY's virtual driver, and what it shows."""

import os
import socket
import subprocess
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.tools.assistive.session import Session

LONGEST_S = 60
FIRST_PORT = 4101
CELLS = 40
BLANK = "\u2800"


class Display:
    def __init__(self, connection: socket.socket) -> None:
        self._connection = connection
        self.lines: list[str] = []
        """Every line of cells that came to stand, without the blanks at its end."""
        threading.Thread(target=self._read, daemon=True).start()

    def press(self, command: str) -> None:
        """`KEY_ENTER`, `KEY_BACKSPACE`, `ROUTE 3`, `FWINRT`, `PASSDOTS 25` (dots as a byte): BRLTTY's commands."""
        self._connection.sendall(f"{command}\n".encode())

    def wait_for(self, cells: str) -> None:
        self.wait_until(lambda: bool(self.lines) and self.lines[-1] == cells, cells)

    def wait_until(self, is_so: Callable[[], bool], what: str) -> None:
        deadline = time.perf_counter() + LONGEST_S
        while not is_so():
            assert time.perf_counter() < deadline, f"never showed {what!r}: {self.lines[-8:]}"
            time.sleep(0.01)

    def _read(self) -> None:
        with self._connection.makefile("r", encoding="utf-8", errors="replace") as lines:
            for line in lines:
                if line.startswith("Braille "):
                    dots = line.removeprefix("Braille ").strip().strip('"').split("|")
                    self.lines.append("".join(map(_cell, dots)).rstrip(BLANK))


def _cell(dots: str) -> str:
    return chr(0x2800 + sum(1 << (int(dot) - 1) for dot in dots.strip()))


@contextmanager
def braille_display(session: Session, folder: Path, cells: int = CELLS, server: int | None = None) -> Iterator[Display]:
    """The session's environment leads to its server, or to the one of an earlier display if that number is given."""
    folder.mkdir(exist_ok=True)
    path = folder / "display"
    number = server or free_server()
    session.environment["BRLAPI_HOST"] = f"127.0.0.1:{number}"
    options = ["-n", "-e", "-q", "-f", os.devnull, "-b", "vr", "-d", f"client:{path}", "-x", "no", "-s", "no"]
    options += ["-t", "en_US", "-A", f"auth=none,host=127.0.0.1:{number}"]
    options += ["-P", str(folder / "brltty.pid"), "-U", str(folder / "updatable"), "-W", str(folder / "writable")]
    with socket.socket(socket.AF_UNIX) as listening, (folder / "brltty.log").open("wb") as log:
        listening.bind(str(path))
        listening.listen(1)
        listening.settimeout(LONGEST_S)
        process = subprocess.Popen(["brltty", *options], stdin=subprocess.DEVNULL, stdout=log, stderr=log)
        try:
            connection, _ = listening.accept()
            connection.sendall(f"cells {cells} 1\n".encode())
            yield Display(connection)
        finally:
            process.terminate()
            process.wait()


def free_server() -> int:
    """A number for BrlAPI whose port nobody has. Source: BrlAPI's reference: 4101 is port 0."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return int(free.getsockname()[1]) - FIRST_PORT
