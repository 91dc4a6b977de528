"""Records from one laptop to another: any order, any number of times, cut off anywhere."""

import json
from itertools import permutations
from pathlib import Path

import pytest

from saythesum.app.setup.folders import Places
from saythesum.core.grids.grid import Grid
from saythesum.core.records.rows import row_id
from saythesum.errors import AnotherCopyError
from saythesum.office.given_file import EditedError, GivenFileError
from saythesum.office.giving import give
from saythesum.office.grids import open_grid, save_grid
from saythesum.office.pupils import add_pupil, changes, show_pupil
from saythesum.office.taking_in import look_in, take_in
from saythesum.store.records import SqliteStore
from tests.office.places import home_in
from tests.office.school import NOW, all_rows, keeps, more, some_answers


def two_laptops(folder: Path) -> tuple[Places, Places, Path, Path]:
    """The same practice went on differently on both; each has one of its own, too."""
    one, other = home_in(folder / "one"), home_in(folder / "other")
    both, rows = some_answers("both", "ab")
    for places, minute in ((one, 30), (other, 20)):
        keeps(places, both, rows[:3])
        keeps(places, both, more(both, 3, 2 if places is one else 4), minute)
    keeps(one, *some_answers("only one", "ab"), minute=40)
    keeps(other, *some_answers("only other", "cd"), minute=50)
    return one, other, give(one, folder / "one.json", NOW).file, give(other, folder / "other.json", NOW).file


def test_two_laptops_in_either_order_and_twice(tmp_path: Path) -> None:
    one, other, from_one, from_other = two_laptops(tmp_path)
    first = take_in(one, from_other)
    assert (first.added.practices, first.added.rows, len(first.added.forked)) == (2, 9, 1)
    take_in(other, from_one)
    assert all_rows(one) == all_rows(other)
    before = all_rows(one)
    for places in (one, other):
        for file in (from_one, from_other, give(one, tmp_path / f"again-{places.data.name}.json", NOW).file):
            assert (take_in(places, file).added.rows, all_rows(places)) == (0, before)


def test_what_went_on_first_keeps_the_id_and_nothing_is_lost(tmp_path: Path) -> None:
    """The other laptop went on at 10:20, this one at 10:30."""
    one, _, _, from_other = two_laptops(tmp_path)
    both, _ = some_answers("both", "ab")
    take_in(one, from_other)
    rows = all_rows(one)
    assert len(rows[both.id][1]) == 7
    (fork,) = [kept for id, (_, kept, _) in rows.items() if len(kept) == 2]
    assert [row.id for row in fork] == [
        row_id(next(id for id, (_, kept, _) in rows.items() if kept == fork), serial) for serial in range(2)
    ]
    store = SqliteStore(one.records_file)
    unfinished = store.unfinished("ab")
    store.close()
    assert unfinished is not None and len(unfinished.rows) != 2


def test_three_copies_in_every_order(tmp_path: Path) -> None:
    files = []
    both, rows = some_answers("both", "ab")
    for number, (shared, count, minute) in enumerate([(2, 2, 30), (3, 1, 20), (3, 2, 10)]):
        places = home_in(tmp_path / f"{number}")
        keeps(places, both, rows[:shared])
        keeps(places, both, more(both, shared, count), minute)
        files.append(give(places, tmp_path / f"{number}.json", NOW).file)
    results: list[object] = []
    for order in permutations(files):
        places = home_in(tmp_path / f"into-{len(results)}")
        for file in order:
            take_in(places, file)
        results.append(all_rows(places))
    assert all(result == results[0] for result in results)
    assert sum(len(kept) for _, kept, _ in all_rows(home_in(tmp_path / "into-0")).values()) == 2 + 2 + 1 + 1 + 2


def test_settings_grids_and_changes_come_along_and_what_is_here_stays(tmp_path: Path) -> None:
    one, other = home_in(tmp_path / "one"), home_in(tmp_path / "other")
    add_pupil(one, "ab", NOW, {"speech.rate_wpm": "120"})
    save_grid(one, "oars", Grid("Rows of oars", (37,), (4,)))
    add_pupil(other, "ab", NOW, {"speech.rate_wpm": "150"})
    file = give(one, tmp_path / "one.json", NOW).file
    came = take_in(other, file)
    assert (came.known_here, came.other_settings, came.grids) == (("ab",), ("ab",), ("oars",))
    assert show_pupil(other, "ab").settings.speech.rate_wpm == 150
    assert open_grid(other, "oars") == Grid("Rows of oars", (37,), (4,))
    third = home_in(tmp_path / "third")
    take_in(third, file)
    assert show_pupil(third, "ab").settings.speech.rate_wpm == 120
    assert changes(third, "ab") == changes(one, "ab")


def test_two_children_of_one_code_are_kept_apart(tmp_path: Path) -> None:
    one, _, _, from_other = two_laptops(tmp_path)
    came = take_in(one, from_other, {"cd": "ef"})
    assert came.pupils == ("ab", "ef")
    assert "cd" not in {pupil for pupil, _, _ in all_rows(one).values()}
    take_in(one, from_other, {"cd": "ef"})
    assert [pupil for pupil, _, _ in all_rows(one).values()].count("ef") == 1


def test_looking_changes_nothing(tmp_path: Path) -> None:
    one, _, _, from_other = two_laptops(tmp_path)
    before = all_rows(one)
    assert look_in(one, from_other).added.rows == 9
    assert all_rows(one) == before


def test_a_practice_bars_taking_in(tmp_path: Path) -> None:
    one, _, _, from_other = two_laptops(tmp_path)
    practising = SqliteStore(one.records_file)
    with pytest.raises(AnotherCopyError):
        take_in(one, from_other)
    practising.close()


@pytest.mark.parametrize(
    ("harm", "says"),
    [
        (lambda text: text[: len(text) // 2], "cut off"),
        (lambda text: "rows of oars", "not JSON"),
        (lambda text: text.replace('"version": 1', '"version": 2', 1), "newer saythesum"),
        (lambda text: text.replace("saythesum records", "bakery orders", 1), "no file of records"),
        (lambda text: text.replace('"given": 54', '"given": 64', 1), "was changed since"),
        (lambda text: "[" * 100_000, "no file of records"),
        (lambda text: "{}", "no file of records"),
    ],
)
def test_a_file_that_is_not_whole_is_refused_and_nothing_changes(tmp_path: Path, harm: object, says: str) -> None:
    one, _, _, from_other = two_laptops(tmp_path)
    harmed = tmp_path / "harmed.json"
    harmed.write_text(harm(from_other.read_text()))  # type: ignore[operator]
    before = all_rows(one)
    with pytest.raises(GivenFileError, match=says):
        take_in(one, harmed)
    assert all_rows(one) == before


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("pupils", 0, "code"), "../../evil"),
        (("pupils", 0, "changes"), [{"id": "x", "at": "never"}]),
        (("practices", 0, "id"), "7"),
        (("grids",), [{"name": "../oars", "text": "add = [3]"}]),
        (("moves",), [{"id": "x"}]),
    ],
)
def test_an_edited_file_that_was_to_be_taken_in_anyway_is_read_with_care(
    tmp_path: Path, path: tuple[str | int, ...], value: object
) -> None:
    one, _, _, from_other = two_laptops(tmp_path)
    content = json.loads(from_other.read_text())
    inner = content
    for step in path[:-1]:
        inner = inner[step]
    inner[path[-1]] = value
    edited = tmp_path / "edited.json"
    edited.write_text(json.dumps(content))
    before = all_rows(one)
    with pytest.raises(EditedError):
        take_in(one, edited)
    with pytest.raises(GivenFileError):
        take_in(one, edited, even_edited=True)
    assert all_rows(one) == before
    assert not list(tmp_path.rglob("evil*"))


def test_a_practice_that_cannot_be_is_left_out_and_named(tmp_path: Path) -> None:
    one, _, _, from_other = two_laptops(tmp_path)
    content = json.loads(from_other.read_text())
    of = next(one for one in content["practices"] if one["pupil"] == "cd")
    of["rows"][1]["start"] = -5
    edited = tmp_path / "edited.json"
    edited.write_text(json.dumps(content))
    came = take_in(one, edited, even_edited=True)
    assert len(came.unreadable) == 1 and of["id"] in came.unreadable[0]
    assert "cd" not in {pupil for pupil, _, _ in all_rows(one).values()}
