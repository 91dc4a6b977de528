"""Until when records are kept, and where they lie."""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from saythesum.errors import CallerError
from saythesum.office.keeping import due, due_of, due_said, keep_until, kept_elsewhere, kept_elsewhere_said, kept_until
from saythesum.office.pupils import add_pupil
from tests.office.places import home_in

NOW = datetime(2031, 5, 12, 8, 0, tzinfo=UTC)
MOUNTS = """\
/dev/sda1 / ext4 rw 0 0
server:/export /srv/pupils nfs4 rw 0 0
//files/share /mnt/a\\040b cifs rw 0 0
/dev/sdb1 /srv/pupils/local ext4 rw 0 0
"""


def test_a_date_is_kept_changed_and_taken_away_and_the_earliest_is_told_first(tmp_path: Path) -> None:
    places = home_in(tmp_path)
    for code in ("rk-7", "mo", "b2"):
        add_pupil(places, code, NOW)
    keep_until(places, "rk-7", date(2031, 6, 1), NOW)
    keep_until(places, "mo", date(2031, 5, 20), NOW)
    keep_until(places, "b2", date(2032, 5, 20), NOW)
    assert [one.code for one in due(places, NOW.date())] == ["mo", "rk-7"]
    over = due_of(places, "mo", date(2031, 5, 21))
    assert over is not None and over.is_over and "then erase them (saythesum records erase mo)" in due_said(over)
    soon = due_of(places, "rk-7", NOW.date())
    assert soon is not None and due_said(soon) == "The records of rk-7 are to be kept until 2031-06-01: that is soon."
    assert due_of(places, "b2", NOW.date()) is None
    keep_until(places, "mo", None, NOW + timedelta(seconds=1))
    assert kept_until(places, "mo") is None
    with pytest.raises(CallerError, match="which is over: name a later day"):
        keep_until(places, "mo", date(2031, 5, 11), NOW)
    with pytest.raises(CallerError, match="There is no pupil"):
        keep_until(places, "zz", date(2032, 1, 1), NOW)


@pytest.mark.parametrize(
    "folder, told",
    [
        ("/home/a/OneDrive - School/saythesum", "The folder OneDrive - School seems to be copied to other computers."),
        ("/home/a/Dropbox/x", "The folder Dropbox seems to be copied to other computers."),
        ("/Users/a/Library/Mobile Documents/x", "The folder Mobile Documents seems to be copied to other computers."),
        ("/srv/pupils/records", "/srv/pupils/records is on a network drive."),
        ("/mnt/a b/records", "/mnt/a b/records is on a network drive."),
        ("/srv/pupils/local/records", None),
        ("/home/a/.local/share/saythesum", None),
    ],
)
def test_where_records_are_copied_or_far_away_is_told(tmp_path: Path, folder: str, told: str | None) -> None:
    mounts = tmp_path / "mounts"
    mounts.write_text(MOUNTS)
    assert kept_elsewhere(Path(folder), mounts) == told


def test_what_follows_from_it_is_said(tmp_path: Path) -> None:
    folder = tmp_path / "Nextcloud"
    folder.mkdir()
    assert "set SAYTHESUM_HOME to a folder of this computer alone" in str(kept_elsewhere_said(folder))
    assert kept_elsewhere(folder, tmp_path / "no mounts") is not None
    assert kept_elsewhere(tmp_path, tmp_path / "no mounts") is None
