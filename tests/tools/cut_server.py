"""A way to an X server that breaks off after so many bytes of the program's, as if the server had been killed there."""

import socket
import sys
import tempfile
import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from tests.tools.x_server import WindowProcess, x_server

_FOLDER = "/tmp/.X11-unix"
_PIECE = 4096


class Relay:
    """A display of its own, on a socket without a file (abstract, unix(7))."""

    def __init__(self, display: str, breaks_after: int | None = None) -> None:
        self.passed = 0
        """Bytes of the program's that went to the server."""
        self._breaks_after = breaks_after
        self._server = f"{_FOLDER}/X{display.removeprefix(':')}"
        self._listener = socket.socket(socket.AF_UNIX)
        self.display = self._free_display()
        self._listener.listen()
        threading.Thread(target=self._serve, daemon=True).start()

    def close(self) -> None:
        with suppress(OSError):
            self._listener.shutdown(socket.SHUT_RDWR)
        self._listener.close()

    def _free_display(self) -> str:
        for number in range(3000, 3100):
            if not Path(_FOLDER, f"X{number}").exists():
                with suppress(OSError):
                    self._listener.bind(f"\0{_FOLDER}/X{number}")
                    return f":{number}"
        raise AssertionError("no display is free")

    def _serve(self) -> None:
        with suppress(OSError):
            while True:
                program, _ = self._listener.accept()
                server = socket.socket(socket.AF_UNIX)
                server.connect(self._server)
                threading.Thread(target=self._pass_back, args=(server, program), daemon=True).start()
                threading.Thread(target=self._pass_on, args=(program, server), daemon=True).start()

    def _pass_on(self, program: socket.socket, server: socket.socket) -> None:
        with suppress(OSError):
            while data := program.recv(_PIECE):
                left = len(data) if self._breaks_after is None else self._breaks_after - self.passed
                server.sendall(data[: max(0, left)])
                self.passed += min(len(data), max(0, left))
                if left < len(data):
                    break
        self._break(program, server)

    def _pass_back(self, server: socket.socket, program: socket.socket) -> None:
        with suppress(OSError):
            while data := server.recv(_PIECE):
                program.sendall(data)
        self._break(program, server)

    def _break(self, program: socket.socket, server: socket.socket) -> None:
        for end in (program, server):
            with suppress(OSError):
                end.shutdown(socket.SHUT_RDWR)


@contextmanager
def relay(environment: Mapping[str, str], breaks_after: int | None = None) -> Iterator[tuple[Relay, dict[str, str]]]:
    made = Relay(environment["DISPLAY"], breaks_after)
    try:
        yield made, {**environment, "DISPLAY": made.display}
    finally:
        made.close()


def bytes_to_open(environment: Mapping[str, str]) -> int:
    with relay(environment) as (way, there):
        window = WindowProcess(there)
        window.told()
        window.kill()
        return way.passed


def outcome(environment: Mapping[str, str], breaks_after: int) -> str:
    """How a window's process ended, and what trouble it told."""
    with relay(environment, breaks_after) as (_, there):
        window = WindowProcess(there)
        code, told = window.rest()
        window.kill()
    return f"exit code {code}: {' '.join(line['trouble'] for line in told if 'trouble' in line)}"


def main() -> None:
    """`python -m tests.tools.cut_server STEP`: opened over and over, and cut off STEP bytes later each time."""
    with tempfile.TemporaryDirectory() as folder, x_server(Path(folder)) as server:
        whole = bytes_to_open(server.environment)
        outcomes = [outcome(server.environment, at) for at in range(0, whole, int(sys.argv[1]))]
    print(f"{whole} bytes until the window stands; cut off at {len(outcomes)} places:")
    for found in sorted(set(outcomes)):
        print(f"{outcomes.count(found)} times: {found}")


if __name__ == "__main__":
    main()
