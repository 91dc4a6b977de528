"""A start and an answer after more and more kept rows of one pupil, in processor time, as ratios to an empty store's.

Each start is a process of its own: from its first instruction to the first question, and of that the opening alone
(records, what is known, the first question), which leaves out what Python takes to load the program.
"""

import json
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
from tests.learner.learners import asked_of, learner
from tests.tools.bench.lines import Figure

ROWS = (20, 2_000, 20_000, 40_000, 200_000)
"""40,000 rows are about 20,000 answers."""
STARTS = 9
PUPIL = "pupil-1"
_FAMILY = UUID("0a1c9f52-5c1e-4f0e-9a53-2d6d3c1b7e44")
_FIRST_DAY = datetime(2026, 1, 5, 9, tzinfo=UTC)

ONE_START = """
import json, sys
from time import process_time
from pathlib import Path
from saythesum.app.session.by_text import TextOutlets
from saythesum.app.session.practice import Wish, practice, setup_for
from saythesum.core.meanings import Number
from saythesum.core.records.rows import By, HeardId
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.turns.events import Began, Entered
from saythesum.dialogue.tutor.progress import cell_of

outlets = TextOutlets()
setup = setup_for("pupil-1")
loaded_s = process_time()
with practice(Wish("pupil-1", Path(sys.argv[1])), setup, Ear.TEXT, outlets) as runner:
    outlets.runner = runner
    runner.post(Began(runner.now_ms))
    started_s = process_time()
    answers_s = []
    for number in range(int(sys.argv[2])):
        ask = runner.state.progress.ask
        right = runner.state.plan.sum_at(cell_of(ask)).answer_to(ask.part)
        given = Number(right - 1 if number % 3 == 1 else right)
        began_s = process_time()
        runner.post(Entered(given, "", By.TEXT, runner.now_ms, runner.now_ms, HeardId("")))
        answers_s.append(process_time() - began_s)
print(json.dumps([started_s * 1000, (started_s - loaded_s) * 1000, [took_s * 1000 for took_s in answers_s]]))
"""
ANSWERS = 30


@dataclass(frozen=True, slots=True)
class _Taken:
    starts_ms: Sequence[float]
    openings_ms: Sequence[float]
    first_opening_ms: float
    """With nothing derived kept yet: all is read and weighed anew."""
    answers_ms: Sequence[float]


def growth() -> Iterator[Figure]:
    with tempfile.TemporaryDirectory() as folder:
        grown = Path(folder) / "grown"
        grown.mkdir()
        practices = made_practices()
        for order in (Order.ROWS, Order.CHOSEN):
            (grown / f"{order}.toml").write_text(text_of(replace(GRID, order=order)))
        empty = {order: _taken(grown, order) for order in (Order.ROWS, Order.CHOSEN)}
        for order, taken in empty.items():
            yield from _figures(f"{order}, nothing kept", taken)
        rows = 0
        for most in ROWS:
            rows += _fill(grown / "records.sqlite", practices, most - rows)
            for order in (Order.ROWS, Order.CHOSEN):
                taken = _taken(grown, order)
                what = f"{order}, {rows} rows"
                yield from _figures(what, taken)
                yield from _ratios(what, taken, empty[order])


GRID = Grid("Rows of oars", (16, 27, 38, 49, 54, 65, 73, 82), (3, 4, 5, 6, 7, 8, 9, 2))


def _figures(what: str, taken: _Taken) -> Iterator[Figure]:
    yield Figure(f"start, {what}", taken.starts_ms, "ms")
    yield Figure("  of that the opening", taken.openings_ms, "ms")
    yield Figure("  the opening where nothing derived is kept", [taken.first_opening_ms], "ms")
    yield Figure(f"answer, {what}", taken.answers_ms, "ms")


def _ratios(what: str, taken: _Taken, empty: _Taken) -> Iterator[Figure]:
    yield Figure(f"start, {what}, for one of an empty store", [_ratio(taken.starts_ms, empty.starts_ms)], "", 1.2)
    yield Figure(f"answer, {what}, for one of an empty store", [_ratio(taken.answers_ms, empty.answers_ms)], "", 1.2)


def _ratio(these: Sequence[float], those: Sequence[float]) -> float:
    return median(these) / median(those)


def _taken(grown: Path, order: Order) -> _Taken:
    """Of a copy: what is practised here is not there the next time."""
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder) / "home"
        shutil.copytree(grown, home)
        _, first_ms, _ = _started(home, order, 0)
        runs = [_started(home, order, 0) for _ in range(STARTS)]
        _, _, answers_ms = _started(home, order, ANSWERS)
        return _Taken([start for start, _, _ in runs], [opening for _, opening, _ in runs], first_ms, answers_ms)


def _started(home: Path, order: Order, answers: int) -> tuple[float, float, list[float]]:
    command = [sys.executable, "-c", ONE_START, f"{order}.toml", str(answers)]
    environment = Person(home).environment()
    done = subprocess.run(command, cwd=home, env=environment, capture_output=True, text=True, check=True)
    started_ms, opening_ms, answers_ms = json.loads(done.stdout.splitlines()[-1])
    return started_ms, opening_ms, answers_ms


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
    """Each of nine sums out of the hundred below a hundred and nine, finished, two a day, by one pupil who learns."""
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
            for said in asked_of(pupil, cell, grid.sum_at(cell), began_at.date()):
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
