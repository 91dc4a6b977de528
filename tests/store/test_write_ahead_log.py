"""Checked against SQLite itself: a log is whole exactly where SQLite gives every row that was kept in it."""

import random
import shutil
from contextlib import closing
from pathlib import Path

import pytest

from saythesum.store.reading import open_to_read
from saythesum.store.records import SqliteStore
from saythesum.store.write_ahead_log import is_log_whole
from tests.store.made_practices import AT, answered, practice

ROWS = 12


@pytest.fixture
def killed(tmp_path: Path) -> Path:
    """Records as a kill leaves them: rows in the log that are in no other file."""
    store = SqliteStore(tmp_path / "records.sqlite")
    store.begin(practice())
    for serial in range(ROWS):
        store.keep(practice().id, answered(practice(), serial), at=AT, at_ms=serial)
    (tmp_path / "killed").mkdir()
    for name in ("records.sqlite", "records.sqlite-wal"):
        shutil.copy(tmp_path / name, tmp_path / "killed" / name)
    store.close()
    return tmp_path / "killed" / "records.sqlite"


def rows_read(records: Path) -> int:
    with closing(open_to_read(records)) as store:
        return sum(len(store.practice(id).rows) for id in store.practices("pupil-1"))


def test_a_log_as_a_kill_leaves_it_is_whole(killed: Path) -> None:
    assert is_log_whole(killed.with_name("records.sqlite-wal").read_bytes())
    assert rows_read(killed) == ROWS


def test_no_log_is_whole() -> None:
    assert is_log_whole(b"")


def test_a_last_change_that_a_kill_broke_off_is_no_damage(killed: Path) -> None:
    log = killed.with_name("records.sqlite-wal").read_bytes()
    for kept in (0, 24):  # a frame has a header of 24 bytes, and a page of 4096
        assert is_log_whole(log[: len(log) - 4120 + kept])


@pytest.mark.parametrize("kept", [1, 31, 33, 500, 4151, 5000, -1, -24, -4095])
def test_a_log_that_is_cut_off_is_found(kept: int, killed: Path) -> None:
    assert not is_log_whole(killed.with_name("records.sqlite-wal").read_bytes()[:kept])


@pytest.mark.parametrize("seed", range(60))
def test_a_damaged_byte_that_hides_a_row_is_found(seed: int, killed: Path) -> None:
    dice = random.Random(seed)
    path = killed.with_name("records.sqlite-wal")
    log = bytearray(path.read_bytes())
    at = dice.randrange(32) if seed % 3 == 0 else 32 + 4120 * dice.randrange(len(log) // 4120) + dice.randrange(4120)
    log[at] ^= 1 << dice.randrange(8)
    path.write_bytes(log)
    is_whole = is_log_whole(bytes(log))
    try:
        is_all_read = rows_read(killed) == ROWS
    except Exception:
        is_all_read = False
    assert is_all_read or not is_whole


def test_frames_from_before_the_log_began_anew_are_no_damage(tmp_path: Path) -> None:
    store = SqliteStore(tmp_path / "records.sqlite")
    store.begin(practice())
    for serial in range(ROWS):
        store.keep(practice().id, answered(practice(), serial), at=AT, at_ms=serial)
    store._connection.execute("PRAGMA wal_checkpoint(RESTART)")
    store.keep(practice().id, answered(practice(), ROWS), at=AT, at_ms=ROWS)
    assert is_log_whole((tmp_path / "records.sqlite-wal").read_bytes())
    store.close()
