"""What it costs to keep up with a pupil, in time of this processor."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from random import Random
from time import process_time

from saythesum.core.records.rows import Ask, Row, RowId
from saythesum.learner.pupil import Pupil
from saythesum.learner.replay import Kept, KnownSoFar, learned
from saythesum.learner.selection import choose
from tests.core.mistakes.separation import BRIDGING_SUMS
from tests.learner.believers import most_telling
from tests.learner.learners import CELLS, FIRST_DAY, asked_of, learner


def made_rows(count: int, seed: int) -> list[Kept]:
    """A pupil who meets new sums now and then: three answers in four or so are right."""
    dice = Random(seed)
    at = datetime(FIRST_DAY.year, FIRST_DAY.month, FIRST_DAY.day, 9, tzinfo=UTC)
    pupil = learner(f"{seed}", 0.5)
    rows: list[Kept] = []
    while len(rows) < count:
        if len(rows) % 4000 < 2:
            pupil = learner(f"{seed} {len(rows)}", 0.5)
        cell = dice.choice(list(CELLS))
        for said in asked_of(pupil, cell, CELLS[cell], at.date()):
            ask: Row = Ask(RowId(f"ask {len(rows)}"), cell.row, cell.column, said.part, said.support, None)
            rows += [Kept(ask, at), Kept(replace(said, id=RowId(f"answer {len(rows)}")), at)]
            at += timedelta(seconds=10)
        if dice.random() < 0.05:
            at += timedelta(days=2)
    return rows[:count]


def cost() -> None:
    print("== Cost, in seconds of this processor (aims: posterior 5 ms, next cell 20 ms, 100,000 rows 2 s)")
    rows = made_rows(100_000, 1)
    began = process_time()
    pupil = learned(rows)
    print(f"{len(rows)} rows replayed: {process_time() - began:.2f} s")
    day = rows[-1].at.date()
    diagnosis = pupil.diagnosis()
    print(f"posterior: {_each_ms(pupil.diagnosis, 200):.2f} ms")
    print(f"next cell of {len(CELLS)}: {_each_ms(lambda: choose(pupil, CELLS, day), 100):.2f} ms")
    print(
        f"most telling of {len(BRIDGING_SUMS)}: {_each_ms(lambda: most_telling(BRIDGING_SUMS, diagnosis), 50):.2f} ms"
    )
    more = tuple(kept.row for kept in made_rows(2000, 2))
    for so_far in (200, 100_000, 2_000_000):
        known = KnownSoFar(_after_rows(so_far, rows), rows[-1].at + timedelta(days=30_000), ())
        began = process_time()
        for count in range(1, len(more) + 1):
            known.after(more[:count])
        print(f"one more row after {so_far} rows: {1000 * (process_time() - began) / len(more):.3f} ms")


def _after_rows(count: int, rows: Sequence[Kept]) -> Pupil:
    pupil = learned(rows[: min(count, len(rows))])
    for again in range(1, count // len(rows)):
        pupil = learned((replace(kept, at=kept.at + timedelta(days=1000 * again)) for kept in rows), pupil)
    return pupil


def _each_ms(work: Callable[[], object], times: int) -> float:
    began = process_time()
    for _ in range(times):
        work()
    return 1000 * (process_time() - began) / times
