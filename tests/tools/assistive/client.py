"""The tests' end of `at_spi_client`."""

import json
import subprocess
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, TypeAlias

from tests.tools.assistive.session import Session

Node: TypeAlias = dict[str, Any]
Place: TypeAlias = tuple[int, int]
DEBIANS_PYTHON = "/usr/bin/python3"
LONGEST_S = 60
LEAST_PX = 44
NOT_DRAWN = (0, 0, 0, 0)
NAMES = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


class Client:
    def __init__(self, session: Session) -> None:
        self._process = subprocess.Popen(
            [DEBIANS_PYTHON, str(Path(__file__).with_name("at_spi_client.py"))],
            env=session.environment,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )

    def asks(self, *command: str) -> Any:
        assert self._process.stdin is not None and self._process.stdout is not None
        print(json.dumps(command), file=self._process.stdin, flush=True)
        line = self._process.stdout.readline()
        assert line, "the client has ended"
        return json.loads(line)

    def tree(self) -> list[Node]:
        return list(self.asks("tree") or ())

    def press(self, name: str) -> None:
        assert self.asks("press", name), f"there is no button {name!r}"

    def types(self, number: int) -> None:
        """By the number pad."""
        for digit in str(number):
            self.press(NAMES[int(digit)])
        self.press("Enter")

    def focus(self, name: str) -> None:
        """As assistive software moves the focus."""
        self.asks("focus", name)

    def middles(self, *names: str) -> list[Place]:
        """Of these buttons, in the window's pixels, once they are drawn; each is 44 px wide and high, or more."""
        deadline = time.perf_counter() + LONGEST_S
        while any((places := self.asks("places") or {}).get(name, NOT_DRAWN)[2] <= 0 for name in names):
            assert time.perf_counter() < deadline, f"of {names} not all are to be seen: {places}"
            time.sleep(0.02)
        for name in names:
            assert min(places[name][2:]) >= LEAST_PX, name
        return [(left + width // 2, top + height // 2) for left, top, width, height in map(places.get, names)]

    def heard(self) -> str:
        """What was said last, as the tree has it."""
        return str(self.asks("heard") or "")

    def focused(self) -> tuple[str, str, str]:
        """Role, name and text of what has the focus."""
        role, name, text = self.asks("focused") or ("", "", "")
        return role, name, text

    def wait_for_all(self, text: str) -> None:
        """Until exactly that has been said."""
        self.wait_until(self.heard, lambda heard: heard == text)

    def wait_until(self, read: Callable[[], str], is_so: Callable[[str], bool]) -> str:
        deadline = time.perf_counter() + LONGEST_S
        while not is_so(got := read()):
            assert time.perf_counter() < deadline, f"waited in vain; the last was {got!r}; {self.tree()}"
            time.sleep(0.02)
        return got

    def kill(self) -> None:
        self._process.kill()
        self._process.communicate()


@contextmanager
def at_spi_client(session: Session) -> Iterator[Client]:
    client = Client(session)
    try:
        yield client
    finally:
        client.kill()
