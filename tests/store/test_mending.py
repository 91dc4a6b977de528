"""Whatever has been done to the file, each row that is whole is in the new one."""

import random
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from saythesum.core.records.rows import Row
from saythesum.errors import StoreError
from saythesum.ports import StoredPractice
from saythesum.store.mending import finish_mending, mend
from saythesum.store.reading import open_to_read
from saythesum.store.records import SqliteStore
from tests.store.made_practices import AT, answered, asked, one_of_each, practice, probe

PRACTICES = 4
ROWS = 40


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "records.sqlite"
    with closing(SqliteStore(made)) as store:
        for started in practices():
            store.begin(started)
            for serial in range(ROWS):
                store.keep(started.id, answered(started, serial), at=AT, at_ms=serial)
    return made


def practices() -> Iterator[StoredPractice]:
    yield from (practice(f"bakery {number}") for number in range(PRACTICES))


def rows_in(path: Path) -> set[Row]:
    with closing(open_to_read(path)) as records:
        records.check_file()
        return {row for id in records.practices("pupil-1") for row in records.practice(id).rows}


def test_without_damage_all_is_there_again(path: Path) -> None:
    before = path.read_bytes()
    whole = rows_in(path)
    done = mend(path)
    assert (done.practices, done.rows) == (PRACTICES, PRACTICES * ROWS)
    assert rows_in(path) == whole
    assert done.kept_as.read_bytes() == before
    with closing(SqliteStore(path)) as store:  # and it goes on
        first = practice("bakery 0")
        store.keep(first.id, asked(first, ROWS), at=AT, at_ms=0)
        assert store.unreadable() == ()


@pytest.mark.parametrize("page", range(8))
def test_one_page_of_nonsense_costs_what_stood_in_it(page: int, path: Path) -> None:
    whole, data = rows_in(path), bytearray(path.read_bytes())
    data[page * 4096 : (page + 1) * 4096] = random.Random(page).randbytes(4096)
    path.write_bytes(data)
    mend(path)
    left = rows_in(path)
    assert left <= whole
    # A page holds 7 of these rows at most, or all four practices.
    assert len(left) >= len(whole) - 8 or page == 2


@pytest.mark.parametrize("dump", ["version-1.sql", "version-2.sql", "version-3.sql"])
def test_records_of_every_format(dump: str, tmp_path: Path) -> None:
    path = tmp_path / "records.sqlite"
    with closing(sqlite3.connect(path)) as written:
        written.executescript((Path(__file__).parent / dump).read_text(encoding="utf-8"))
    data = bytearray(path.read_bytes())
    data[:100] = bytes(100)
    path.write_bytes(data)
    mend(path)
    with closing(open_to_read(path)) as records:
        assert records.practice(practice().id).rows == one_of_each(practice())
        assert dump == "version-1.sql" or records.practice(probe().id) == probe()


def test_rows_that_stand_in_the_log_alone(tmp_path: Path) -> None:
    path = tmp_path / "records.sqlite"
    store = SqliteStore(path)
    store.begin(practice())
    for serial in range(20):
        store.keep(practice().id, answered(practice(), serial), at=AT, at_ms=serial)
    log = path.with_name("records.sqlite-wal").read_bytes()
    data = path.read_bytes()
    store.close()
    path.write_bytes(data)
    spoilt = log[:9000] + b"\xa5" * 50 + log[9050:]
    path.with_name("records.sqlite-wal").write_bytes(spoilt)
    with pytest.raises(
        StoreError, match="some of the newest rows, in the file whose name ends in -wal, cannot be read"
    ):
        SqliteStore(path)
    done = mend(path)
    assert done.rows == 20
    assert done.kept_as.with_name(f"{done.kept_as.name}-wal").read_bytes() == spoilt
    assert len(rows_in(path)) == 20


def test_damaged_twice_keeps_both(path: Path) -> None:
    assert [mend(path).kept_as.name for _ in range(2)] == ["records-damaged-1.sqlite", "records-damaged-2.sqlite"]


def test_a_kill_between_the_two_renamings_loses_nothing(path: Path) -> None:
    whole = rows_in(path)
    path.rename(path.with_name("records-mended.sqlite"))
    finish_mending(path)
    assert rows_in(path) == whole


def test_a_half_written_new_file_is_written_anew(path: Path) -> None:
    whole = rows_in(path)
    path.with_name("records-mended.sqlite").write_bytes(b"SQLite format 3\0 and no more")
    finish_mending(path)
    assert rows_in(path) == whole
    mend(path)
    assert rows_in(path) == whole


def test_nobodys_records_are_mended_while_somebody_practises(path: Path) -> None:
    with closing(SqliteStore(path)), pytest.raises(StoreError, match="Another copy of saythesum is practising"):
        mend(path)
