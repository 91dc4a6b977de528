"""Only one copy at a time practises with the same records; any number may read them."""

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
            raise
    return lock
