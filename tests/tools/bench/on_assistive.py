"""The window while its tree is published: what it costs at rest, and how soon a key is seen and announced."""

import json
import subprocess
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from tests.tools.assistive.client import DEBIANS_PYTHON
from tests.tools.assistive.practice import in_a_window, wait_for_line
from tests.tools.assistive.session import Session, assistive_session
from tests.tools.bench.lines import TIMES, Figure
from tests.tools.bench.on_screen import Keyboard, until_pixels_ms

LISTENER = Path(__file__).parents[1] / "assistive" / "at_spi_listener.py"
_SETTLED_S = 6.0
"""By then it is not looked every moment any more who has come to listen."""
_REST_S = 1.0
_QUIET_S = 0.6


def while_published() -> Iterator[Figure]:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        with assistive_session(folder) as session, in_a_window(session, folder / "window") as program:
            wait_for_line(folder / "window", lambda line: line["kind"] == "say")
            session.wait_for_window()
            session.focus_window()
            with subprocess.Popen(
                [DEBIANS_PYTHON, str(LISTENER)], env=session.environment, stdout=subprocess.PIPE, text=True
            ) as listener:
                session.enable()
                time.sleep(_SETTLED_S)
                yield Figure("published, at rest", _rest_percent(program.pid), "% of a core", 2)
                yield Figure("published, key to pixels", until_pixels_ms(session.server), "ms", 50)
                yield Figure("published, key to live text at the client", _until_text_ms(session, listener), "ms", 100)
                listener.kill()


def _rest_percent(pid: int) -> list[float]:
    shares = []
    for _ in range(TIMES):
        began, before = time.perf_counter(), _ran_s(pid)
        time.sleep(_REST_S)
        shares.append(100 * (_ran_s(pid) - before) / (time.perf_counter() - began))
    return shares


def _ran_s(pid: int) -> float:
    """Of all its threads. Source: proc(5): the first number of schedstat is nanoseconds on a processor."""
    return sum(int(path.read_text().split()[0]) for path in Path(f"/proc/{pid}/task").glob("*/schedstat")) / 1e9


def _until_text_ms(session: Session, listener: subprocess.Popen[str]) -> list[float]:
    """Space: the question again, in the same words."""
    assert listener.stdout is not None
    assert json.loads(listener.stdout.readline())["text"] is None, "it has begun to listen"
    tap, times_ms = Keyboard(session.server), []
    for _ in range(TIMES):
        time.sleep(_QUIET_S)
        began = time.perf_counter()
        tap("space")
        while (came := json.loads(listener.stdout.readline()))["at_s"] < began or not came["text"]:
            pass
        times_ms.append(1000 * (came["at_s"] - began))
    return times_ms
