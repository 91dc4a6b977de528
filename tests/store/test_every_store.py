"""What every store must do: the one on disk and the one in memory."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from uuid import UUID, uuid4

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from saythesum.core.aims import Aim
from saythesum.core.records.rows import EndReason, Row, row_id
from saythesum.errors import StoreError
from saythesum.ports import Store, StoredPractice
from saythesum.store.records import SqliteStore
from tests.core import made_rows
from tests.fakes.store import MemoryStore
from tests.store.made_practices import (
    AT,
    BAKERY,
    FERRY,
    answered,
    asked,
    ended,
    noted,
    one_of_each,
    practice,
    probe,
    voided,
)


@pytest.fixture(params=["on disk", "in memory"])
def store(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Store]:
    made: Store = SqliteStore(tmp_path / "records.sqlite") if request.param == "on disk" else MemoryStore()
    yield made
    made.close()


def begun(store: Store, name: str, *rows: Row, grid_text: str = FERRY, pupil: str = "pupil-1") -> StoredPractice:
    started = practice(name, grid_text=grid_text, pupil=pupil)
    store.begin(started)
    keep_all(store, started.id, *rows)
    return started


def keep_all(store: Store, id: UUID, *rows: Row) -> None:
    for at_ms, row in enumerate(rows):
        store.keep(id, row, at=AT, at_ms=at_ms)


def test_a_practice_comes_back_with_its_rows_in_order(store: Store) -> None:
    rows = one_of_each(practice())
    started = begun(store, "first", *rows)
    assert store.practice(started.id) == replace(started, rows=rows)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None, max_examples=60)
@given(st.lists(made_rows.rows, max_size=6))
def test_any_rows_come_back_as_they_were(store: Store, drawn: list[Row]) -> None:
    started = replace(practice(), id=uuid4())
    rows = [replace(row, id=row_id(started.id, serial)) for serial, row in enumerate(drawn)]
    store.begin(started)
    keep_all(store, started.id, *rows)
    assert store.practice(started.id).rows == tuple(rows)


@pytest.mark.parametrize("seed", [0, -7, 2**63 - 1])
def test_the_seed_comes_back(store: Store, seed: int) -> None:
    store.begin(replace(practice(), seed=seed))
    assert store.practice(practice().id).seed == seed


def test_nobody_has_practised_yet(store: Store) -> None:
    assert store.unfinished("pupil-1") is None
    assert store.practices("pupil-1") == []


def test_a_practice_goes_on_until_it_is_finished(store: Store) -> None:
    started = begun(store, "first")
    assert store.unfinished("pupil-1") == started
    keep_all(store, started.id, asked(started, 0))
    assert store.unfinished("pupil-1") == replace(started, rows=(asked(started, 0),))
    keep_all(store, started.id, ended(started, 1))
    assert store.unfinished("pupil-1") is None


@pytest.mark.parametrize("reason", [reason for reason in EndReason if reason is not EndReason.FINISHED])
def test_an_unfinished_grid_goes_on_whatever_the_reason(store: Store, reason: EndReason) -> None:
    started = begun(store, "first", asked(practice(), 0), ended(practice(), 1, reason))
    found = store.unfinished("pupil-1")
    assert found is not None
    assert found.id == started.id


def test_the_last_end_counts(store: Store) -> None:
    one = practice()
    begun(store, "first", ended(one, 0, EndReason.STOPPED), asked(one, 1), ended(one, 2))
    assert store.unfinished("pupil-1") is None


def test_a_void_after_the_end_opens_the_practice_again_and_a_note_does_not(store: Store) -> None:
    one = practice()
    begun(store, "first", answered(one, 0), ended(one, 1), noted(one, 2))
    assert store.unfinished("pupil-1") is None
    keep_all(store, one.id, voided(one, 3, answered(one, 0).id))
    found = store.unfinished("pupil-1")
    assert found is not None
    assert found.id == one.id


def test_the_newest_unfinished_practice_is_found_also_behind_a_finished_one(store: Store) -> None:
    begun(store, "oldest")
    middle = begun(store, "middle")
    begun(store, "newest", ended(practice("newest"), 0))
    found = store.unfinished("pupil-1")
    assert found is not None
    assert found.id == middle.id


def test_a_grid_asked_for_finds_its_own_practice(store: Store) -> None:
    ferry = begun(store, "ferry")
    bakery = begun(store, "bakery", grid_text=BAKERY)
    assert store.unfinished("pupil-1") == bakery
    assert store.unfinished("pupil-1", grid_text=FERRY) == ferry
    assert store.unfinished("pupil-1", grid_text="title = 'Rows of oars'") is None
    assert store.unfinished("pupil-1", fits=lambda one: one.id == ferry.id) == ferry
    assert store.unfinished("pupil-1", fits=lambda one: False) is None


def test_one_aim_can_be_asked_for(store: Store) -> None:
    ferry, eight = begun(store, "ferry"), probe()
    store.begin(eight)
    assert store.practice(eight.id) == eight
    assert store.unfinished("pupil-1") == store.unfinished("pupil-1", aim=Aim.PROBE) == eight
    assert store.unfinished("pupil-1", aim=Aim.PRACTISE) == ferry
    assert store.unfinished("pupil-1", aim=Aim.PROBE, grid_text=FERRY) is None
    assert store.unfinished("pupil-1", aim=Aim.FIND_OUT) is None
    assert store.practices("pupil-1", aim=Aim.PROBE) == [eight.id]
    assert store.practices("pupil-1") == [ferry.id, eight.id]
    assert store.practices("rk-7", aim=Aim.PROBE) == []


def test_pupils_are_kept_apart(store: Store) -> None:
    mine = begun(store, "mine", pupil="rk-7")
    begun(store, "theirs", pupil="ab-2")
    again = begun(store, "again", pupil="rk-7")
    assert store.practices("rk-7") == [mine.id, again.id]
    assert store.unfinished("rk-7") == again


def test_a_row_is_kept_once(store: Store) -> None:
    started = begun(store, "first", asked(practice(), 0))
    with pytest.raises(StoreError):
        keep_all(store, started.id, asked(started, 0))
    assert store.practice(started.id).rows == (asked(started, 0),)


def test_a_practice_begins_once_and_before_its_rows(store: Store) -> None:
    with pytest.raises(StoreError):
        keep_all(store, practice().id, asked(practice(), 0))
    begun(store, "first")
    with pytest.raises(StoreError):
        begun(store, "first")
    with pytest.raises(ValueError, match="without rows"):
        store.begin(replace(practice("second"), rows=(asked(practice("second"), 0),)))


def test_an_unknown_practice_is_said_to_be_unknown(store: Store) -> None:
    with pytest.raises(StoreError, match=str(practice().id)):
        store.practice(practice().id)


def test_the_practices_before_one_are_its_pupils_own_oldest_first(store: Store) -> None:
    first = begun(store, "first", *one_of_each(practice()))
    begun(store, "theirs", pupil="rk-7")
    second, third = begun(store, "second"), begun(store, "third")
    assert store.earlier(first.id) == []
    assert store.earlier(third.id) == [(first.id, 5), (second.id, 0)]
    assert store.earlier(third.id, last=1) == [(second.id, 0)]
    assert store.earlier(third.id, last=7) == store.earlier(third.id)
