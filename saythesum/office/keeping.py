"""How long records are to be kept, and where they lie: what an adult should be reminded of."""

import os
import sys
from contextlib import suppress
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from pathlib import Path

from saythesum.core.records.times import utc_text
from saythesum.errors import CallerError
from saythesum.office.places import Places
from saythesum.office.pupils import changes, known_code
from saythesum.store.beside.entries import Entry, add_entries, entries_in
from saythesum.store.beside.entry_tables import Table

KEEP_UNTIL = "keep-until"
REMIND_DAYS = 30
"""So long before the date."""


@dataclass(frozen=True, slots=True)
class Due:
    code: str
    keep_until: date
    is_over: bool


def keep_until(places: Places, given: str, day: date | None, now: datetime) -> None:
    """None: no date. Nothing is erased by itself. Raises CallerError."""
    code = known_code(places, given)
    if day and day < now.date():
        raise CallerError(f"The records of {code} cannot be kept until {day}, which is over: name a later day.")
    before = kept_until(places, code)
    fields = {
        "setting": KEEP_UNTIL,
        "before": before.isoformat() if before else None,
        "after": day.isoformat() if day else None,
        "by": "desk",
    }
    add_entries(places.records_file, {Table.CHANGES: [Entry(code, utc_text(now), fields)]})


def kept_until(places: Places, code: str) -> date | None:
    days = [change.after for change in changes(places, code) if change.setting == KEEP_UNTIL]
    return date.fromisoformat(days[-1]) if days and days[-1] else None


def due(places: Places, today: date) -> tuple[Due, ...]:
    """Those whose date is over, or will be soon; the earliest first."""
    kept = (entry for entry in entries_in(places.records_file, Table.CHANGES) if entry.fields["setting"] == KEEP_UNTIL)
    days = {entry.pupil: entry.fields["after"] for entry in kept}
    found = [one for code, day in days.items() if (one := _due(code, date.fromisoformat(day) if day else None, today))]
    return tuple(sorted(found, key=lambda one: (one.keep_until, one.code)))


def due_said(one: Due) -> str:
    """For the adult."""
    if one.is_over:
        return (
            f"The records of {one.code} were to be kept until {one.keep_until}: give them out if still needed, "
            f"then erase them (saythesum records erase {one.code}), or name a later day."
        )
    return f"The records of {one.code} are to be kept until {one.keep_until}: that is soon."


def due_of(places: Places, code: str, today: date) -> Due | None:
    """Where this pupil's time is over or soon."""
    return _due(code, kept_until(places, code), today)


def _due(code: str, day: date | None, today: date) -> Due | None:
    return Due(code, day, is_over=day < today) if day and day <= today + timedelta(days=REMIND_DAYS) else None


_SYNCHRONISED = (
    "onedrive",
    "dropbox",
    "google drive",
    "googledrive",
    "icloud",
    "mobile documents",
    "nextcloud",
    "syncthing",
)
"""Parts of the names of folders that programs of this kind copy to other computers (from memory)."""
_OVER_A_NETWORK = frozenset({"nfs", "nfs4", "cifs", "smb3", "smbfs", "fuse.sshfs", "afs", "9p", "davfs", "fuse.rclone"})
"""Types of file system. Source: the Linux manual pages mount(8) and filesystems(5), and from memory."""


def kept_elsewhere(folder: Path, mounts: Path = Path("/proc/mounts")) -> str | None:
    """Why records in that folder are not on this machine alone; None where nothing speaks for that."""
    real = folder.resolve()
    for part in real.parts:
        if any(name in part.lower() for name in _SYNCHRONISED):
            return f"The folder {part} seems to be copied to other computers."
    if str(real).startswith("\\\\") or _is_remote_drive(real) or _file_system(real, mounts) in _OVER_A_NETWORK:
        return f"{folder} is on a network drive."
    return None


def kept_elsewhere_said(folder: Path) -> str | None:
    """The same with what follows from it, for the adult."""
    why = kept_elsewhere(folder)
    if why is None:
        return None
    return (
        f"{why} Two computers that write the same records at once damage them, and nobody knows where copies "
        "lie: set SAYTHESUM_HOME to a folder of this computer alone, and carry records by saythesum records give."
    )


def _file_system(folder: Path, mounts: Path) -> str:
    """Of the innermost mount around it; empty where that is not known."""
    with suppress(OSError):
        lines = [line.split() for line in mounts.read_text(encoding="utf-8", errors="replace").splitlines()]
        around = [
            (len(point), kind)
            for _, point, kind, *_ in (line for line in lines if len(line) > 2)
            if folder.is_relative_to(point.replace("\\040", " "))
        ]
        return max(around, default=(0, ""))[1]
    return ""


def _is_remote_drive(folder: Path) -> bool:
    """Source: GetDriveTypeW, Microsoft's reference of the Windows API: DRIVE_REMOTE is 4."""
    if sys.platform != "win32":
        return False
    import ctypes

    return bool(ctypes.windll.kernel32.GetDriveTypeW(os.path.splitdrive(folder)[0] + "\\") == 4)
