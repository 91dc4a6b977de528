"""How long reports take: `python -m tests.tools.reports`. Medians of three, in seconds of processor time."""

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import process_time
from uuid import UUID, uuid5

from saythesum.app.setup.folders import Places
from saythesum.core.grids.file_format import text_of
from saythesum.core.grids.grid import Cell
from saythesum.core.records.rows import By, Row, Support
from saythesum.core.records.times import utc_text
from saythesum.office.papers.reporting import class_lines, source_of
from saythesum.ports import StoredPractice
from saythesum.publishing.reports.forms import page_html
from saythesum.reports.review.class_page import class_page
from saythesum.reports.review.review import counted, review
from saythesum.reports.review.source import Period
from saythesum.settings import Settings
from saythesum.store.codec import plan_as_text, row_as_text, settings_as_text
from saythesum.store.columns import insert_practice, insert_row
from saythesum.store.records import SqliteStore
from tests.office.places import home_in
from tests.reports.review.harbour import FERRY, Rows

_FAMILY = UUID("f3c1b5aa-0d3e-4d55-9f0e-8d3a5e0b7c11")
BEGAN = datetime(2031, 1, 6, 9, 30, tzinfo=UTC)
PERIOD = Period(date(2031, 1, 1), date(2032, 12, 31), date(2032, 12, 31))


def _practice(id: UUID) -> list[Row]:
    """Ten sums, some missed and ended with help: about 15 answers."""
    made = Rows(id, By.KEYS)
    for row in range(5):
        made.right(FERRY, Cell(row, 0))
        made.helped(FERRY, Cell(row, 1), 12, Support.ASKED)
    made.end()
    return made.rows


def fill(home: Places, pupils: int, practices: int) -> int:
    """How many answers each pupil has."""
    store = SqliteStore(home.records_file)
    connection = store.connection
    connection.execute("BEGIN")
    answers = 0
    number = 0
    for pupil in range(pupils):
        answers = 0
        for place in range(practices):
            number += 1
            id = uuid5(_FAMILY, f"{pupil} {place}")
            at = utc_text(BEGAN + timedelta(days=place % 500))
            stored = StoredPractice(id, f"p-{pupil}", at, text_of(FERRY), 1, Settings(), "0.1.0")
            head = (stored.pupil, at, plan_as_text(stored.activities), 1, settings_as_text(Settings()), "0.1.0")
            insert_practice(connection, (number, str(id), *head, "practise"))
            rows = _practice(id)
            answers += sum(type(row).__name__ == "Answer" for row in rows)
            for serial, row in enumerate(rows):
                kind = type(row).__name__.lower()
                insert_row(connection, (str(id), serial, row.id, kind, at, 0, row_as_text(row)))
    connection.execute("COMMIT")
    store.close()
    return answers


def timed(work: Callable[[], object]) -> tuple[float, float]:
    """The first time, and the median of three more."""
    times = []
    for _ in range(4):
        began = process_time()
        work()
        times.append(process_time() - began)
    return times[0], median(times[1:])


if __name__ == "__main__":
    for practices in (134, 1334):
        with TemporaryDirectory() as folder:
            home = home_in(Path(folder))
            answers = fill(home, 1, practices)
            first, usual = timed(lambda: page_html(review(counted(source_of(home, "p-0"), PERIOD))))  # noqa: B023
            print(f"review of {answers} answers: first {first:.2f} s, then {usual:.2f} s")
    with TemporaryDirectory() as folder:
        home = home_in(Path(folder))
        fill(home, 300, 10)
        first, usual = timed(lambda: page_html(class_page(tuple(class_lines(home, PERIOD.on)), PERIOD.on)))
        print(f"class page of 300 pupils, 10 practices each: first {first:.2f} s, then {usual:.2f} s")
