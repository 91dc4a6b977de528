"""What is known at a start: with snapshots of any age and in any state the same as from the rows alone."""

import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import datetime
from pathlib import Path
from random import Random
from shutil import copytree, rmtree
from tempfile import TemporaryDirectory
from uuid import UUID

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.app.setup import snapshots
from saythesum.app.setup.earlier_practices import RECENT, known_before, known_lately
from saythesum.core.aims import Aim
from saythesum.core.grids.file_format import grid_from
from saythesum.core.grids.grid import walk
from saythesum.core.records.rows import Answer, Ask, Note, NoteKind, Row, RowId, Void, VoidReason, row_id
from saythesum.learner.pupil import Pupil
from saythesum.learner.replay import Kept, learned
from saythesum.ports import StoredPractice
from saythesum.store.records import SqliteStore
from tests.core.made_sums import sum_at
from tests.learner.learners import FIRST_DAY, asked_of, learner
from tests.store.made_practices import AT, BAKERY, FERRY, practice

OURS = "pupil-1"


@dataclass
class Pupils:
    """Real records of one pupil's practices, with somebody else's beside them, made by a seed."""

    folder: Path
    dice: Random
    practices: list[StoredPractice] = field(default_factory=list)
    rows: dict[UUID, list[Row]] = field(default_factory=dict)
    store: SqliteStore = field(init=False)

    def __post_init__(self) -> None:
        self.store = SqliteStore(self.folder / "records.sqlite")

    @property
    def snapshots(self) -> Path:
        return self.folder / "known"

    def begins(self, pupil: str | None = None) -> None:
        number = len(self.rows)
        begun = replace(
            practice(f"practice {number}", grid_text=self.dice.choice((FERRY, BAKERY))),
            pupil=pupil or self.dice.choice((OURS, OURS, OURS, "rk-7")),
            began_at=f"2031-05-{1 + number % 28:02}T09:30:00.000Z",
            aim=self.dice.choice((Aim.PRACTISE, Aim.PRACTISE, Aim.FIND_OUT)),
        )
        self.store.begin(begun)
        self.rows[begun.id] = []
        if begun.pupil == OURS:
            self.practices.append(begun)

    def answers(self, one: StoredPractice) -> None:
        grid = grid_from(one.grid_text)
        cell = self.dice.choice(walk(grid, 0))
        because: RowId | None = None
        for said in asked_of(learner(f"{self.dice.random()}", 0.4), cell, sum_at(grid, cell), FIRST_DAY):
            self._keep(one, Ask(self._next_id(one), cell.row, cell.column, said.part, said.support, because))
            because = self._next_id(one)
            self._keep(one, replace(said, id=because))

    def changes(self, one: StoredPractice) -> None:
        """Takes back or amends an answer of this practice, now and then one of another, or says something of it."""
        others = self.practices if self.dice.random() < 0.2 else [one]
        given = [row.id for other in others for row in self.rows[other.id] if isinstance(row, Answer)]
        if given:
            id, of = self._next_id(one), self.dice.choice(given)
            void, text = Void(id, of, VoidReason.NOT_SAID), Note(id, of, NoteKind.TEXT, "a good day")
            not_counted, helped = replace(text, what=NoteKind.NOT_COUNTED), Note(id, of, NoteKind.SUPPORT, "adult-help")
            self._keep(one, self.dice.choice((void, text, not_counted, helped)))

    def goes_on(self) -> None:
        """A new practice, or rows in the newest; now and then in an older one that is gone on with."""
        if not self.practices or self.dice.random() < 0.2:
            self.begins()
            return
        one = self.practices[-1] if self.dice.random() < 0.8 else self.dice.choice(self.practices)
        self.dice.choice((self.answers, self.answers, self.answers, self.changes))(one)

    def known_at_start_of(self, one: StoredPractice) -> Pupil:
        return known_before(one.id, self.store, self.snapshots)

    def replayed_before(self, one: StoredPractice) -> Pupil:
        """From the rows alone."""
        rows: list[Kept] = []
        for other in self.practices[: self.practices.index(one)]:
            grid = grid_from(other.grid_text) if other.aim.has_grid else None
            rows += [Kept(row, datetime.fromisoformat(other.began_at), grid) for row in self.rows[other.id]]
        return learned(rows)

    def _keep(self, one: StoredPractice, row: Row) -> None:
        self.store.keep(one.id, row, at=AT, at_ms=0)
        self.rows[one.id].append(row)

    def _next_id(self, one: StoredPractice) -> RowId:
        return row_id(one.id, len(self.rows[one.id]))


@contextmanager
def pupils(seed: int) -> Iterator[Pupils]:
    with TemporaryDirectory() as folder:
        made = Pupils(Path(folder), Random(seed))
        try:
            yield made
        finally:
            made.store.close()


@pytest.fixture
def school() -> Iterator[Pupils]:
    """Four practices of one pupil, each with some answers."""
    with pupils(1) as made:
        while len(made.practices) < 4:
            made.begins(OURS)
            made.answers(made.practices[-1])
        yield made


def damage_first_answer(school: Pupils, one: StoredPractice, *, kind: str = "note") -> None:
    """As anything else than an `answer` it cannot be read."""
    school.store._connection.execute("DROP TRIGGER IF EXISTS rows_are_never_changed")
    first = "SELECT min(serial) FROM rows WHERE practice = ?2 AND json_extract(fields, '$.given') NOT NULL"
    change = f"UPDATE rows SET kind = ?1 WHERE practice = ?2 AND serial = ({first})"  # noqa: S608 - the query above
    school.store._connection.execute(change, (kind, str(one.id)))


def spoil(folder: Path, dice: Random) -> None:
    """What may befall a file: flipped, cut, lengthened, emptied, exchanged for another, left half written, gone."""
    files = [path for path in folder.glob("*") if path.is_file()]
    if not files:
        return
    path, other = dice.choice(files), dice.choice(files)
    data = path.read_bytes() or b"?"
    at = dice.randrange(len(data))
    match dice.randrange(7):
        case 0:
            path.write_bytes(data[:at] + bytes([data[at] ^ 1 << dice.randrange(8)]) + data[at + 1 :])
        case 1:
            path.write_bytes(data[:at])
        case 2:
            path.write_bytes(data + b"\0")
        case 3:
            path.write_bytes(b"")
        case 4:
            path.write_bytes(other.read_bytes())
        case 5:
            (folder / "left.part").write_bytes(data[:at])
        case 6:
            path.unlink()


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10**6))
def test_a_start_knows_what_the_rows_tell_whatever_became_of_the_snapshots(seed: int) -> None:
    """Rows are kept, the program is killed and started again at any practice, files of the past come back, spoilt."""
    with pupils(seed) as made:
        past = made.folder / "past"
        for _ in range(40):
            made.goes_on()
            if made.dice.random() < 0.4 and made.practices:
                one = made.dice.choice(made.practices[-3:])
                assert made.known_at_start_of(one) == made.replayed_before(one)
            if made.dice.random() < 0.1 and made.snapshots.exists():
                spoil(made.snapshots, made.dice)
            if made.dice.random() < 0.05 and made.snapshots.exists() and not past.exists():
                copytree(made.snapshots, past)
            if made.dice.random() < 0.1 and past.exists():
                rmtree(made.snapshots)
                copytree(past, made.snapshots)


def test_erasing_the_snapshots_changes_nothing(school: Pupils) -> None:
    last = school.practices[-1]
    known = school.known_at_start_of(last)
    assert known.evidence and list(school.snapshots.iterdir())
    rmtree(school.snapshots)
    assert school.known_at_start_of(last) == known


def test_a_start_goes_on_from_the_snapshot(school: Pupils) -> None:
    """What it stands for is not read again: damage there is not even met."""
    school.known_at_start_of(school.practices[-1])
    school.begins(OURS)
    newest = school.practices[-1]
    damage_first_answer(school, school.practices[0])
    assert school.known_at_start_of(newest) == school.replayed_before(newest)


def test_a_snapshot_of_another_version_is_not_used(school: Pupils, monkeypatch: pytest.MonkeyPatch) -> None:
    last = school.practices[-1]
    known = school.known_at_start_of(last)
    for name, other in (("__version__", "0.0.9"), ("WEIGHED_AS", 0)):
        with monkeypatch.context() as changed:
            changed.setattr(snapshots, name, other)
            earlier = school.store.earlier(last.id)
            assert snapshots.latest_snapshot(school.snapshots, earlier) is None
            snapshots.keep_snapshot(school.snapshots, earlier, Pupil())
    assert school.known_at_start_of(last) == known


def test_few_are_kept_for_a_pupil(school: Pupils) -> None:
    for _ in range(8):
        school.begins(OURS)
        school.answers(school.practices[-1])
        school.known_at_start_of(school.practices[-1])
    assert len(list(school.snapshots.iterdir())) == snapshots.MOST_KEPT


def test_an_answer_that_cannot_be_read_is_passed_over_and_counts_once_it_can(school: Pupils) -> None:
    first, last = school.practices[0], school.practices[-1]
    whole = school.replayed_before(last)
    damage_first_answer(school, first)
    passed_over = school.known_at_start_of(last)
    assert passed_over != whole
    assert not school.snapshots.exists()
    damage_first_answer(school, first, kind="answer")
    assert school.known_at_start_of(last) == whole


@pytest.mark.skipif(os.name != "posix", reason="permissions as POSIX has them")
def test_snapshots_are_their_owners(school: Pupils) -> None:
    school.known_at_start_of(school.practices[-1])
    (file,) = school.snapshots.iterdir()
    assert stat.S_IMODE(school.snapshots.stat().st_mode) == 0o700
    assert stat.S_IMODE(file.stat().st_mode) == 0o600


def test_a_folder_that_cannot_be_made_costs_only_time(school: Pupils) -> None:
    school.snapshots.write_text("in the way")
    last = school.practices[-1]
    assert school.known_at_start_of(last) == school.replayed_before(last)
    assert school.snapshots.read_text() == "in the way"


def test_known_lately_looks_at_the_last_few(school: Pupils) -> None:
    last = school.practices[-1]
    before = len(school.store.earlier(last.id))
    assert before == RECENT
    assert known_lately(last.id, school.store) == school.replayed_before(last)
    school.begins(OURS)
    newest = school.practices[-1]
    assert [one.id for one in school.store.earlier(newest.id, last=RECENT)] == [
        one.id for one in school.practices[-1 - RECENT : -1]
    ]
