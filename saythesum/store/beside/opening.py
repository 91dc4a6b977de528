"""Opening the records to write in them, with the practising lock or beside somebody who holds it."""

import sqlite3
from pathlib import Path

from saythesum.errors import StoreError
from saythesum.store.migrations import check_is_ours, migrate, version_of
from saythesum.store.sqlite_errors import check_is_a_file, damaged, store_errors
from saythesum.store.write_ahead_log import is_log_whole


def make_folder(folder: Path) -> None:
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        raise StoreError(
            f"The folder {folder} for the records cannot be made ({error.strerror}): "
            "set SAYTHESUM_HOME to a folder that can be written."
        ) from error


def check_write_ahead_log(path: Path) -> None:
    """Raises DamagedError. After a kill the newest rows are in the write-ahead log."""
    try:
        log = path.with_name(f"{path.name}-wal").read_bytes()
    except OSError:  # usually there is none
        return
    if path.exists() and not is_log_whole(log):
        raise damaged(path, "some of the newest rows, in the file whose name ends in -wal, cannot be read")


def opened_to_write(path: Path) -> sqlite3.Connection:
    """Checks before writing, so that a foreign or damaged file stays as it is. The folder is made if needed."""
    make_folder(path.parent)
    check_is_a_file(path)
    with store_errors(path):
        connection = sqlite3.connect(path, isolation_level=None)
        try:
            check_is_ours(connection, path)
            connection.execute("PRAGMA journal_mode = WAL")
            connection.execute("PRAGMA synchronous = FULL")
            connection.execute("PRAGMA foreign_keys = ON")
            migrate(connection)
            # A read-only file is only noticed at the first real write; that should not be a pupil's answer.
            connection.execute(f"PRAGMA user_version = {version_of(connection)}")
        except BaseException:
            connection.close()
            raise
    return connection
