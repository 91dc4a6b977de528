"""A practice while accessibility is switched on and off, and the window's tree changes all the time.

`python -m tests.tools.assistive.toggling [COUNT]`: prints whether the practice still answers at the end.
"""

import sys
import tempfile
import time
from pathlib import Path

from tests.tools.assistive.practice import in_a_window, practised
from tests.tools.assistive.session import Session, assistive_session

LONGEST_S = 60


def digits_are_taken(session: Session, home: Path) -> bool:
    """Four, three and Enter are an answer: the practice has not stopped."""
    session.server.keys("BackSpace", "BackSpace", "BackSpace", "4", "3", "Return")
    deadline = time.perf_counter() + LONGEST_S
    while time.perf_counter() < deadline:
        if any(line["kind"] == "answer" and line["given"] == 43 for line in practised(home).lines):
            return True
        time.sleep(0.05)
    return False


def toggled(folder: Path, count: int) -> bool:
    """Keys go on all the time, so that updates and activations meet."""
    home = folder / "window"
    with assistive_session(folder) as session, in_a_window(session, home):
        session.wait_for_window()
        session.focus_window()
        for at in range(count):
            session.enable(is_on=at % 2 == 0)
            session.server.keys("7", "BackSpace")
        return digits_are_taken(session, home)


def main(count: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        began = time.perf_counter()
        is_alive = toggled(Path(folder), count)
        took_s = time.perf_counter() - began
    print(f"switched {count} times in {took_s:.1f} s: the practice {'goes on' if is_alive else 'STANDS STILL'}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if sys.argv[1:] else 200)
