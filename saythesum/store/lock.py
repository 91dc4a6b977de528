"""Only one copy at a time practises with the same records; any number may read them."""

import os
import sqlite3
from contextlib import ExitStack, closing
from pathlib import Path

from saythesum.errors import AnotherCopyError, StoreError
from saythesum.store.sqlite_errors import MAKE_WRITABLE, told_plainly

LOCK_NAME = "practising.lock"


def lock_to_practise(folder: Path) -> sqlite3.Connection:
    """Held until it is closed, or until the process ends in any way.

    An empty SQLite file, locked exclusively: the same on every platform, and no stale lock after a kill.
    """
    path = folder / LOCK_NAME
    with told_plainly(path), ExitStack() as unless_locked:
        try:
            lock = unless_locked.enter_context(closing(sqlite3.connect(path, timeout=0, isolation_level=None)))
            lock.execute("BEGIN EXCLUSIVE")
        except sqlite3.Error as error:
            if error.sqlite_errorname.startswith("SQLITE_BUSY"):
                raise AnotherCopyError(
                    f"Another copy of saythesum is practising with the records in {folder}: close it, "
                    "or set SAYTHESUM_HOME to another folder for this one."
                ) from error
            if told := _told(error.sqlite_errorname, path):
                raise StoreError(told) from error
            raise
        unless_locked.pop_all()
    return lock


def _told(name: str, lock: Path) -> str | None:
    """What has to be made writable is the folder; the lock only where that is what stands in the way."""
    if not os.access(lock.parent, os.W_OK | os.X_OK):
        return f"The folder {lock.parent} cannot be written: {MAKE_WRITABLE}."
    if name.startswith(("SQLITE_CANTOPEN", "SQLITE_READONLY", "SQLITE_PERM")):
        return f"{lock} is in the way and cannot be written: remove it, or set SAYTHESUM_HOME to another folder."
    return None
