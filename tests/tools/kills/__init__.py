"""Typed practice killed at any place: nothing that was answered to is lost, and the same question comes again."""

import signal
import subprocess
from collections.abc import Sequence
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from saythesum.core.records.rows import Answer, Row
from saythesum.store.reading import open_to_read
from tests.app.command import COMMAND, Person

BY_TEXT = ("practise", "--by", "text")
ANSWERS = ("41", "45", "2", "3", "43", "46", "60", "52", "62", "64", "65")
"""To the first grid: some wrong, so that the kill also falls into the parts of a sum."""
CALLS = ("pwrite64", "fdatasync", "fsync", "ftruncate", "unlink", "mkdir", "write")
"""All that changes a file, or reaches the reader."""


@dataclass(frozen=True, slots=True)
class Reference:
    """A practice that nobody kills."""

    questions: tuple[str, ...]
    """The last line after so many answers."""
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Came:
    is_killed: bool
    lost: int
    """Answers that were replied to and are not in the records."""
    is_same_question: bool


def reference(home: Path) -> Reference:
    person = Person(home)
    shown = [person.runs(*BY_TEXT, "--pupil", f"p{count}", given=lines(count)).shown for count in range(len(ANSWERS))]
    person.runs(*BY_TEXT, given=lines(len(ANSWERS)))
    return Reference(tuple(lines_shown[-2] for lines_shown in shown), rows_of(home))


def lines(count: int) -> str:
    return "".join(f"{answer}\n" for answer in ANSWERS[:count])


def rows_of(home: Path, pupil: str = "pupil-1") -> tuple[Row, ...]:
    if not (home / "records.sqlite").exists():
        return ()
    with closing(open_to_read(home / "records.sqlite")) as records:
        return tuple(row for id in records.practices(pupil) for row in records.practice(id).rows)


def killed_after(home: Path, wait_s: float) -> bytes | None:
    """What was shown until then; None where the practice was over before."""
    running = Person(home).starts(*BY_TEXT)
    try:
        shown, _ = running.communicate(lines(len(ANSWERS) - 1).encode(), timeout=wait_s)
        return None
    except subprocess.TimeoutExpired:
        running.send_signal(signal.SIGKILL)
        shown, _ = running.communicate()
        return shown


def killed_at_call(home: Path, call: str, number: int) -> bytes | None:
    """At the so-manieth call of that name; None where there were fewer."""
    trace = ("strace", "-f", "-qq", "-o", "/dev/null", "-e", f"trace={call}")
    inject = ("-e", f"inject={call}:signal=KILL:when={number}")
    done = subprocess.run(
        [*trace, *inject, *COMMAND, *BY_TEXT],
        input=lines(2).encode(),
        capture_output=True,
        check=False,
        env=Person(home).environment(),
        cwd=home,
    )
    return done.stdout if done.returncode in (-signal.SIGKILL, 128 + signal.SIGKILL) else None


def came_of(home: Path, shown: bytes | None, whole: Reference) -> Came:
    """Looks by going on: a practice that is not given any answer says the question that stands."""
    replies = shown.decode(errors="replace").splitlines() if shown is not None else []
    answered = sum(line in ("Yes.", "Not yet.") or line.startswith("Yes, ") for line in replies)
    again = Person(home).runs(*BY_TEXT)
    kept = sum(isinstance(row, Answer) for row in rows_of(home))
    is_same = again.code == 0 and not again.told and again.shown[-2] == whole.questions[kept]
    return Came(shown is not None, max(answered - kept, 0), is_same)


def summary(came: Sequence[Came]) -> str:
    killed = [one for one in came if one.is_killed]
    return (
        f"{len(killed)} kills: {sum(one.lost for one in killed)} answers lost, "
        f"{sum(not one.is_same_question for one in killed)} times another question"
    )
