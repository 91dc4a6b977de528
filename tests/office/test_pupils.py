"""Pupils: their settings, what changed, targets."""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from saythesum.errors import CallerError
from saythesum.office.pupils import (
    Target,
    add_pupil,
    change_pupil,
    changes,
    list_pupils,
    note_changes,
    put_away,
    set_target,
    show_pupil,
    targets,
)
from tests.office.places import home_in

MONDAY = datetime(2031, 5, 12, 9, 30, tzinfo=UTC)
TUESDAY = MONDAY + timedelta(days=1)


def test_a_pupil_is_added_with_settings_and_changed(tmp_path: Path) -> None:
    own = home_in(tmp_path)
    card = add_pupil(own, "RK-7", MONDAY, {"speech.rate_wpm": "120", "window.colours": "white on black"})
    assert (card.code, card.settings.speech.rate_wpm, card.settings.window.colours) == ("rk-7", 120, "white on black")
    change_pupil(own, "rk-7", {"speech.rate_wpm": "130", "waits.said_back_ms": "for ever"}, TUESDAY)
    assert show_pupil(own, "rk-7").settings.waits.said_back_ms is None
    assert [(one.setting, one.before, one.after, one.by) for one in changes(own, "rk-7", since=TUESDAY)] == [
        ("speech.rate_wpm", 120, 130, "desk"),
        ("waits.said_back_ms", None, "for ever", "desk"),
    ]
    change_pupil(own, "rk-7", {"speech.rate_wpm": ""}, TUESDAY)
    assert show_pupil(own, "rk-7").settings.speech.rate_wpm == 140


def test_a_file_edited_by_hand_is_noticed_and_its_comments_stay(tmp_path: Path) -> None:
    own = home_in(tmp_path)
    add_pupil(own, "ab", MONDAY, {"speech.rate_wpm": "120"})
    file = own.pupil_file("ab")
    file.write_text(file.read_text() + 'voice = "gmw/en-scotland"  # she asked for it\n')
    note_changes(own, "ab", TUESDAY)
    note_changes(own, "ab", TUESDAY)
    assert [(one.setting, one.after, one.by) for one in changes(own, "ab", since=TUESDAY)] == [
        ("speech.voice", "gmw/en-scotland", "elsewhere")
    ]
    change_pupil(own, "ab", {"speech.pitch": "40"}, TUESDAY)
    assert "# she asked for it" in file.read_text()


def test_what_cannot_be_is_refused_whole(tmp_path: Path) -> None:
    own = home_in(tmp_path)
    add_pupil(own, "ab", MONDAY)
    before = own.pupil_file("ab").read_text()
    with pytest.raises(CallerError) as refused:
        change_pupil(own, "ab", {"speech.rate_wpm": "fast", "speech.pich": "3", "speech.pitch": "40"}, TUESDAY)
    assert str(refused.value).splitlines() == [
        'speech.rate_wpm cannot be "fast"; it is a whole number from 80 to 400.',
        '"speech.pich" is not a setting; did you mean speech.pitch?',
    ]
    assert own.pupil_file("ab").read_text() == before
    with pytest.raises(CallerError, match="There is a pupil ab already"):
        add_pupil(own, "AB", MONDAY)
    with pytest.raises(CallerError, match="There is no pupil zz"):
        change_pupil(own, "zz", {}, MONDAY)


def test_a_broken_file_is_told_and_left_alone(tmp_path: Path) -> None:
    own = home_in(tmp_path)
    add_pupil(own, "ab", MONDAY)
    own.pupil_file("ab").write_text("[speech\nrate_wpm = 120\n")
    (card,) = list_pupils(own)
    assert card.problems and "cannot be read" in card.problems[0]
    with pytest.raises(CallerError, match="put it right first"):
        change_pupil(own, "ab", {"speech.pitch": "40"}, TUESDAY)
    assert own.pupil_file("ab").read_text() == "[speech\nrate_wpm = 120\n"


def test_put_away_and_brought_back(tmp_path: Path) -> None:
    own = home_in(tmp_path)
    for code in ("ab", "cd"):
        add_pupil(own, code, MONDAY)
    put_away(own, "ab", TUESDAY)
    assert [card.code for card in list_pupils(own)] == ["cd"]
    assert [card.code for card in list_pupils(own, put_away=True)] == ["ab", "cd"]
    put_away(own, "ab", TUESDAY, back=True)
    assert [card.code for card in list_pupils(own)] == ["ab", "cd"]


def test_the_newest_target_holds_and_all_are_kept(tmp_path: Path) -> None:
    own = home_in(tmp_path)
    add_pupil(own, "ab", MONDAY)
    first = Target("Fills the benches.", "full-benches", 8, 10, unaided=True, by=date(2031, 7, 1))
    second = Target("Crosses a ten.", "crossing a ten", 9, 10, unaided=True, by=date(2031, 12, 1))
    set_target(own, "ab", first, MONDAY)
    assert set_target(own, "ab", second, TUESDAY).target == second
    assert [target for _, target in targets(own, "ab")] == [first, second]
    with pytest.raises(CallerError, match="8 of 10"):
        set_target(own, "ab", Target("x", "x", 11, 10, unaided=True, by=date(2031, 7, 1)), MONDAY)
