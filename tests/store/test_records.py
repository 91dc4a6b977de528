"""What only the records on disk can show: they are append-only, locked to one, and survive a kill."""

import signal
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from saythesum.errors import CallerError, StoreError
from saythesum.store.reading import open_to_read
from saythesum.store.records import LARGEST_SEED, SqliteStore
from tests.store.made_practices import AT, answered, asked, one_of_each, practice


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "kept" / "records.sqlite"


@pytest.fixture
def store(path: Path) -> Iterator[SqliteStore]:
    made = SqliteStore(path)
    yield made
    made.close()


def fill(store: SqliteStore) -> None:
    store.begin(practice())
    for at_ms, row in enumerate(one_of_each(practice())):
        store.keep(practice().id, row, at=AT, at_ms=at_ms)


def raw(path: Path) -> sqlite3.Connection:
    return sqlite3.connect(path, isolation_level=None)


def test_rows_are_synced_to_the_disk_one_by_one(store: SqliteStore) -> None:
    asked_for = [store._connection.execute(f"PRAGMA {name}").fetchone()[0] for name in ("journal_mode", "synchronous")]
    assert asked_for == ["wal", 2]  # 2 is FULL: https://www.sqlite.org/pragma.html#pragma_synchronous


@pytest.mark.parametrize("kept", [1, 7, 150])
def test_every_row_told_as_kept_is_there_after_a_kill(path: Path, kept: int) -> None:
    child = subprocess.Popen(
        [sys.executable, "-m", "tests.store.keeps_rows", str(path)], stdout=subprocess.PIPE, text=True
    )
    assert child.stdout is not None
    told = [int(child.stdout.readline()) for _ in range(kept)]
    child.send_signal(signal.SIGKILL)
    told += [int(line) for line in child.stdout.read().split()]
    assert child.wait() == -signal.SIGKILL
    child.stdout.close()

    store = SqliteStore(path)  # at once, in spite of the lock that the killed one held
    found = store.practice(practice().id)
    store.close()
    assert len(told) <= len(found.rows) <= len(told) + 1
    assert found.rows == tuple(asked(practice(), serial) for serial in range(len(found.rows)))


def test_a_full_disk_loses_no_row_that_was_told_as_kept(path: Path) -> None:
    child = subprocess.run(
        [sys.executable, "-m", "tests.store.keeps_rows", str(path), "400000"],
        stdout=subprocess.PIPE,
        text=True,
        check=True,
    )
    *told, sentence = child.stdout.splitlines()
    assert sentence.startswith(("There is no room left on the disk", "The disk failed while the records"))
    assert str(path) in sentence
    assert len(told) > 10
    store = SqliteStore(path)
    rows = store.practice(practice().id).rows
    store.close()
    assert rows == tuple(asked(practice(), serial) for serial in range(len(told)))


@pytest.mark.parametrize(
    "change",
    [
        "UPDATE rows SET at_ms = 1",
        "DELETE FROM rows",
        "UPDATE practices SET pupil = 'other'",
        "DELETE FROM practices",
        "INSERT OR REPLACE INTO rows SELECT practice, serial, id, 'ask', at, 0, '{}', 0 FROM rows LIMIT 1",
        "INSERT OR REPLACE INTO rows SELECT practice, serial, 'new', 'ask', at, 0, '{}', 0 FROM rows LIMIT 1",
        "INSERT OR REPLACE INTO practices SELECT * FROM practices",
    ],
)
def test_nothing_kept_can_be_changed(store: SqliteStore, path: Path, change: str) -> None:
    fill(store)
    before = store.practice(practice().id)
    connection = raw(path)
    with pytest.raises(sqlite3.IntegrityError, match="only added"):
        connection.execute(change)
    connection.close()
    assert store.practice(practice().id) == before


def test_a_pupil_can_be_erased_on_purpose_and_no_other(store: SqliteStore, path: Path) -> None:
    fill(store)
    other = practice("other", pupil="rk-7")
    store.begin(other)
    store.keep(other.id, asked(other, 0), at=AT, at_ms=0)
    connection = raw(path)
    connection.execute("BEGIN")
    connection.execute("INSERT INTO erasing VALUES ('pupil-1')")
    with pytest.raises(sqlite3.IntegrityError, match="only added"):
        connection.execute("DELETE FROM rows")
    connection.execute("DELETE FROM rows WHERE practice = ?", (str(practice().id),))
    connection.execute("DELETE FROM practices WHERE pupil = 'pupil-1'")
    connection.execute("DELETE FROM erasing")
    connection.execute("COMMIT")
    connection.close()
    assert store.practices("pupil-1") == []
    assert store.practice(other.id).rows == (asked(other, 0),)


@pytest.mark.parametrize(("column", "value"), [("at_ms", "soon"), ("kind", "dance"), ("serial", -1)])
def test_a_value_of_the_wrong_kind_is_not_taken(store: SqliteStore, path: Path, column: str, value: object) -> None:
    fill(store)
    row = {"practice": str(practice().id), "serial": 9, "id": "x", "kind": "ask", "at": AT, "at_ms": 0, "fields": "{}"}
    connection = raw(path)
    with pytest.raises(sqlite3.IntegrityError):
        connection.execute(
            "INSERT INTO rows VALUES (:practice, :serial, :id, :kind, :at, :at_ms, :fields, 0)", {**row, column: value}
        )
    connection.close()


def test_a_second_copy_is_told_that_another_is_open(store: SqliteStore, path: Path) -> None:
    with pytest.raises(StoreError, match="Another copy of saythesum is practising with the records in"):
        SqliteStore(path)
    fill(store)  # the first goes on


def test_another_process_is_kept_out_too(store: SqliteStore, path: Path) -> None:
    child = subprocess.run(
        [sys.executable, "-m", "tests.store.keeps_rows", str(path)], capture_output=True, text=True, check=False
    )
    assert child.returncode != 0
    assert "AnotherCopyError: Another copy of saythesum is practising" in child.stderr
    assert store.practices("pupil-1") == []


def test_reading_goes_on_while_another_copy_practises(store: SqliteStore, path: Path) -> None:
    fill(store)
    reader = open_to_read(path)
    assert reader.practice(practice().id).rows == one_of_each(practice())
    more = asked(practice(), 9)
    store.keep(practice().id, more, at=AT, at_ms=9)
    assert reader.practice(practice().id).rows[-1] == more
    assert reader.unreadable() == ()
    reader.close()


def test_a_closed_store_can_be_opened_again(path: Path) -> None:
    first = SqliteStore(path)
    fill(first)
    first.close()
    second = SqliteStore(path)
    assert second.practice(practice().id).rows == one_of_each(practice())
    second.close()


def test_a_seed_that_does_not_fit_is_the_callers_mistake(store: SqliteStore) -> None:
    with pytest.raises(CallerError, match="The seed 9223372036854775808 is too long"):
        store.begin(replace(practice(), seed=LARGEST_SEED + 1))


def test_text_that_is_no_unicode_is_kept_all_the_same(store: SqliteStore) -> None:
    odd = replace(practice(), grid_text='title = "\ud83d \x00"')
    store.begin(odd)
    assert store.practice(odd.id) == odd


def test_a_clock_that_is_set_back_changes_no_order(store: SqliteStore) -> None:
    store.begin(practice())
    days = ("2031-05-12T09:30:00.250Z", "2001-01-01T00:00:00.000Z", "2031-05-12T09:30:00.250Z")
    for serial, at in enumerate(days):
        store.keep(practice().id, answered(practice(), serial), at=at, at_ms=serial)
    assert store.practice(practice().id).rows == tuple(answered(practice(), serial) for serial in range(3))
    assert store.unreadable() == ()
