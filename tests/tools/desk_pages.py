"""`python -m tests.tools.desk_pages [ANSWERS...]`: how long the desk takes for each page of one school of 300 made-up
pupils with so many answers kept, 2,000, 20,000 and 200,000 unless said. Times are those of the program alone, without
browser and network: by the clock, which is longer on a busy machine, and of the processor.
"""

import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from statistics import median
from uuid import uuid5

from saythesum.core.records.rows import Answer, Row
from saythesum.office.pupils import add_pupil
from saythesum.ports import StoredPractice
from saythesum.store.records import SqliteStore
from tests.desk.application import Application
from tests.office.places import home_in
from tests.tools.bench.growing import made_practices

PUPILS = 300
ANSWERS = (2_000, 20_000, 200_000)
AIM_MS = 300
ASKED = 5
THEN = datetime(2026, 1, 5, 8, tzinfo=UTC)
PATHS = (
    "/",
    "/pupils/",
    "/pupils/boat-7/",
    "/pupils/boat-7/settings",
    "/pupils/boat-7/target",
    "/pupils/boat-7/practices/",
    "{practice}",
    "/pupils/boat-7/afterwards/",
    "/pupils/boat-7/report/review",
    "/pupils/boat-7/report/parent",
    "/class",
    "/pupils/boat-7/erase",
    "/grids/",
    "/grids/ferry/",
    "/grids/new?for=boat-7",
    "/grids/ferry/sheet",
    "/plans/",
    "/plans/form",
    "/records",
    "/help/",
)


def school(home: Path) -> None:
    places = home_in(home)
    for number in range(PUPILS):
        add_pupil(places, f"boat-{number}", THEN)


def fill(home: Path, practices: Iterator[tuple[StoredPractice, Sequence[Row]]], answers: int) -> int:
    """Whole practices, one after the other to each pupil in turn. How many answers were added."""
    added = 0
    with closing(SqliteStore(home / "records.sqlite")) as store:
        store.connection.execute("BEGIN")  # one sync for all of them
        while added < answers:
            practice, rows = next(practices)
            mine = replace(practice, id=uuid5(practice.id, "school"), pupil=f"boat-{practice.seed % PUPILS}")
            store.begin(mine)
            for row in rows:
                store.keep(mine.id, row, at=mine.began_at, at_ms=0)
            added += sum(isinstance(row, Answer) for row in rows)
        store.connection.execute("COMMIT")
    return added


def times_ms(app: Application, path: str) -> tuple[float, float]:
    """The medians by the clock and of the processor. The first time is left out: templates are read then."""
    taken = []
    for _ in range(ASKED + 1):
        began, worked = time.perf_counter(), time.process_time()
        answer = app.asks(path)
        taken.append(((time.perf_counter() - began) * 1000, (time.process_time() - worked) * 1000))
        assert answer.status_code == 200, f"{path}: {answer.status_code}"
    by_clock, of_processor = zip(*taken[1:], strict=True)
    return median(by_clock), median(of_processor)


def main(answers: Sequence[int]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        school(home)
        practices = made_practices()
        kept = 0
        for most in answers:
            kept += fill(home, practices, most - kept)
            app = Application(home)
            page = app.asks("/pupils/boat-7/practices/").get_data(as_text=True)
            practice = page.split('href="/pupils/boat-7/practices/')[1].split('"')[0]
            for path in PATHS:
                where = path.format(practice=f"/pupils/boat-7/practices/{practice}")
                by_clock, of_processor = times_ms(app, where)
                missed = "" if by_clock <= AIM_MS else f" (aim {AIM_MS})"
                print(f"{kept} answers, {path}: {by_clock:.0f} ms{missed}, processor {of_processor:.0f} ms", flush=True)


if __name__ == "__main__":
    main([int(one) for one in sys.argv[1:]] or ANSWERS)
