"""Erased completely: nothing of the pupil is left in any byte of the program's folders; others keep all of theirs."""

from datetime import UTC, date, datetime, timedelta
from hashlib import md5, sha1, sha256
from pathlib import Path

import pytest

from saythesum.app.setup.folders import Places
from saythesum.errors import AnotherCopyError, CallerError, StoreError
from saythesum.office import erasing
from saythesum.office.erasing import erase, finish_erasing, look_at_erasing
from saythesum.office.giving import give
from saythesum.office.moving import move
from saythesum.office.pupils import Target, add_pupil, codes, set_target
from saythesum.office.taking_in import ErasedBeforeError, take_in
from saythesum.office.upkeep.erased import erased_before
from saythesum.store.reading import open_to_read
from saythesum.store.records import SqliteStore
from tests.office.places import home_in
from tests.office.school import NOW, all_rows, bytes_of, keeps, some_answers

CODE = "zq-93x"
"""In no other text."""
SENTENCE = "Rows nineteen boats across the harbour."


def school(folder: Path) -> Places:
    places = home_in(folder / "home")
    add_pupil(places, CODE, NOW, {"speech.rate_wpm": "121"})
    add_pupil(places, "ab", NOW)
    set_target(places, CODE, Target(SENTENCE, "ferry", 8, 10, unaided=True, by=date(2031, 7, 1)), NOW)
    keeps(places, *some_answers("erased", CODE))
    keeps(places, *some_answers("stays", "ab"), minute=5)
    places.snapshots(CODE).mkdir(parents=True)
    (places.snapshots(CODE) / "1-x.known").write_text(f"known of {CODE}")
    places.pupil_file(CODE).with_suffix(".words").write_text(f"words of {CODE}")
    places.records_file.with_name("records-damaged-1.sqlite").write_bytes(places.records_file.read_bytes())
    return places


def traces(places: Places) -> list[str]:
    everything = bytes_of(places.data)
    erased, _ = some_answers("erased", CODE)
    return [text for text in (CODE, SENTENCE, str(erased.id)) if text.encode() in everything]


def test_no_byte_is_left_and_the_others_keep_theirs(tmp_path: Path) -> None:
    places = school(tmp_path)
    before = {id: kept for id, kept in all_rows(places).items() if kept[0] == "ab"}
    assert len(traces(places)) == 3
    would = look_at_erasing(places, CODE)
    assert (would.practices, would.rows, would.entries, len(would.files)) == (1, 5, 3, 4)
    assert len(traces(places)) == 3
    assert erase(places, CODE, NOW) == would
    assert traces(places) == []
    assert not any(CODE in str(path) for path in places.data.rglob("*"))
    assert all_rows(places) == before
    assert codes(places) == ("ab",)


def test_an_older_file_asks_before_it_brings_a_pupil_back(tmp_path: Path) -> None:
    places = school(tmp_path)
    before = all_rows(places)
    file = give(places, tmp_path / "all.json", NOW).file
    erase(places, CODE, NOW)
    with pytest.raises(ErasedBeforeError) as asked:
        take_in(places, file)
    assert asked.value.codes == {CODE} and traces(places) == []
    take_in(places, file, even_erased={CODE})
    assert all_rows(places) == before
    take_in(places, file)


class KilledError(Exception):
    pass


@pytest.mark.parametrize("step", ["_delete", "drop_snapshots", "_remove", "_empty_log", "_empty_log again"])
def test_broken_off_at_any_step_it_is_finished_later(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    """What is broken off before the rows are gone is undone; after that it is finished, by whoever comes next."""
    places = school(tmp_path)
    keeps(places, *some_answers("shared", "ab"), minute=9)
    move(places, some_answers("shared", "ab")[0].id, CODE, NOW, first=0, last=1)
    name, _, again = step.partition(" ")
    real = getattr(erasing, name)
    calls = []

    def killed(*given: object) -> object:
        calls.append(given)
        if len(calls) > bool(again):
            raise KilledError
        return real(*given)

    with monkeypatch.context() as broken:
        broken.setattr(erasing, name, killed)
        with pytest.raises(KilledError):
            erase(places, CODE, NOW)
    store = SqliteStore(places.records_file)
    finished = finish_erasing(places, store, NOW)
    store.close()
    if name == "_delete":
        assert finished == () and len(traces(places)) == 3
        erase(places, CODE, NOW)
    else:
        assert finished == (() if again else (CODE,))
    assert traces(places) == []


def test_nobody_is_erased_while_somebody_practises_or_reads(tmp_path: Path) -> None:
    places = school(tmp_path)
    practising = SqliteStore(places.records_file)
    with pytest.raises(AnotherCopyError):
        erase(places, CODE, NOW)
    practising.close()
    reader = open_to_read(places.records_file)
    reader.connection.execute("BEGIN")
    reader.pupils()
    with pytest.raises(StoreError, match=r"erase once more|in use"):
        erase(places, CODE, NOW)
    reader.close()
    erase(places, CODE, NOW)
    assert traces(places) == []
    with pytest.raises(CallerError, match="There is no pupil"):
        erase(places, CODE, NOW)


def test_of_a_shared_practice_only_the_pupils_rows_go(tmp_path: Path) -> None:
    places = school(tmp_path)
    shared, rows = some_answers("erased", CODE)
    move(places, shared.id, "ab", NOW + timedelta(days=1), first=3, last=4)
    erase(places, CODE, datetime(2031, 6, 1, tzinfo=UTC))
    pupil, kept, _ = all_rows(places)[shared.id]
    assert (pupil, kept[3:], len(kept)) == ("ab", rows[3:], 5)
    assert CODE.encode() not in bytes_of(places.data)
    reader = open_to_read(places.records_file)
    assert reader.practice(shared.id).rows_of("ab")[-2:] == rows[3:]
    reader.close()


def test_what_is_remembered_of_an_erased_code_is_salted_by_the_file(tmp_path: Path) -> None:
    """No digest that can be made without the file's own salt is in it, and two files have none in common."""
    kept = []
    for name in ("one", "other"):
        places = school(tmp_path / name)
        erase(places, CODE, NOW)
        reader = open_to_read(places.records_file)
        kept.append({digest for (digest,) in reader.connection.execute("SELECT code_digest FROM erased")})
        assert erased_before(reader.connection, [CODE, "ab", "zz"]) == {CODE}
        reader.close()
        for known in (sha256, sha1, md5):
            for text in (CODE, f"erased by saythesum: {CODE}"):
                assert known(text.encode()).hexdigest() not in kept[-1]
    assert len(kept[0]) == 2 and kept[0].isdisjoint(kept[1])


def test_a_code_that_was_erased_before_there_was_a_salt_is_still_asked_about(tmp_path: Path) -> None:
    places = school(tmp_path)
    store = SqliteStore(places.records_file)
    before = sha256(b"erased by saythesum: old-1").hexdigest()
    store.connection.execute("INSERT INTO erased VALUES (?, '2031-01-01T00:00:00.000Z')", (before,))
    assert erased_before(store.connection, ["old-1", "ab"]) == {"old-1"}
    store.close()
    erase(places, CODE, NOW)
    reader = open_to_read(places.records_file)
    assert erased_before(reader.connection, ["old-1", CODE, "ab"]) == {"old-1", CODE}
    reader.close()
