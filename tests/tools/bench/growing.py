"""A start and an answer after more and more kept rows of one pupil, in processor time, as ratios to an empty store's.

Each start is a process of its own: from its first instruction to the first question, and of that the opening alone
(records, what is known, the first question), which leaves out what Python takes to load the program.
"""

import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from random import Random
from statistics import median
from uuid import UUID, uuid5

from saythesum.core.grids.file_format import text_of
from saythesum.core.grids.grid import Cell, Grid, Order
from saythesum.core.records.rows import Ask, By, End, EndReason, HeardId, Row, RowId, Settled, row_id
from saythesum.ports import StoredPractice
from saythesum.settings import Settings
from saythesum.store.records import SqliteStore
from tests.app.command import Person
from tests.core.made_sums import sum_at
from tests.learner.learners import asked_of, learner
from tests.tools.bench.lines import Figure

ROWS = (20, 2_000, 20_000, 40_000, 200_000)
"""40,000 rows are about 20,000 answers."""
STARTS = 9
ORDERS = (Order.ROWS, Order.CHOSEN)
GRID = Grid("Rows of oars", (16, 27, 38, 49, 54, 65, 73, 82), (3, 4, 5, 6, 7, 8, 9, 2))
PUPIL = "pupil-1"
_FAMILY = UUID("0a1c9f52-5c1e-4f0e-9a53-2d6d3c1b7e44")
_FIRST_DAY = datetime(2026, 1, 5, 9, tzinfo=UTC)

PRACTISED, ANSWERS = 3, 25
"""So many times it goes on, with so many answers each."""
ONE_PRACTICE = "tests.tools.bench.started.one_practice"


@dataclass(frozen=True, slots=True)
class _Run:
    start_ms: float
    opening_ms: float
    answers_ms: Sequence[float]


def growth() -> Iterator[Figure]:
    with tempfile.TemporaryDirectory() as folder:
        empty, grown = Path(folder) / "empty", Path(folder) / "grown"
        for home in (empty, grown):
            home.mkdir()
            for order in ORDERS:
                (home / f"{order}.toml").write_text(text_of(replace(GRID, order=order)))
        practices = made_practices()
        rows = 0
        for most in ROWS:
            rows += _fill(grown / "records.sqlite", practices, most - rows)
            for order in ORDERS:
                yield from _beside(empty, grown, order, f"{order}, {rows} rows")


def _beside(empty: Path, grown: Path, order: Order, what: str) -> Iterator[Figure]:
    """Turn and turn about, so that a busy machine slows both; of copies, so that nothing practised here stays."""
    with tempfile.TemporaryDirectory() as folder:
        those, these = (Path(shutil.copytree(home, Path(folder) / home.name)) for home in (empty, grown))
        first, _ = _run(these, order), _run(those, order)
        pairs = [(_run(these, order), _run(those, order)) for _ in range(STARTS)]
        answered = [(_run(these, order, ANSWERS), _run(those, order, ANSWERS)) for _ in range(PRACTISED)]
    starts, empty_starts = ([run.start_ms for run in runs] for runs in zip(*pairs, strict=True))
    answers, empty_answers = ([ms for run in runs for ms in run.answers_ms] for runs in zip(*answered, strict=True))
    openings = [run.opening_ms for run, _ in pairs]
    yield Figure(f"start, {what}", starts, "ms")
    yield Figure(f"start, {what}: of that the opening", openings, "ms")
    yield Figure(f"start, {what}: the opening without a snapshot", [first.opening_ms], "ms")
    yield Figure(f"start, {what}: times an empty store's", [median(starts) / median(empty_starts)], "", 1.2)
    yield Figure(f"answer, {what}", answers, "ms")
    yield Figure(f"answer, {what}: times an empty store's", [median(answers) / median(empty_answers)], "", 1.2)


def _run(home: Path, order: Order, answers: int = 0) -> _Run:
    command = [sys.executable, "-m", ONE_PRACTICE, f"{order}.toml", str(answers)]
    environment = Person(home).environment()
    done = subprocess.run(command, cwd=home, env=environment, capture_output=True, text=True, check=True)
    start_ms, opening_ms, *answers_ms = map(float, done.stdout.splitlines()[-1].split())
    return _Run(start_ms, opening_ms, answers_ms)


def _fill(path: Path, practices: Iterator[tuple[StoredPractice, list[Row]]], at_least: int) -> int:
    """How many rows were added: whole practices."""
    added = 0
    with closing(SqliteStore(path)) as store:
        store._connection.execute("BEGIN")  # one sync for all of them
        while added < at_least:
            practice, rows = next(practices)
            store.begin(practice)
            for row in rows:
                store.keep(practice.id, row, at=practice.began_at, at_ms=0)
            added += len(rows)
        store._connection.execute("COMMIT")
    return added


def made_practices() -> Iterator[tuple[StoredPractice, list[Row]]]:
    """Two a day, each of nine sums and finished, all by one pupil who learns."""
    dice = Random(1)
    pupil = learner("growing", 0.5)
    for number in count():
        if number % 200 == 199:
            pupil = learner(f"growing {number}", 0.5)  # else everything would be known soon
        starts = tuple(sorted(dice.sample(range(11, 100), 3)))
        grid = Grid("Rows of oars", starts, tuple(sorted(dice.sample(range(2, 10), 3))), Order.CHOSEN)
        began_at = _FIRST_DAY + timedelta(hours=12 * number)
        id = uuid5(_FAMILY, f"{number}")
        practice = StoredPractice(id, PUPIL, began_at.isoformat(), text_of(grid), number, Settings(), "0.1.0")
        rows: list[Row] = []
        for cell in (Cell(row, column) for row in range(3) for column in range(3)):
            because: RowId | None = None
            for said in asked_of(pupil, cell, sum_at(grid, cell), began_at.date()):
                rows.append(Ask(row_id(id, len(rows)), cell.row, cell.column, said.part, said.support, because))
                heard = HeardId(str(uuid5(id, f"heard {len(rows)}")))
                because = row_id(id, len(rows))
                rows.append(
                    replace(said, id=because, by=By.VOICE, heard=heard, certainty=0.97, settled=Settled.SAID_BACK)
                )
        rows.append(End(row_id(id, len(rows)), 9, 5, EndReason.FINISHED))
        yield practice, rows


def main() -> None:
    for figure in growth():
        print(figure, flush=True)


if __name__ == "__main__":
    main()
