"""What the adult is told besides the practice: what was found, a code in place of a name, the next grid."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from saythesum.app.setup.planning import Wanted, new_practice
from saythesum.core.aims import Aim
from saythesum.core.grids.file_format import grid_from
from saythesum.core.grids.starters import DEFAULT, STARTERS, Stage
from saythesum.core.records.rows import End, EndReason, row_id
from saythesum.ports import StoredPractice
from saythesum.settings import Settings
from saythesum.store.pupils import hint_of_a_name
from saythesum.store.records import SqliteStore

NOW = datetime(2031, 5, 12, 9, 30, tzinfo=UTC)


def test_a_name_gets_a_hint_and_a_code_none() -> None:
    assert hint_of_a_name("Kate") == "Kate looks like a name: a code, such as rk-7, keeps names out of the records."
    assert not any(map(hint_of_a_name, ("rk-7", "RK", "pupil-1", "k8", "RK-7")))


def next_of(store: SqliteStore) -> StoredPractice:
    practice = new_practice(store, "rk-7", Wanted(Aim.PRACTISE, None, 3), Settings(), NOW)
    store.begin(practice)
    return practice


def finish(store: SqliteStore, practice: StoredPractice, right: int) -> None:
    end = End(row_id(practice.id, 0), 6, right, EndReason.FINISHED)
    store.keep(practice.id, end, at="2031-05-12T09:40:00.000Z", at_ms=0)


@pytest.mark.parametrize("right", [1, 6])
def test_after_a_finished_grid_comes_the_next_and_never_the_same(tmp_path: Path, right: int) -> None:
    store = SqliteStore(tmp_path / "records.sqlite")
    titles: list[str] = []
    for _ in range(6):
        practice = next_of(store)
        titles.append(grid_from(practice.grid_text).title)
        finish(store, practice, right)
    store.close()
    assert titles[0] == DEFAULT.grid.title
    assert len(set(titles)) == len(titles)
    crossing = [one.grid.title for one in STARTERS if one.stage is Stage.CROSSING]
    assert (titles[1] in crossing) == (right == 6)


def test_one_that_was_not_finished_is_no_reason_for_another(tmp_path: Path) -> None:
    store = SqliteStore(tmp_path / "records.sqlite")
    assert grid_from(next_of(store).grid_text) == grid_from(next_of(store).grid_text) == DEFAULT.grid
    store.close()
