"""Damages records in every way that a disk, a stick or a hand can, and looks at what comes of it."""

import os
import random
import shutil
import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager, redirect_stderr, redirect_stdout, suppress
from dataclasses import dataclass, replace
from datetime import datetime
from io import BytesIO, StringIO, TextIOWrapper
from pathlib import Path
from typing import Literal, TypeAlias

from saythesum.app.cli.main import main
from saythesum.core.records.rows import EndReason, Row
from saythesum.errors import StoreError
from saythesum.store.mending import mend
from saythesum.store.reading import open_to_read
from saythesum.store.records import SqliteStore
from saythesum.store.sqlite_errors import DamagedError, UnreadableError
from tests.store.made_practices import AT, answered, asked, ended, practice

Outcome: TypeAlias = Literal["without effect", "nothing lost, and told", "rows lost, and told", "unnoticed"]
Rows: TypeAlias = frozenset[Row]

PRACTICES, ROWS = 6, 24
RECORDS = "records.sqlite"
SETTINGS = '[speech]\nrate_wpm = 170\n\n[wording]\nlength = "short"\n'


@dataclass(frozen=True, slots=True)
class Found:
    damage: str
    outcome: Outcome
    code: int
    told: str
    is_practised: bool
    """A sum was asked, and the answer to it was taken."""
    lost: int
    """Rows that can no longer be read."""
    altered: int
    """Rows that read as something else than was kept."""


def make_home(home: Path, *, is_killed: bool) -> None:
    """Two pupils' practices, the last one unfinished; after a kill its rows are in the write-ahead log alone."""
    original = home.with_name("original") if is_killed else home
    with closing(SqliteStore(original / RECORDS)) as store:
        for number in range(PRACTICES):
            started = practice(f"ferry {number}", pupil=("pupil-1", "mo")[number % 2])
            store.begin(started)
            for serial in range(ROWS):
                row = replace(asked(started, serial), column=0) if serial % 2 == 0 else answered(started, serial)
                store.keep(started.id, row, at=AT, at_ms=serial)
            if number < PRACTICES - 2:
                store.keep(started.id, ended(started, ROWS, EndReason.FINISHED), at=AT, at_ms=ROWS)
        if is_killed:
            home.mkdir()
            for file in original.glob(f"{RECORDS}*"):
                shutil.copy(file, home / file.name)
    if is_killed:
        shutil.rmtree(original)
    (home / "settings.toml").write_text(SETTINGS, encoding="utf-8")
    (home / "pupils").mkdir()
    (home / "pupils" / "pupil-1.toml").write_text(SETTINGS, encoding="utf-8")


def damage_something(home: Path, seed: int) -> str:
    """Says what it has done. The records twice as often as each file beside them."""
    dice = random.Random(seed)
    files = sorted(file for file in home.rglob("*") if file.is_file() and file.stat().st_size)
    file = dice.choice([*files, home / RECORDS])
    data = bytearray(file.read_bytes())
    at = dice.randrange(len(data))
    match dice.choice(("flip", "flip", "overwrite", "cut")):
        case "flip":
            data[at] ^= 1 << dice.randrange(8)
            done = f"a bit of byte {at} flipped"
        case "overwrite":
            length = dice.choice((1, 8, 64, 512, 4096))
            data[at : at + length] = dice.randbytes(min(length, len(data) - at))
            done = f"{length} bytes from {at} on overwritten"
        case _:
            del data[max(at, 1) :]
            done = f"cut after {max(at, 1)} bytes"
    file.write_bytes(data)
    return f"{file.relative_to(home)}: {done}"


def looked_at(home: Path, whole: Rows, damage: str) -> Found:
    checked = told_by_check(home / RECORDS)
    with at_home(home):
        code, shown, told = practised("52\n")
        mended_by_hand(home / RECORDS)
    rows = rows_in(home) if code == 0 else frozenset()
    ids = {row.id for row in whole}
    lost = len(ids - {row.id for row in rows})
    altered = len({row for row in rows if row.id in ids} - whole)
    if lost or altered:
        outcome: Outcome = "rows lost, and told" if (checked or told) and not altered else "unnoticed"
    else:
        outcome = "nothing lost, and told" if checked or told else "without effect"
    return Found(damage, outcome, code, told or checked, "Yes." in shown or "Not yet." in shown, lost, altered)


def told_by_check(records: Path) -> str:
    try:
        with closing(open_to_read(records)) as store:
            store.check_file()
            return " ".join(store.unreadable())
    except StoreError as error:
        return str(error)


def mended_by_hand(records: Path) -> None:
    """As `check` says, where the practice did not come to the damaged place."""
    try:
        with closing(open_to_read(records)) as store:
            store.check_file()
    except DamagedError:
        mend(records)


@contextmanager
def at_home(home: Path) -> Iterator[None]:
    before = dict(os.environ)
    os.environ |= {"SAYTHESUM_HOME": str(home), "HOME": str(home.parent)}
    try:
        yield
    finally:
        os.environ.clear()
        os.environ.update(before)


def practised(given: str) -> tuple[int, str, str]:
    """Exit code, what was shown and what was told, of a practice in plain text."""
    shown, told, stdin = TextIOWrapper(BytesIO(), "utf-8"), StringIO(), sys.stdin
    sys.stdin = StringIO(given)
    try:
        with redirect_stdout(shown), redirect_stderr(told):
            code = main(["practise", "--by", "text"])
    finally:
        sys.stdin = stdin
    shown.seek(0)
    return code, shown.read(), told.getvalue()


def rows_in(home: Path) -> Rows:
    """Those of the made practices: a practice that goes on gives its next rows the ids of those that were lost."""
    made = datetime.fromisoformat(AT)
    rows: set[Row] = set()
    with closing(open_to_read(home / RECORDS)) as records:
        for id in (id for pupil in records.pupils() for id in records.practices(pupil)):
            with suppress(UnreadableError):
                kept = zip(records.practice(id).rows, records.times(id), strict=True)
                rows |= {row for row, at in kept if at == made}
    return frozenset(rows)
