"""Writing in the records while somebody may be practising with them."""

import sqlite3
from collections.abc import Iterator
from contextlib import ExitStack, closing, contextmanager

from saythesum.errors import AnotherCopyError, StoreError
from saythesum.office.places import Places
from saythesum.store.beside.opening import make_folder, opened_to_write
from saythesum.store.lock import lock_to_practise
from saythesum.store.reading import StoredRecords
from saythesum.store.sqlite_errors import store_errors


class PractisingNowError(StoreError):
    """The pupil may be practising at this moment: what is to be written waits until that is over."""


@contextmanager
def writing_about(places: Places, code: str) -> Iterator[StoredRecords]:
    """One transaction. Nobody begins or goes on meanwhile; another pupil who practises already is not disturbed.

    A pupil who practises has an unfinished practice: where somebody practises, such a pupil's rows are left alone.
    """
    records = places.records_file
    make_folder(records.parent)
    with ExitStack() as stack, store_errors(records):
        is_locked = False
        try:
            stack.enter_context(closing(lock_to_practise(records.parent)))
            is_locked = True
        except AnotherCopyError:
            pass
        connection = stack.enter_context(closing(opened_to_write(records)))
        reader = StoredRecords(connection, records)
        connection.execute("BEGIN IMMEDIATE")
        try:
            if not is_locked and reader.unfinished(code):
                raise PractisingNowError(
                    f"Somebody is practising, perhaps {code}: nothing was changed; try again when the practice is over."
                )
            yield reader
            connection.execute("COMMIT")
        except BaseException:
            _roll_back(connection)
            raise


def _roll_back(connection: sqlite3.Connection) -> None:
    if connection.in_transaction:
        connection.execute("ROLLBACK")
