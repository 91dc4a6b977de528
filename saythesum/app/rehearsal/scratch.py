"""A temporary folder for one rehearsal: its records, and phrases on their way from the voice."""

import os
import sys
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from shutil import rmtree

from saythesum.errors import StoreError
from saythesum.store.lock import LOCK_NAME, lock_to_practise

_PREFIX = "saythesum-rehearsal-"


@contextmanager
def scratch_folder() -> Iterator[Path]:
    """Gone afterwards; what a rehearsal that was killed has left is cleared away first."""
    _clear_what_was_left()
    with (
        tempfile.TemporaryDirectory(prefix=_PREFIX, ignore_cleanup_errors=True) as folder,
        closing(lock_to_practise(Path(folder))),  # it goes with the process, however that ends
    ):
        yield Path(folder)


def _clear_what_was_left() -> None:
    for folder in Path(tempfile.gettempdir()).glob(f"{_PREFIX}*"):
        with suppress(OSError):
            if _is_left(folder):
                rmtree(folder, ignore_errors=True)


def _is_left(folder: Path) -> bool:
    """Ours, and no rehearsal that still runs holds its lock. One that is just being made has none yet."""
    if sys.platform != "win32" and folder.lstat().st_uid != os.getuid():
        return False
    if folder.is_symlink() or not (folder / LOCK_NAME).is_file():
        return False
    try:
        lock_to_practise(folder).close()
    except StoreError:
        return False
    return True
