"""Keeps rows until it is killed, and prints the number of each as soon as it is kept.

`python -m tests.store.keeps_rows RECORDS [MOST_BYTES]`. With a second argument no file may grow beyond it.
"""

import sys
from itertools import count
from pathlib import Path

from saythesum.errors import StoreError
from saythesum.store.records import SqliteStore
from tests.store.made_practices import AT, asked, practice


def main(path: str, most_bytes: str | None = None) -> None:
    if most_bytes:
        import resource  # not on Windows

        resource.setrlimit(resource.RLIMIT_FSIZE, (int(most_bytes), int(most_bytes)))
    store = SqliteStore(Path(path))
    started = practice()
    store.begin(started)
    for serial in count():
        try:
            store.keep(started.id, asked(started, serial), at=AT, at_ms=serial)
        except StoreError as error:
            print(error, flush=True)
            return
        print(serial, flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
