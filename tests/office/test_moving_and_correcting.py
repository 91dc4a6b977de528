"""Rows moved to another pupil and back, and answers put right: nothing that was kept is changed."""

from datetime import timedelta
from pathlib import Path

import pytest

from saythesum.core.records.rows import Answer, Note, NoteKind, Support, Void
from saythesum.errors import CallerError
from saythesum.office.correcting import add_note, answers, does_not_count, practices, take_back, was_helped
from saythesum.office.giving import give
from saythesum.office.moving import move
from saythesum.office.pupils import add_pupil
from saythesum.office.taking_in import take_in
from saythesum.office.upkeep.beside import PractisingNowError
from saythesum.store.reading import open_to_read
from saythesum.store.records import SqliteStore
from tests.office.places import home_in
from tests.office.school import NOW, all_rows, keeps, more, some_answers
from tests.store.made_practices import ended, practice


def test_a_whole_practice_is_moved_and_back(tmp_path: Path) -> None:
    own = home_in(tmp_path)
    add_pupil(own, "cd", NOW)
    stored = keeps(own, *some_answers("ferry", "ab"))
    before = all_rows(own)
    assert move(own, stored.id, "cd", NOW).before == ("ab",)
    assert all_rows(own) == {stored.id: ("cd", *before[stored.id][1:])}
    store = SqliteStore(own.records_file)
    assert (store.practices("ab"), store.practices("cd")) == ([], [stored.id])
    assert (store.unfinished("ab"), getattr(store.unfinished("cd"), "id", None)) == (None, stored.id)
    store.close()
    add_pupil(own, "ab", NOW)
    move(own, stored.id, "ab", NOW - timedelta(days=1))  # the clock went back
    assert all_rows(own) == before


def test_half_a_practice_is_moved_and_counts_for_the_other(tmp_path: Path) -> None:
    own = home_in(tmp_path)
    add_pupil(own, "cd", NOW)
    stored, rows = some_answers("ferry", "ab")
    keeps(own, stored, rows)
    own.snapshots("ab").mkdir(parents=True)
    move(own, stored.id, "cd", NOW, first=2)
    assert not own.snapshots("ab").exists()
    later = keeps(own, practice("later", pupil="cd"), more(practice("later"), 0, 0))
    reader = open_to_read(own.records_file)
    shared = reader.practice(stored.id)
    assert (shared.rows_of("ab"), shared.rows_of("cd")) == (rows[:2], rows[2:])
    assert (reader.pupils(), [tuple(one) for one in reader.earlier(later.id)]) == (("ab", "cd"), [(stored.id, 3)])
    reader.close()
    with pytest.raises(CallerError, match="rows 0 to 4"):
        move(own, stored.id, "cd", NOW, first=3, last=9)


def test_moves_travel_and_the_newest_counts_everywhere(tmp_path: Path) -> None:
    one, other = home_in(tmp_path / "one"), home_in(tmp_path / "other")
    stored, rows = some_answers("ferry", "ab")
    for places, to, day in ((one, "cd", 1), (other, "ef", 2)):
        keeps(places, stored, rows)
        add_pupil(places, to, NOW)
        move(places, stored.id, to, NOW + timedelta(days=day))
    files = [give(places, tmp_path / f"{places.data.name}.json", NOW).file for places in (one, other)]
    for places in (one, other):
        for file in files:
            take_in(places, file)
        assert {pupil for pupil, _, _ in all_rows(places).values()} == {"ef"}


def test_corrections_are_added_with_their_trace(tmp_path: Path) -> None:
    own = home_in(tmp_path)
    stored, rows = some_answers("ferry", "ab")
    keeps(own, stored, rows[:2])
    (card,) = answers(own, stored.id)
    assert practices(own, "ab")[0].answers == 1
    was_helped(own, card.answer.id, NOW, Support.ADULT_HELP)
    does_not_count(own, card.answer.id, NOW)
    add_note(own, card.answer.id, "The fire bell rang.", NOW)
    take_back(own, card.answer.id, NOW)
    _, kept, _ = all_rows(own)[stored.id]
    assert kept[:2] == rows[:2]
    assert [getattr(row, "what", "void") for row in kept[2:]] == [
        NoteKind.SUPPORT,
        NoteKind.NOT_COUNTED,
        NoteKind.TEXT,
        "void",
    ]
    assert isinstance(kept[5], Void) and isinstance(kept[4], Note)
    (card,) = answers(own, stored.id)
    assert card.is_taken_back and len(card.notes) == 3
    with pytest.raises(CallerError, match="taken back already"):
        take_back(own, card.answer.id, NOW)
    for wrong in ("7", str(stored.id)):
        with pytest.raises(CallerError, match="answer"):
            take_back(own, wrong, NOW)


def test_the_pupil_who_may_be_practising_waits_and_others_do_not(tmp_path: Path) -> None:
    own = home_in(tmp_path)
    stopped, rows = some_answers("stopped", "ab")
    keeps(own, stopped, rows[:2])
    finished, others = some_answers("finished", "cd")
    keeps(own, finished, (*others[:2], ended(finished, 2)))
    of_ab, of_cd = (next(row.id for row in some if isinstance(row, Answer)) for some in (rows, others))
    practising = SqliteStore(own.records_file)
    with pytest.raises(PractisingNowError):
        take_back(own, of_ab, NOW)
    add_note(own, of_cd, "Said with a smile.", NOW)
    practising.close()
    does_not_count(own, of_ab, NOW)
