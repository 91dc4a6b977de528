"""Only one copy at a time practises with the same records, and one desk is open on them; any number may read them."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import ExitStack, closing, suppress
from itertools import count
from pathlib import Path

from saythesum.errors import AnotherCopyError, StoreError
from saythesum.store.sqlite_errors import MAKE_WRITABLE, store_errors

LOCK_NAME = "practising.lock"
DESK_LOCK_NAME = "desk.lock"
WAIT_S = 0.5
"""Two copies that start at once each see the other looking; without a short wait neither would get the lock."""


def lock_to_practise(folder: Path) -> sqlite3.Connection:
    """Held until it is closed, or until the process ends in any way. Raises AnotherCopyError, and StoreError."""
    lock = _locked(folder / LOCK_NAME)
    if lock is None:
        raise AnotherCopyError(
            f"Another copy of saythesum is practising with the records in {folder}: close it, "
            "or set SAYTHESUM_HOME to another folder for this one."
        )
    return lock


def lock_of_desk(folder: Path) -> sqlite3.Connection | None:
    """None where a desk is open on these records already. Held likewise. Raises StoreError."""
    return _locked(folder / DESK_LOCK_NAME)


def somebody_practises(folder: Path) -> bool:
    """Looks without locking, so that nobody who begins at this moment is turned away."""
    path = folder / LOCK_NAME
    if not path.is_file():
        return False
    try:
        with closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True, timeout=0)) as looking:
            looking.execute("SELECT 1 FROM sqlite_master").fetchall()
    except sqlite3.Error as error:
        return error.sqlite_errorname.startswith("SQLITE_BUSY")
    return False


def _locked(path: Path) -> sqlite3.Connection | None:
    """None where it is held by somebody else.

    An empty SQLite file, locked exclusively: the same on every platform, and no stale lock after a kill.
    """
    _set_aside_if_not_ours(path)
    with store_errors(path), ExitStack() as unless_locked:
        try:
            lock = unless_locked.enter_context(closing(sqlite3.connect(path, timeout=WAIT_S, isolation_level=None)))
            lock.execute("BEGIN EXCLUSIVE")
        except sqlite3.Error as error:
            if error.sqlite_errorname.startswith("SQLITE_BUSY"):
                return None
            if sentence := _lock_sentence(error.sqlite_errorname, path):
                raise StoreError(sentence) from error
            raise
        unless_locked.pop_all()
    return lock


def _set_aside_if_not_ours(lock: Path) -> None:
    """Our lock is an empty file. One with content belongs to somebody else, so it is renamed, not overwritten."""
    with suppress(OSError):
        if lock.is_file() and lock.stat().st_size > 0:
            lock.rename(next(name for name in _numbered_names(lock) if not name.exists()))


def _numbered_names(lock: Path) -> Iterator[Path]:
    for number in count(1):
        yield lock.with_name(f"{lock.name}-{number}")


def _lock_sentence(name: str, lock: Path) -> str | None:
    """Usually the folder is not writable; only sometimes is the lock file itself in the way."""
    if not os.access(lock.parent, os.W_OK | os.X_OK):
        return f"The folder {lock.parent} cannot be written: {MAKE_WRITABLE}."
    if name.startswith(("SQLITE_CANTOPEN", "SQLITE_READONLY", "SQLITE_PERM")):
        return f"{lock} is in the way and cannot be written: remove it, or set SAYTHESUM_HOME to another folder."
    return None
