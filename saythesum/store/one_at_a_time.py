"""Only one copy at a time practises with the same records; any number may read them."""

import os
import sqlite3
from pathlib import Path

from saythesum.errors import StoreError
from saythesum.store.trouble import told_plainly

LOCK_NAME = "practising.lock"


def lock_to_practise(folder: Path) -> sqlite3.Connection:
    """Held until it is closed, or until the process ends in any way.

    An empty SQLite file, locked exclusively: the same on every platform, and no stale lock after a kill.
    """
    path = folder / LOCK_NAME
    with told_plainly(path):
        lock = sqlite3.connect(path, timeout=0, isolation_level=None)
        try:
            lock.execute("BEGIN EXCLUSIVE")
        except sqlite3.Error as error:
            lock.close()
            if error.sqlite_errorname.startswith("SQLITE_BUSY"):
                raise StoreError(
                    f"Another copy of saythesum is practising with the records in {folder}: close it, "
                    "or set SAYTHESUM_HOME to another folder for this one."
                ) from error
            if error.sqlite_errorname.startswith(("SQLITE_CANTOPEN", "SQLITE_READONLY", "SQLITE_PERM")):
                raise _not_to_be_written(folder, path) from error
            raise
    return lock


def _not_to_be_written(folder: Path, lock: Path) -> StoreError:
    """What has to be made writable is the folder; the lock only where that is what stands in the way."""
    if os.access(folder, os.W_OK | os.X_OK):
        return StoreError(
            f"{lock} is in the way and cannot be written: remove it, or set SAYTHESUM_HOME to another folder."
        )
    return StoreError(
        f"The folder {folder}, where the records are kept, cannot be written: make it writable, "
        "or set SAYTHESUM_HOME to a folder that is."
    )
