"""The practice that a desk has started: watched by its records, and ended."""

import os
import signal
import time
from collections.abc import Callable
from contextlib import closing, suppress
from pathlib import Path
from typing import TypeVar

from saythesum.core.records.rows import Answer, Ask, Row
from saythesum.ports import StoredPractice
from saythesum.store.reading import open_to_read

Found = TypeVar("Found")
DEADLINE_S = 60.0
LOOKS_EVERY_S = 0.1


def waited_for(look: Callable[[], Found | None]) -> Found:
    """Looks again and again, on a busy machine for long."""
    deadline = time.perf_counter() + DEADLINE_S
    while (found := look()) is None:
        assert time.perf_counter() < deadline, "it did not come"
        time.sleep(LOOKS_EVERY_S)
    return found


def practice_of(home: Path, pupil: str) -> StoredPractice | None:
    with closing(open_to_read(home / "records.sqlite")) as reader:
        ids = reader.practices(pupil)
        return reader.practice(ids[-1]) if ids else None


def asked(home: Path, pupil: str) -> Ask | None:
    return _last(home, pupil, Ask)


def answered(home: Path, pupil: str) -> Answer | None:
    return _last(home, pupil, Answer)


RowKind = TypeVar("RowKind", bound=Row)


def _last(home: Path, pupil: str, kind: type[RowKind]) -> RowKind | None:
    practice = practice_of(home, pupil)
    rows = practice.rows if practice else ()
    return next((row for row in reversed(rows) if isinstance(row, kind)), None)


def end_practices(home: Path) -> None:
    """All processes with these records, the desk among them."""
    wanted = f"SAYTHESUM_HOME={home}\0".encode()
    for process in Path("/proc").iterdir():
        with suppress(OSError):
            if process.name.isdigit() and wanted in (process / "environ").read_bytes() + b"\0":
                os.kill(int(process.name), signal.SIGKILL)
