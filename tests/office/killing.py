"""An operation of the office in a process of its own that is killed before a certain statement of SQL, or file name."""

import os
import signal
import sqlite3
from collections.abc import Callable
from typing import Any

DONE, KILLED = 0, -signal.SIGKILL


def killed_at(statement: int, operation: Callable[[], object]) -> bool:
    """Kills the process just before the so-manieth statement, counted from 0. Whether there were that many."""
    process = os.fork()
    if process == 0:
        _run(statement, operation)
    _, status = os.waitpid(process, 0)
    code = os.waitstatus_to_exitcode(status)
    assert code in (DONE, KILLED), code
    return code == KILLED


def _run(statement: int, operation: Callable[[], object]) -> None:
    """In the child, which never returns. Replacing a file counts as a statement as well."""
    left = statement

    def step(*_: object) -> None:
        nonlocal left
        if left == 0:
            os.kill(os.getpid(), signal.SIGKILL)
        left -= 1

    connect, replace, unlink = sqlite3.connect, os.replace, os.unlink

    def traced(*given: Any, **named: Any) -> sqlite3.Connection:
        connection: sqlite3.Connection = connect(*given, **named)
        connection.set_trace_callback(step)
        return connection

    def stepping(act: Callable[..., object]) -> Callable[..., object]:
        def acted(*given: Any, **named: Any) -> object:
            step()
            return act(*given, **named)

        return acted

    code = 1
    try:
        sqlite3.connect = traced  # type: ignore[assignment]
        os.replace, os.unlink = stepping(replace), stepping(unlink)  # type: ignore[assignment]
        operation()
        code = DONE
    finally:
        os._exit(code)
