"""Looks at the records: whether they can be read, and what in them cannot be taken at its word."""

import os
from collections.abc import Iterator
from contextlib import closing, suppress
from pathlib import Path

from saythesum.app.session.opening import mended
from saythesum.app.setup.folders import Places, own_places
from saythesum.app.terminal.console import show
from saythesum.errors import StoreError
from saythesum.learner.data_quality import oddities
from saythesum.learner.replay import Kept
from saythesum.settings import Settings
from saythesum.store.reading import StoredRecords, open_to_read
from saythesum.store.sqlite_errors import MAKE_WRITABLE, DamagedError, UnreadableError
from saythesum.wording.for_adults.said_oddities import oddities_said

MEND = (
    "To go on with all that can be read, run: saythesum check --mend. It makes a new file of it and keeps the damaged "
    "one beside it."
)


def records_can_be_read(own: Places, settings: Settings) -> str:
    if not own.records_file.exists():
        return _records_to_come(own.records_file)
    try:
        with closing(open_to_read(own.records_file)) as store:
            store.check_file()
            return " ".join(
                [f"can be read, in {own.records_file}.", *_newest_rows(own), *store.unreadable(), *_odd_answers(store)]
            )
    except DamagedError as damage:
        raise StoreError(f"{damage} {MEND}") from damage


def mend_records() -> None:
    """Raises StoreError where there are none, or they cannot be mended."""
    records = own_places().records_file
    try:
        with closing(open_to_read(records)) as store:
            store.check_file()
    except DamagedError as damage:
        show(mended(records, damage))
    else:
        show(f"The records in {records} are whole: there is nothing to mend.")


def _newest_rows(own: Places) -> Iterator[str]:
    """A copy of the records is not complete without these."""
    beside = own.newest_rows_file
    if beside.exists() and beside.stat().st_size:
        yield (
            f"Their newest rows are in {beside} until a practice ends: to copy the records, let one end first, "
            "or copy both files together while none is going on."
        )


def _records_to_come(file: Path) -> str:
    """Folders that are not there yet are made in the nearest one that is."""
    there = next(folder for folder in file.parents if folder.is_dir())
    if not os.access(there, os.W_OK | os.X_OK):
        raise StoreError(f"The folder {there} cannot be written: {MAKE_WRITABLE}.")
    return f"none yet; they will be in {file}."


def _odd_answers(store: StoredRecords) -> Iterator[str]:
    for pupil in store.pupils():
        yield from oddities_said(pupil, oddities(_rows_of(store, pupil)))


def _rows_of(store: StoredRecords, pupil: str) -> Iterator[Kept]:
    """A practice that cannot be read has been reported by now."""
    for id in store.practices(pupil):
        with suppress(UnreadableError):
            yield from map(Kept, store.practice(id).rows, store.times(id))
