"""Debian's Orca in an assistive session, and what it says.

`python -m tests.tools.assistive.screen_reader [COUNT]`: whole practices in fresh sessions, and what came of each.
"""

import json
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from pathlib import Path

from tests.publishing.louis import cells_by_louis
from tests.tools.assistive.braille_display import BLANK, CELLS, braille_display
from tests.tools.assistive.client import DEBIANS_PYTHON
from tests.tools.assistive.practice import STEPS, Practised, in_a_window, keys_of
from tests.tools.assistive.session import Session, assistive_session

HERE = Path(__file__).parent
LONGEST_S = 60
COMPUTER_BRAILLE = ["en-us-comp8.ctb"]
"""Of liblouis, which Orca itself uses."""
READY = "Screen reader on."
"""Orca's first sentence."""


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


def practise_with_orca(folder: Path, expected: Practised) -> Sequence[str]:
    """Everything that Orca said in a practice by keys. Each turn is waited for before the next key: what Orca said,
    and its line on a braille display, where it puts the beginning of what it says.
    """
    with ExitStack() as stack:
        session = stack.enter_context(assistive_session(folder))
        display = stack.enter_context(braille_display(session, folder / "braille"))
        reader = stack.enter_context(orca(session, folder))
        reader.wait_until_said(READY)  # nobody opens a window for it earlier
        stack.enter_context(in_a_window(session, folder / "window"))
        first, *turns = expected.turns()
        session.wait_for_window()
        session.focus_window()
        heard: list[str] = []

        def wait_for(turn: str) -> None:
            heard.append(turn)
            reader.wait_until_said(turn, times=sum(turn in one for one in heard))
            display.wait_until(lambda: line_of(turn) in display.lines, line_of(turn))

        wait_for(first)
        after, is_open = iter(turns), False
        for step in STEPS:
            session.server.keys(*keys_of(step))
            is_closing = step == "Grid" and is_open
            is_open = step == "Grid" and not is_open
            if not is_closing:  # closing the grid says nothing
                wait_for(next(after))
        return reader.said()


def line_of(text: str) -> str:
    """As Orca's usual table writes it, in computer braille of eight dots, on a display of 40 cells."""
    return cells_by_louis(text, COMPUTER_BRAILLE)[:CELLS].rstrip(BLANK)


def main(count: int) -> None:
    from tests.tools.assistive.practice import by_keys, practised

    failures = 0
    for number in range(1, count + 1):
        with tempfile.TemporaryDirectory() as folder:
            home = Path(folder)
            expected = by_keys(home / "keys")
            began = time.perf_counter()
            try:
                said = practise_with_orca(home, expected)
            except AssertionError as error:
                failures += 1
                print(f"{number}: {error}")
                continue
            is_once = [line for line in said if line in expected.turns()] == expected.turns()
            is_same = practised(home / "window").rows() == expected.rows()
            failures += not (is_once and is_same)
            print(f"{number}: {time.perf_counter() - began:.1f} s, each turn once: {is_once}, same rows: {is_same}")
    print(f"{failures} of {count} failed")


if __name__ == "__main__":
    main(int(sys.argv[1]) if sys.argv[1:] else 20)
