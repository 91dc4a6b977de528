"""Records of every older version, and of a newer one."""

import sqlite3
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from saythesum.app.setup.planning import plan_of
from saythesum.core.aims import Aim
from saythesum.core.records.rows import Note, NoteKind
from saythesum.errors import StoreError
from saythesum.store.checksum import checksum_of
from saythesum.store.migrations import MIGRATIONS, OURS, migrate, version_of
from saythesum.store.reading import open_to_read
from saythesum.store.records import SqliteStore
from tests.store.made_practices import (
    asked,
    bonds,
    in_forms,
    led_back,
    one_of_each,
    other_sums,
    practice,
    probe,
    talked,
    told_apart,
    two_activities,
)
from tests.talk import Talk

OLD_VERSIONS = sorted(Path(__file__).parent.glob("version-*.sql"), key=lambda path: int(path.stem.split("-")[1]))
"""Records as each version wrote them, dumped when that version landed."""


def write(path: Path, version: str) -> None:
    """Records as that version left them."""
    written = sqlite3.connect(path)
    written.executescript(Path(__file__).with_name(f"{version}.sql").read_text(encoding="utf-8"))
    written.close()


@pytest.fixture
def connection() -> Iterator[sqlite3.Connection]:
    opened = sqlite3.connect(":memory:", isolation_level=None)
    yield opened
    opened.close()


def shape(connection: sqlite3.Connection) -> list[str]:
    return [sql for (sql,) in connection.execute("SELECT sql FROM sqlite_schema WHERE sql NOT NULL ORDER BY name")]


@pytest.mark.parametrize("version", range(len(MIGRATIONS)))
def test_every_older_version_gets_the_shape_of_a_new_one(connection: sqlite3.Connection, version: int) -> None:
    migrate(connection, MIGRATIONS[:version])
    assert version_of(connection) == version
    migrate(connection)
    fresh = sqlite3.connect(":memory:", isolation_level=None)
    migrate(fresh)
    assert shape(connection) == shape(fresh)
    assert version_of(connection) == len(MIGRATIONS)
    fresh.close()


def test_every_version_that_landed_has_its_records_here() -> None:
    assert [path.stem for path in OLD_VERSIONS] == [f"version-{n}" for n in range(1, len(MIGRATIONS) + 1)]


@pytest.mark.parametrize("dump", OLD_VERSIONS, ids=lambda path: path.stem)
def test_records_written_by_an_older_version_read_the_same(dump: Path, tmp_path: Path) -> None:
    path = tmp_path / "records.sqlite"
    write(path, dump.stem)
    store = SqliteStore(path)
    stored = store.practice(practice().id)
    assert (stored.pupil, stored.began_at, stored.seed) == ("pupil-1", practice().began_at, 31)
    assert stored.grid_text == practice().grid_text
    assert stored.settings.speech.rate_wpm == 170
    assert stored.rows == one_of_each(practice())
    assert (stored.aim, stored.cells) == (Aim.PRACTISE, None)
    store.close()


@pytest.mark.parametrize("dump", OLD_VERSIONS, ids=lambda path: path.stem)
def test_reading_alone_brings_no_file_up_to_date(dump: Path, tmp_path: Path) -> None:
    path = tmp_path / "records.sqlite"
    write(path, dump.stem)
    before = path.read_bytes()
    records = open_to_read(path)
    assert records.practice(practice().id).rows == one_of_each(practice())
    assert records.unreadable() == ()
    records.close()
    assert path.read_bytes() == before


@pytest.mark.parametrize("dump", OLD_VERSIONS[1:], ids=lambda path: path.stem)
def test_a_probe_is_still_one(dump: Path, tmp_path: Path) -> None:
    """Format 1 knew none."""
    path = tmp_path / "records.sqlite"
    write(path, dump.stem)
    store = SqliteStore(path)
    assert store.practice(probe().id) == probe()
    store.close()


def test_the_fields_of_format_4_come_back(tmp_path: Path) -> None:
    path = tmp_path / "records.sqlite"
    write(path, "version-4")
    store = SqliteStore(path)
    assert store.practice(practice("in forms").id).rows == in_forms(practice("in forms"))
    store.close()


def test_the_facts_of_format_8_come_back(tmp_path: Path) -> None:
    path = tmp_path / "records.sqlite"
    write(path, "version-8")
    store = SqliteStore(path)
    assert store.practice(bonds().id) == bonds()
    assert store.practice(practice("led back").id).rows == led_back(practice("led back"))
    store.close()


def test_the_other_sums_of_format_10_come_back(tmp_path: Path) -> None:
    path = tmp_path / "records.sqlite"
    write(path, "version-10")
    store = SqliteStore(path)
    assert store.practice(practice("other sums").id).rows == other_sums(practice("other sums"))
    store.close()


def test_the_talk_of_format_9_comes_back(tmp_path: Path) -> None:
    path = tmp_path / "records.sqlite"
    write(path, "version-9")
    store = SqliteStore(path)
    assert store.practice(practice("talked").id).rows == talked(practice("talked"))
    store.close()


def test_the_marks_of_format_11_come_back(tmp_path: Path) -> None:
    path = tmp_path / "records.sqlite"
    write(path, "version-11")
    store = SqliteStore(path)
    stored = store.practice(practice("marks").id)
    assert stored.left_aside == ()
    assert [(row.what, row.value) for row in stored.rows if isinstance(row, Note)] == [
        *((NoteKind.WAS_RIGHT, "yes"), (NoteKind.WAY, "bridged"), (NoteKind.SUPPORT, "adult-help words")),
        *((NoteKind.SUPPORT, ""), (NoteKind.WAITS, "longer"), (NoteKind.NOT_COUNTED, "from-here")),
        (NoteKind.OWN_WORDS, "I like the boats"),
    ]
    store.close()


def test_the_small_questions_of_format_6_come_back(tmp_path: Path) -> None:
    path = tmp_path / "records.sqlite"
    write(path, "version-6")
    store = SqliteStore(path)
    assert store.practice(practice("told apart").id).rows == told_apart(practice("told apart"))
    store.close()


def test_the_activities_of_format_5_come_back(tmp_path: Path) -> None:
    path = tmp_path / "records.sqlite"
    write(path, "version-5")
    store = SqliteStore(path)
    of = two_activities()
    rows = (asked(of, 0), replace(asked(of, 1), activity=1))
    assert store.practice(of.id) == replace(of, rows=rows)
    store.close()


@pytest.mark.parametrize("dump", OLD_VERSIONS, ids=lambda path: path.stem)
def test_an_old_practice_goes_on_in_the_words_it_was_asked_in(dump: Path, tmp_path: Path) -> None:
    """What format 1's own program said when it was started again."""
    path = tmp_path / "records.sqlite"
    write(path, dump.stem)
    store = SqliteStore(path)
    stored = store.practice(practice().id)
    talk = Talk(plan_of(stored, store, tmp_path), rows=list(stored.rows))
    talk.begin()
    assert talk.said == ["Two rows, two sums in each.", "Forty-seven add five."]
    store.close()


def test_rows_of_an_older_version_get_their_checksums(tmp_path: Path) -> None:
    path = tmp_path / "records.sqlite"
    write(path, "version-2")
    SqliteStore(path).close()
    connection = sqlite3.connect(path)
    for table, count in (("practices", 2), ("rows", 5)):
        kept = connection.execute(f"SELECT * FROM {table}").fetchall()  # noqa: S608 - one of the two above
        assert [checksum for *_, checksum in kept] == [checksum_of(*columns) for *columns, _ in kept]
        assert len(kept) == count
    connection.close()


def test_a_change_that_fails_leaves_the_version_before_it(connection: sqlite3.Connection) -> None:
    broken = ("CREATE TABLE oars (row INTEGER)", "INSERT INTO nowhere VALUES (1)")
    with pytest.raises(sqlite3.OperationalError, match="nowhere"):
        migrate(connection, (*MIGRATIONS, broken))
    assert version_of(connection) == len(MIGRATIONS)
    assert not any("oars" in sql for sql in shape(connection))
    mended = ("CREATE TABLE oars (row INTEGER)",)
    migrate(connection, (*MIGRATIONS, mended))
    assert version_of(connection) == len(MIGRATIONS) + 1


def test_a_change_is_made_once(connection: sqlite3.Connection) -> None:
    changes = (*MIGRATIONS, ("CREATE TABLE oars (row INTEGER)", "INSERT INTO oars VALUES (4)"))
    migrate(connection, changes)
    migrate(connection, changes)
    assert connection.execute("SELECT count(*) FROM oars").fetchone() == (1,)


@pytest.mark.parametrize("open_one", [SqliteStore, open_to_read])
def test_records_of_a_newer_version_are_refused_and_left_alone(open_one: type[SqliteStore], tmp_path: Path) -> None:
    path = tmp_path / "records.sqlite"
    newer = sqlite3.connect(path, isolation_level=None)
    migrate(newer, (*MIGRATIONS, ("CREATE TABLE oars (row INTEGER)",)))
    newer.close()
    before = path.read_bytes()
    here = len(MIGRATIONS)
    with pytest.raises(StoreError, match=rf"from a newer saythesum \(format {here + 1}; this one knows {here}\)"):
        open_one(path)
    assert path.read_bytes() == before


def test_the_file_says_whose_it_is(tmp_path: Path) -> None:
    SqliteStore(tmp_path / "records.sqlite").close()
    header = (tmp_path / "records.sqlite").read_bytes()[:100]
    # Source: "Database File Format", section 1.3, https://www.sqlite.org/fileformat2.html
    assert header[:16] == b"SQLite format 3\0"
    assert int.from_bytes(header[60:64]) == len(MIGRATIONS)
    assert header[68:72] == OURS.to_bytes(4) == b"SaTS"
