"""Records that are damaged, foreign, in the way or not ours to write: one sentence, and nothing lost."""

import os
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from tempfile import gettempdir

import pytest

from saythesum.core.records.rows import EndReason
from saythesum.errors import StoreError
from saythesum.settings import Settings
from saythesum.store.checksum import checksum_of
from saythesum.store.codec import plan_as_text, row_as_text
from saythesum.store.lock import LOCK_NAME
from saythesum.store.reading import open_to_read
from saythesum.store.records import SqliteStore
from saythesum.store.sqlite_errors import DamagedError
from tests.store.made_practices import AT, answered, asked, ended, practice


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Records of some pages."""
    made = tmp_path / "records.sqlite"
    store = SqliteStore(made)
    store.begin(practice())
    for serial in range(120):
        store.keep(practice().id, answered(practice(), serial), at=AT, at_ms=serial)
    store.close()
    return made


def spoil_all(path: Path) -> None:
    path.write_bytes(b"Monday: 12 rolls, 4 loaves\n" * 400)


def spoil_a_page(path: Path) -> None:
    data = bytearray(path.read_bytes())
    data[len(data) // 2 : len(data) // 2 + 4096] = b"\xa5" * 4096
    path.write_bytes(data)


def cut_in_half(path: Path) -> None:
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])


def cut_in_the_header(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:50])


def all_read(path: Path) -> None:
    """All that a practice can read, and the whole of the file after it."""
    records = open_to_read(path)
    try:
        for id in records.practices("pupil-1"):
            records.practice(id)
        records.check_file()
    finally:
        records.close()


@pytest.mark.parametrize("spoil", [spoil_all, spoil_a_page, cut_in_half, cut_in_the_header])
def test_damaged_records_are_told_and_not_written(spoil: Callable[[Path], None], path: Path) -> None:
    spoil(path)
    before = path.read_bytes()
    with pytest.raises(DamagedError, match="are damaged") as raised:
        all_read(path)
    assert str(path) in str(raised.value)
    assert "\n" not in str(raised.value)
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    "statement",
    [
        "DROP TABLE rows",
        "DROP TRIGGER rows_are_never_changed",
        "PRAGMA user_version = 0",
        "PRAGMA user_version = 258",
        "PRAGMA application_id = 5",
        "ALTER TABLE rows RENAME TO oars",
    ],
)
@pytest.mark.parametrize("open_one", [SqliteStore, open_to_read])
def test_records_without_their_format_a_table_or_their_mark_are_damaged(
    open_one: type[SqliteStore], statement: str, path: Path
) -> None:
    connection = sqlite3.connect(path)
    connection.execute(statement)
    connection.close()
    with pytest.raises(DamagedError):
        open_one(path)


@pytest.mark.parametrize("open_one", [SqliteStore, open_to_read])
def test_another_programs_database_is_left_alone(open_one: type[SqliteStore], tmp_path: Path) -> None:
    path = tmp_path / "records.sqlite"
    other = sqlite3.connect(path)
    other.execute("CREATE TABLE loaves (weight_g INTEGER)")
    other.close()
    before = path.read_bytes()
    with pytest.raises(StoreError, match="is another program's database"):
        open_one(path)
    assert path.read_bytes() == before


def test_a_folder_in_the_place_of_the_records(tmp_path: Path) -> None:
    (tmp_path / "records.sqlite").mkdir()
    with pytest.raises(StoreError, match="A folder stands where the records should be"):
        SqliteStore(tmp_path / "records.sqlite")


def test_a_file_in_the_place_of_the_folder(tmp_path: Path) -> None:
    (tmp_path / "kept").write_text("oars")
    with pytest.raises(StoreError, match=r"The folder .*kept for the records cannot be made"):
        SqliteStore(tmp_path / "kept" / "records.sqlite")


def test_something_else_in_the_place_of_the_lock(tmp_path: Path) -> None:
    (tmp_path / LOCK_NAME).mkdir()
    with pytest.raises(StoreError, match=f"{LOCK_NAME} is in the way and cannot be written: remove it"):
        SqliteStore(tmp_path / "records.sqlite")
    (tmp_path / LOCK_NAME).rmdir()
    (tmp_path / LOCK_NAME).write_text("four rows of oars, three in each\n" * 200)
    SqliteStore(tmp_path / "records.sqlite").close()
    assert (tmp_path / f"{LOCK_NAME}-1").read_text() == "four rows of oars, three in each\n" * 200


def test_no_records_yet_to_read(tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="There are no records in"):
        open_to_read(tmp_path / "records.sqlite")
    (tmp_path / "records.sqlite").touch()
    with pytest.raises(StoreError, match="are empty"):
        open_to_read(tmp_path / "records.sqlite")


OPEN_AS_SOMEBODY = """
import os, sys
from pathlib import Path
from tempfile import gettempdir
from saythesum.errors import StoreError
from saythesum.settings import Settings
from saythesum.store.records import SqliteStore
from saythesum.store.sqlite_errors import DamagedError
if os.getuid() == 0:  # permissions do not bind root
    os.setgroups([])
    os.setgid(65534)
    os.setuid(65534)
try:
    SqliteStore(Path(sys.argv[1]))
except StoreError as error:
    print(error)
"""


def opened_as_somebody(path: Path) -> str:
    child = subprocess.run(
        [sys.executable, "-c", OPEN_AS_SOMEBODY, str(path)], capture_output=True, text=True, check=False
    )
    assert child.stderr == ""
    return child.stdout


@pytest.fixture
def open_to_all(tmp_path: Path) -> Path:
    """A folder that another user may reach: pytest makes its own private."""
    for folder in (tmp_path, *tmp_path.parents):
        if Path(gettempdir()) in folder.parents:
            folder.chmod(0o755)
    return tmp_path


@pytest.mark.skipif(os.name != "posix", reason="permissions as POSIX has them")
def test_a_read_only_file(path: Path, open_to_all: Path) -> None:
    (open_to_all / LOCK_NAME).chmod(0o666)
    open_to_all.chmod(0o777)
    path.chmod(0o444)
    before = path.read_bytes()
    told = opened_as_somebody(path)
    assert told.startswith(f"The records in {path} cannot be written: make the file and its folder writable")
    assert path.read_bytes() == before


@pytest.mark.skipif(os.name != "posix", reason="permissions as POSIX has them")
def test_a_read_only_folder(open_to_all: Path) -> None:
    open_to_all.chmod(0o555)
    told = opened_as_somebody(open_to_all / "records.sqlite")
    assert told == (
        f"The folder {open_to_all} cannot be written: make it writable, or set SAYTHESUM_HOME to a folder that is.\n"
    )
    told = opened_as_somebody(open_to_all / "deeper" / "records.sqlite")
    assert told.startswith(f"The folder {open_to_all / 'deeper'} for the records cannot be made (Permission denied)")


def insert_row(path: Path, serial: int, id: str, kind: str, *, at: str = AT, fields: str = "{}") -> None:
    """Whole as far as its checksum goes."""
    insert(path, "rows", str(practice().id), serial, id, kind, at, 0, fields)


def insert_practice(path: Path, *, plan: str, settings: str) -> None:
    began_at = practice().began_at
    insert(path, "practices", 1, str(practice().id), "pupil-1", began_at, plan, 0, settings, "0.1.0", "practise")


def insert(path: Path, table: str, *columns: str | int) -> None:
    connection = sqlite3.connect(path)
    with connection:
        places = ", ".join("?" * (len(columns) + 1))
        connection.execute(f"INSERT INTO {table} VALUES ({places})", (*columns, checksum_of(*columns)))  # noqa: S608
    connection.close()


@pytest.mark.parametrize(
    ("column", "value", "what"),
    [
        ("fields", '{"row": 0}', "`part` is missing"),
        ("fields", "rolls", "it is not JSON"),
        ("fields", "[" * 100_000, "it is not JSON"),
        ("fields", "[]", "it is not a group of fields"),
        ("id", "no-uuid", "`id` is 'no-uuid'"),
    ],
)
def test_a_row_that_cannot_be_read_is_left_aside_and_its_practice_does_not_go_on(
    path: Path, column: str, value: str, what: str
) -> None:
    whole = asked(practice(), 120)
    row = {"id": whole.id, "fields": row_as_text(whole), column: value}
    insert_row(path, 120, row["id"], "ask", fields=row["fields"])
    store = SqliteStore(path)
    later = practice("later")
    store.begin(later)
    store.keep(later.id, ended(later, 0, EndReason.FINISHED), at=AT, at_ms=0)
    assert store.unfinished("pupil-1") is None
    stored = store.practice(practice().id)
    assert stored.rows == tuple(answered(practice(), serial) for serial in range(120))
    assert len(store.times(practice().id)) == 120
    assert stored.left_aside == store.unreadable()
    assert len(stored.left_aside) == 1
    assert what in stored.left_aside[0]
    assert store.practices("pupil-1") == [practice().id, later.id]
    store.close()


def test_an_end_that_cannot_be_read_finishes_nothing(path: Path) -> None:
    insert_row(path, 120, "x", "end")
    store = SqliteStore(path)
    assert store.unfinished("pupil-1") is None
    assert len(store.unreadable()) == 1
    store.close()


@pytest.mark.parametrize(
    ("column", "value"),
    [
        ("plan", "{}"),
        ("plan", "["),
        ("plan", '{"grid": "", "cells": 3}'),
        ("plan", '{"grid": "", "cells": [[0]]}'),
        ("plan", '{"grid": "", "cells": [["0", "1"]]}'),
        ("settings", "[4]"),
    ],
)
def test_a_plan_that_cannot_be_read_is_told(tmp_path: Path, column: str, value: str) -> None:
    store = SqliteStore(tmp_path / "records.sqlite")
    insert_practice(tmp_path / "records.sqlite", **{"plan": '{"grid": ""}', "settings": "{}", column: value})
    assert store.unfinished("pupil-1") is None
    assert f"The practice {practice().id} in" in store.unreadable()[0]
    store.close()


def test_settings_of_another_version_do_not_stop_a_practice(tmp_path: Path) -> None:
    store = SqliteStore(tmp_path / "records.sqlite")
    settings = '{"speech": {"rate_wpm": 9999}, "later": 1}'
    plan = plan_as_text(practice().activities)
    insert_practice(tmp_path / "records.sqlite", plan=plan, settings=settings)
    gone_on = store.unfinished("pupil-1")
    assert gone_on is not None
    assert gone_on.settings == Settings()
    store.close()


def test_a_time_that_is_none_leaves_its_row_aside(path: Path) -> None:
    last = answered(practice(), 120)
    insert_row(path, 120, last.id, "answer", at="at noon", fields=row_as_text(last))
    store = SqliteStore(path)
    (sentence,) = store.unreadable()
    assert sentence == f"Row 120 of the practice {practice().id} in {path} is left aside: 'at noon' is not a time."
    assert last not in store.practice(practice().id).rows
    store.close()


def changed(path: Path, statement: str) -> None:
    """As a damaged disk changes a file: past our triggers."""
    connection = sqlite3.connect(path)
    triggers = connection.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
    for name, _ in triggers:
        connection.execute(f"DROP TRIGGER {name}")
    with connection:
        connection.execute(statement)
    for _, sql in triggers:
        connection.execute(sql)
    connection.close()


ROW_7 = "UPDATE rows SET {} WHERE serial = 7"


@pytest.mark.parametrize(
    "change",
    [
        "at = '2031-05-12T09:30:01.250Z'",
        "at_ms = 8",
        "kind = 'ask'",
        "fields = replace(fields, '54', '64')",
        "checksum = checksum + 1",
        "id = '09b4ef06-e935-5c4d-8a20-27213130d389'",
        "serial = 500",
    ],
)
def test_a_change_that_reads_well_leaves_its_row_aside(change: str, path: Path) -> None:
    changed(path, ROW_7.format(change))
    store = SqliteStore(path)
    stored = store.practice(practice().id)
    assert stored.rows == tuple(answered(practice(), serial) for serial in range(120) if serial != 7)
    assert len(stored.left_aside) == len(store.unreadable()) == 1
    assert store.unfinished("pupil-1") is None
    store.check_file()
    store.close()


def test_rows_that_are_lost_are_missed(path: Path) -> None:
    changed(path, "DELETE FROM rows WHERE serial IN (7, 8)")
    store = SqliteStore(path)
    assert store.unreadable() == (f"The practice {practice().id} in {path} has lost 2 of its rows.",)
    store.close()


@pytest.mark.parametrize(
    "change",
    [
        "pupil = 'mo'",
        "began_at = '2031-13-45'",
        "seed = 4",
        "aim = 'probe'",
        "plan = replace(plan, '47', '57')",
        "id = 'f9639ef4-e98f-5f11-bdaf-ce2e0d2e78e6'",
        "id = 'oars'",
        "number = 9",
    ],
)
def test_a_practice_that_has_changed_is_nobodys(change: str, path: Path) -> None:
    changed(path, f"UPDATE practices SET {change}")  # noqa: S608 - one of the above
    store = SqliteStore(path)
    assert store.unfinished("pupil-1") is None
    assert store.unfinished("mo") is None
    assert store.unreadable()
    store.close()


def test_a_grid_that_no_longer_reads_stops_nothing(tmp_path: Path) -> None:
    store = SqliteStore(tmp_path / "records.sqlite")
    for name, grid in (("nested", "add = " + "[" * 5000), ("empty", "")):
        store.begin(practice(name, grid_text=grid))
    assert store.unfinished("pupil-1") is None
    assert len(store.unreadable()) == 2
    assert all("cannot be read" in sentence for sentence in store.unreadable())
    store.close()
