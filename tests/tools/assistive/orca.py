"""Debian's Orca in an assistive session, and what it says."""

import json
import shutil
import subprocess
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from tests.tools.assistive.client import DEBIANS_PYTHON
from tests.tools.assistive.session import Session

HERE = Path(__file__).parent
LONGEST_S = 30


class Orca:
    def __init__(self, said: Path) -> None:
        self._said = said

    def said(self) -> Sequence[str]:
        if not self._said.exists():
            return []
        return [json.loads(line)["speech"] for line in self._said.read_text(encoding="utf-8").splitlines()]

    def wait_until_said(self, text: str, times: int = 1) -> None:
        self.wait_until(lambda said: sum(text in line for line in said) >= times, text)

    def wait_until(self, is_so: Callable[[Sequence[str]], bool], what: str) -> None:
        deadline = time.perf_counter() + LONGEST_S
        while not is_so(said := self.said()):
            assert time.perf_counter() < deadline, f"never said {what!r}: {said}"
            time.sleep(0.02)


@contextmanager
def orca(session: Session, folder: Path) -> Iterator[Orca]:
    settings, said = folder / "orca", folder / "said.jsonl"
    settings.mkdir()
    shutil.copy(HERE / "orca_customizations.py", settings / "orca-customizations.py")
    with (folder / "orca.log").open("wb") as log:
        process = subprocess.Popen(
            [DEBIANS_PYTHON, str(HERE / "orca_run.py"), "--user-prefs", str(settings)],
            env={**session.environment, "SAID": str(said)},
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=log,
        )
        try:
            yield Orca(said)
        finally:
            process.kill()
            process.wait()
