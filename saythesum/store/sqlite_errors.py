"""SQLite's errors as one sentence for the person: what is wrong, where, and what to do."""

import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from saythesum.errors import StoreError

_DISK_IS_FULL = (
    "There is no room left on the disk for {path}: make room and start again; every answer kept so far is safe."
)
_SENTENCES = {
    "SQLITE_FULL": _DISK_IS_FULL,
    "SQLITE_IOERR": "The disk failed while the records in {path} were read or written: free some room or try "
    "another disk, and start again; every answer kept so far is safe.",
    "SQLITE_READONLY": "The records in {path} cannot be written: make the file and its folder writable, "
    "or set SAYTHESUM_HOME to a folder that is.",
    "SQLITE_CANTOPEN": "The records in {path} cannot be opened: make the file and its folder readable and "
    "writable, or set SAYTHESUM_HOME to a folder that is.",
    "SQLITE_PERM": "The records in {path} cannot be opened: make the file and its folder readable and "
    "writable, or set SAYTHESUM_HOME to a folder that is.",
    "SQLITE_BUSY": "The records in {path} are in use by another program: close it and start again.",
    "SQLITE_LOCKED": "The records in {path} are in use by another program: close it and start again.",
}


MAKE_WRITABLE = "make it writable, or set SAYTHESUM_HOME to a folder that is"


_LEAST_ROOM_BYTES = 64 * 1024
"""With less room, SQLite cannot create its side files, and reports an I/O error instead of a full disk."""


class UnreadableError(StoreError):
    """The file is intact, but this version cannot read one of its practices."""

    code = "store-unreadable"


class DamagedError(StoreError):
    """The file itself is damaged. `mending` recovers what can still be read."""

    code = "store-damaged"


def damaged(path: Path, what: str) -> DamagedError:
    return DamagedError(f"The records in {path} are damaged ({what}).")


def check_is_a_file(path: Path) -> None:
    """Raises StoreError if the path is a folder, a pipe or a device. It need not exist."""
    if path.exists() and not path.is_file():
        raise StoreError(
            f"A {'folder' if path.is_dir() else 'pipe or a device'} stands where the records should be, at {path}: "
            "move it elsewhere, or set SAYTHESUM_HOME to another folder."
        )


@contextmanager
def store_errors(path: Path) -> Iterator[None]:
    """Turns SQLite's errors into a StoreError. A misuse of SQLite is a fault of ours and stays one."""
    try:
        yield
    except sqlite3.Error as error:
        name: str = getattr(error, "sqlite_errorname", "")
        if not name:
            raise
        if name.startswith(("SQLITE_CORRUPT", "SQLITE_NOTADB")):
            raise damaged(path, str(error)) from error
        for start, sentence in _SENTENCES.items():
            if name.startswith(start):
                is_full = start in ("SQLITE_IOERR", "SQLITE_CANTOPEN") and _is_disk_full(path.parent)
                raise StoreError((_DISK_IS_FULL if is_full else sentence).format(path=path)) from error
        raise StoreError(f"The records in {path} did not take what was to be kept ({error}).") from error


def _is_disk_full(folder: Path) -> bool:
    try:
        return shutil.disk_usage(folder).free < _LEAST_ROOM_BYTES
    except OSError:
        return False
