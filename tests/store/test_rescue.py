"""Records that are lost under a practice: every row is kept somewhere, and comes back in the end."""

import shutil
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from saythesum.core.records.rows import Row
from saythesum.errors import StoreError
from saythesum.store.reading import open_to_read
from saythesum.store.records import SqliteStore
from saythesum.store.rescue import PracticeKeeper, RecordsBack, RecordsLost, rescue_files, take_in_rescued
from tests.store.made_practices import AT, answered, asked, practice


class Practising:
    """One practice, with all that was said of its records."""

    def __init__(self, tmp_path: Path) -> None:
        self.path = tmp_path / "home" / "records.sqlite"
        self.folders = (tmp_path / "home", tmp_path / "nearest", tmp_path / "far")
        for folder in self.folders[1:]:
            folder.mkdir(exist_ok=True)
        store = SqliteStore(self.path)
        if not store.practices("pupil-1"):
            store.begin(practice())
        self.news: list[RecordsLost | RecordsBack] = []
        self.keeper = PracticeKeeper(store, practice().id, self.folders, self.news.append)
        self.kept: list[Row] = list(store.practice(practice().id).rows)

    def keeps(self, count: int) -> None:
        for _ in range(count):
            row = asked(practice(), len(self.kept))
            self.keeper.keep(practice().id, row, at=AT, at_ms=len(self.kept))
            self.kept.append(row)

    @property
    def in_records(self) -> list[Row]:
        with closing(open_to_read(self.path)) as records:
            return list(records.practice(practice().id).rows)

    @property
    def rescues(self) -> list[Path]:
        return rescue_files(self.path, self.folders)


@pytest.fixture
def practising(tmp_path: Path) -> Practising:
    return Practising(tmp_path)


def test_rows_go_into_the_records_where_these_are_there(practising: Practising) -> None:
    practising.keeps(3)
    assert practising.in_records == practising.kept
    assert (practising.news, practising.rescues) == ([], [])
    practising.keeper.close()


def move_the_folder(path: Path) -> None:
    path.parent.rename(path.parent.with_name("moved"))


def delete_the_folder(path: Path) -> None:
    shutil.rmtree(path.parent)


def delete_the_file(path: Path) -> None:
    for file in path.parent.glob("records*"):
        file.unlink()


def replace_the_file(path: Path) -> None:
    """By an older copy, say, that is moved into its place."""
    with closing(SqliteStore(path.parent / "other" / "records.sqlite")) as other:
        other.begin(practice("older"))
        other.keep(practice("older").id, answered(practice("older"), 0), at=AT, at_ms=0)
    delete_the_file(path)
    (path.parent / "other" / "records.sqlite").rename(path)


def delete_the_log(path: Path) -> None:
    path.with_name("records.sqlite-wal").unlink()


LOSSES = (move_the_folder, delete_the_folder, delete_the_file, replace_the_file, delete_the_log)


@pytest.mark.parametrize("lose", LOSSES)
def test_lost_records_are_noticed_at_the_next_row_and_said_once(
    lose: Callable[[Path], None], practising: Practising
) -> None:
    practising.keeps(3)
    lose(practising.path)
    practising.keeps(1)
    assert [type(news) for news in practising.news][:1] == [RecordsLost]
    practising.keeps(3)
    practising.keeper.close()
    assert sum(isinstance(news, RecordsLost) for news in practising.news) == 1
    with closing(SqliteStore(practising.path)) as store:
        assert [trouble for _, trouble in take_in_rescued(store, practising.folders)] in ([], [None])
    assert practising.in_records == practising.kept
    assert practising.rescues == []


def test_a_file_that_is_overwritten_under_a_practice_loses_no_row_of_it(practising: Practising) -> None:
    practising.keeps(3)
    with practising.path.open("r+b") as file:
        file.write(b"Monday: 12 rolls, 4 loaves\n" * 400)
    practising.keeps(3)
    practising.keeper.close()
    with closing(SqliteStore(practising.path)) as store:
        assert [trouble for _, trouble in take_in_rescued(store, practising.folders)] in ([], [None])
    assert practising.in_records == practising.kept


LOSSES_THAT_LEAVE_NOTHING = (move_the_folder, delete_the_folder)


@pytest.mark.parametrize("lose", LOSSES_THAT_LEAVE_NOTHING)
def test_the_whole_practice_is_in_the_rescue_file_for_its_owner_alone(
    lose: Callable[[Path], None], practising: Practising
) -> None:
    practising.keeps(3)
    lose(practising.path)
    practising.keeps(2)
    (lost,) = practising.news
    assert isinstance(lost, RecordsLost)
    assert "were moved, deleted or replaced" in lost.why
    assert lost.rescue.parent == practising.folders[1]
    assert lost.rescue.stat().st_mode & 0o077 == 0
    with closing(open_to_read(lost.rescue)) as rescued:
        assert list(rescued.practice(practice().id).rows) == practising.kept
    practising.keeper.close()


def test_a_folder_that_comes_back_takes_the_practice_up_again(practising: Practising) -> None:
    practising.keeps(3)
    move_the_folder(practising.path)
    practising.keeps(2)
    practising.path.parent.with_name("moved").rename(practising.path.parent)
    practising.keeps(1)
    assert [type(news) for news in practising.news] == [RecordsLost, RecordsBack]
    assert practising.in_records == practising.kept
    assert practising.rescues == []
    practising.keeps(1)
    practising.keeper.close()
    assert practising.in_records == practising.kept


def test_what_went_on_without_the_rescued_answers_keeps_both(practising: Practising, tmp_path: Path) -> None:
    practising.keeps(3)
    move_the_folder(practising.path)
    practising.keeps(2)
    practising.keeper.close()
    practising.path.parent.with_name("moved").rename(practising.path.parent)
    with closing(SqliteStore(practising.path)) as store:
        store.keep(practice().id, answered(practice(), 5), at=AT, at_ms=0)
        ((file, trouble),) = take_in_rescued(store, practising.folders)
        assert isinstance(trouble, StoreError)
        assert "has continued in" in str(trouble)
        assert file.exists()
        assert store.practice(practice().id).rows[:3] == tuple(practising.kept[:3])


def test_without_any_place_it_is_said_that_nothing_is_kept(practising: Practising) -> None:
    practising.keeps(1)
    for folder in practising.folders:
        shutil.rmtree(folder)
    with pytest.raises(StoreError, match="were moved, deleted or replaced"):
        practising.keeps(1)
    practising.keeper.close()


def test_a_rescue_file_that_goes_away_as_well_is_made_anew(practising: Practising) -> None:
    practising.keeps(2)
    move_the_folder(practising.path)
    practising.keeps(1)
    shutil.rmtree(practising.folders[1])
    practising.keeps(2)
    (rescue,) = practising.rescues
    assert rescue.parent == practising.folders[2]
    with closing(open_to_read(rescue)) as rescued:
        assert list(rescued.practice(practice().id).rows) == practising.kept
    practising.keeper.close()


def test_records_of_another_place_are_not_taken_in(practising: Practising, tmp_path: Path) -> None:
    practising.keeps(2)
    move_the_folder(practising.path)
    practising.keeps(1)
    practising.keeper.close()
    with closing(SqliteStore(tmp_path / "elsewhere" / "records.sqlite")) as store:
        assert list(take_in_rescued(store, practising.folders)) == []
        assert store.pupils() == ()
