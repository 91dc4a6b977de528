"""Typed practice on a disk that fills up: what is said, and whether any answer that was replied to is lost."""

import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from saythesum.core.records.rows import Answer
from tests.app.command import Done, Person
from tests.tools.kills import rows_of

BY_TEXT = ("practise", "--by", "text")
ANSWERS = "41\n43\n46\n60\n62\n65\n"


@contextmanager
def small_disk(at: Path, size_kb: int) -> Iterator[Path]:
    """A file system in memory. Raises CalledProcessError where the user may not mount one."""
    at.mkdir()
    subprocess.run(
        ["mount", "-t", "tmpfs", "-o", f"size={size_kb}k", "tmpfs", str(at)], check=True, capture_output=True
    )
    try:
        yield at
    finally:
        subprocess.run(["umount", str(at)], check=True)


@dataclass(frozen=True, slots=True)
class Came:
    done: Done
    replied: int
    kept: int
    """Answers that the records hold once there is room again."""

    @property
    def is_true(self) -> bool:
        """All was kept; or a full disk was called that, and no answer that was replied to is lost."""
        is_called_full = any("no room left on the disk" in line or "No space left" in line for line in self.done.told)
        is_said = is_called_full and len(self.done.told) == 1 and self.done.code in (0, 2)
        return self.kept >= self.replied and (is_said or (self.done.code, self.done.told) == (0, []))


def practised_on(disk: Path, elsewhere: Path) -> Came:
    """`elsewhere`: the user's own and the temporary folder; the disk itself, or one with room."""
    person = Person(disk / "home")
    environment = {"SAYTHESUM_HOME": str(disk / "home"), "HOME": str(elsewhere), "TMPDIR": str(elsewhere)}
    person = Person(elsewhere)
    done = person.runs(*BY_TEXT, given=ANSWERS, more=environment)
    replied = sum(line == "Yes." for line in done.shown)
    subprocess.run(["mount", "-o", "remount,size=4m", str(disk)], check=True)
    person.runs(*BY_TEXT, more=environment)
    kept = sum(isinstance(row, Answer) for row in rows_of(disk / "home"))
    return Came(done, replied, kept)
