"""What SQLite reports, in one sentence for the person: what is wrong, where, and what to do."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from saythesum.errors import StoreError

_SENTENCES = {
    "SQLITE_FULL": "There is no room left on the disk for {path}: make room and start again; "
    "every answer kept so far is safe.",
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


class UnreadableError(StoreError):
    """The file is whole, but one practice in it is not what this version can read."""

    code = "store-unreadable"


def damaged(path: Path, what: str) -> StoreError:
    return StoreError(
        f"The records in {path} are damaged ({what}). Nothing in them was changed: move the file, and any "
        f"beside it whose names begin with {path.name}, to another folder, and practice can start anew."
    )


def check_is_a_file(path: Path) -> None:
    """Raises StoreError where a folder stands, or a pipe. Nothing at all may be there."""
    if path.exists() and not path.is_file():
        raise StoreError(
            f"A {'folder' if path.is_dir() else 'pipe or a device'} stands where the records should be, at {path}: "
            "move it elsewhere, or set SAYTHESUM_HOME to another folder."
        )


@contextmanager
def told_plainly(path: Path) -> Iterator[None]:
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
                raise StoreError(sentence.format(path=path)) from error
        raise StoreError(f"The records in {path} did not take what was to be kept ({error}).") from error
