"""Checked against SQLite itself: what its own reading gives must be found in its pages."""

import random
import sqlite3
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from saythesum.store.columns import Value
from saythesum.store.pages import Found, records_in

values = st.one_of(
    st.none(),
    st.integers(-(2**63), 2**63 - 1),
    st.floats(allow_nan=False),
    st.text(st.characters(exclude_categories=["Cs"]), max_size=200),
    st.integers(1000, 9000).map(lambda length: "oar " * (length // 4)),
    st.binary(max_size=50),
)


@settings(max_examples=30, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(kept=st.lists(st.tuples(values, values), min_size=1, max_size=30))
@pytest.mark.parametrize("page_size", [512, 4096, 65536])
def test_every_row_is_found_with_its_number_and_across_pages(
    kept: list[tuple[Value, Value]], page_size: int, tmp_path: Path
) -> None:
    path = tmp_path / "records.sqlite"
    path.unlink(missing_ok=True)
    connection = sqlite3.connect(path)
    connection.execute(f"PRAGMA page_size = {page_size}")
    connection.execute("CREATE TABLE loaves (number INTEGER PRIMARY KEY, a, b)")
    connection.execute("CREATE TABLE oars (place INTEGER PRIMARY KEY, a, b) WITHOUT ROWID")
    with connection:
        for place, row in enumerate(kept):
            connection.execute("INSERT INTO loaves VALUES (?, ?, ?)", (place, *row))
            connection.execute("INSERT INTO oars VALUES (?, ?, ?)", (place, *row))
    connection.close()
    found = [shown(record) for record in records_in(path.read_bytes())]
    for place, row in enumerate(kept):
        assert shown(Found(place, (None, *row))) in found
        assert shown(Found(None, (place, *row))) in found


def shown(found: Found) -> str:
    """1 and 1.0 are equal, but are not the same."""
    return repr((found.row_number, [value + 0.0 if isinstance(value, float) else value for value in found.values]))


def test_rows_that_stand_in_the_log_alone_are_found(tmp_path: Path) -> None:
    path = tmp_path / "records.sqlite"
    connection = sqlite3.connect(path)
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("CREATE TABLE oars (place INTEGER PRIMARY KEY, text)")
    with connection:
        connection.execute("INSERT INTO oars VALUES (7, ?)", ("four rows of three " * 900,))
    log = path.with_name("records.sqlite-wal").read_bytes()
    assert Found(7, (None, "four rows of three " * 900)) in list(records_in(path.read_bytes(), log))
    connection.close()


@pytest.mark.parametrize("seed", range(20))
def test_nonsense_holds_nothing_and_breaks_nothing(seed: int) -> None:
    dice = random.Random(seed)
    nonsense = bytearray(dice.randbytes(4096 * 6))
    for page in range(6):
        start = page * 4096 + (100 if page == 0 else 0)
        nonsense[start] = dice.choice((0x0D, 0x0A, 0x02, 0x05))
    for found in records_in(bytes(nonsense), dice.randbytes(9000)):
        assert isinstance(found.values, tuple)
