"""The desk as a person opens it: a process of its own, and the file that leads in."""

import re
import subprocess
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Page

from tests.app.command import COMMAND, Person

OPEN = re.compile(r"The desk is open(?: already)? at (http://127\.0\.0\.1:\d+); this file leads in, once: (.+)")


@dataclass(frozen=True, slots=True)
class OpenDesk:
    address: str
    way_in: Path
    """The file that leads in, once."""
    process: "subprocess.Popen[bytes]"

    def path(self, path: str) -> str:
        return self.address + path


@contextmanager
def opened(home: Path, *words: str, more: Mapping[str, str] | None = None) -> Iterator[OpenDesk]:
    person = Person(home)
    process = subprocess.Popen(
        [*COMMAND, "desk", "--no-browser", *words],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=home,
        env=person.environment(more),
    )
    try:
        assert process.stdout
        line = process.stdout.readline().decode().strip()
        match = OPEN.fullmatch(line)
        assert match, line
        yield OpenDesk(match[1], Path(match[2]), process)
    finally:
        process.terminate()
        process.communicate(timeout=10)


def entered(page: Page, desk: OpenDesk) -> None:
    """By the file that leads in."""
    page.goto(desk.way_in.as_uri())
    page.wait_for_url(desk.path("/"))
