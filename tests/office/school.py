"""Two laptops of a harbour school, with practices of their own and of both."""

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from uuid import UUID

from saythesum.app.setup.folders import Places
from saythesum.core.records.rows import Row
from saythesum.core.records.times import utc_text
from saythesum.ports import StoredPractice
from saythesum.store.reading import open_to_read
from saythesum.store.records import SqliteStore
from tests.store.made_practices import asked, one_of_each, practice

NOW = datetime(2031, 5, 14, 8, 0, tzinfo=UTC)


def keeps(places: Places, stored: StoredPractice, rows: tuple[Row, ...], minute: int = 0) -> StoredPractice:
    """Begins the practice unless it has begun, and keeps these rows of it, one a second."""
    store = SqliteStore(places.records_file)
    if stored.id not in store.practices(stored.pupil):
        store.begin(stored)
    for second, row in enumerate(rows):
        at = utc_text(datetime(2031, 5, 12, 10, minute, second, tzinfo=UTC))
        store.keep(stored.id, row, at=at, at_ms=1000 * second)
    store.close()
    return stored


def some_answers(name: str, pupil: str) -> tuple[StoredPractice, tuple[Row, ...]]:
    stored = practice(name, pupil=pupil)
    return stored, one_of_each(stored)


def more(stored: StoredPractice, serial: int, count: int) -> tuple[Row, ...]:
    return tuple(replace(asked(stored, serial + n), column=n % 2) for n in range(count))


def all_rows(places: Places) -> dict[UUID, tuple[str, tuple[Row, ...], tuple[datetime, ...]]]:
    """All that is kept, by practice."""
    reader = open_to_read(places.records_file)
    try:
        assert reader.unreadable() == (), reader.unreadable()
        reader.check_file()
        ids = [id for code in reader.pupils() for id in reader.practices(code)]
        return {id: (reader.practice(id).pupil, reader.practice(id).rows, reader.times(id)) for id in ids}
    finally:
        reader.close()


def bytes_of(folder: Path) -> bytes:
    return b"".join(file.read_bytes() for file in sorted(folder.rglob("*")) if file.is_file())
