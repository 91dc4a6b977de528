"""`python -m tests.tools.school_year [ANSWERS...]`: a made-up year of one school of 300 pupils, with so many answers in
all (2,000, 20,000 and 200,000 unless said), and how long the adult's questions of it take: medians of 5, in ms.
"""

import sys
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import closing
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from random import Random
from statistics import median
from time import perf_counter
from uuid import UUID, uuid5

from saythesum.app.setup.folders import Places, places
from saythesum.core.aims import Aim
from saythesum.core.grids.file_format import text_of
from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.records.codec import kind_of
from saythesum.core.records.rows import Ask, By, End, EndReason, Form, HeardId, Row, Settled, Support, row_id
from saythesum.core.records.times import utc_text
from saythesum.core.sums import Part
from saythesum.office.afterwards import doubtful, today_of
from saythesum.office.correcting import answers, practices
from saythesum.office.grids import list_grids
from saythesum.office.keeping import due
from saythesum.office.plans.today import for_today
from saythesum.office.plans.week import Day, DayPlan, WeekPlan
from saythesum.office.plans.weeks import list_plans, save_plan
from saythesum.office.pupils import add_pupil, changes, list_pupils, show_pupil
from saythesum.ports import StoredActivity
from saythesum.settings import Settings
from saythesum.store.codec import plan_as_text, row_as_text, settings_as_text
from saythesum.store.columns import insert_practice, insert_row
from saythesum.store.records import SqliteStore
from tests.core.made_sums import sum_at
from tests.learner.learners import answer

PUPILS = 300
SIZES = (2_000, 20_000, 200_000)
RUNS = 5
GRID = Grid("Rows of oars", (38, 57, 26), (3, 5, 8, 6))
_FAMILY = UUID("5b1f1b0e-30a2-4a84-8f0b-7d2f7a5f2f11")
_FIRST_DAY = datetime(2031, 9, 1, 9, tzinfo=UTC)
CODES = tuple(f"p-{number}" for number in range(PUPILS))


def main() -> None:
    sizes = [int(word) for word in sys.argv[1:]] or list(SIZES)
    found = [measured(size) for size in sizes]
    print(f"{'answers':<34}" + "".join(f"{size:>10,}" for size in sizes))
    for name in found[0]:
        print(f"{name:<34}" + "".join(f"{one[name]:>10.0f}" for one in found))


def measured(size: int) -> Mapping[str, float]:
    with tempfile.TemporaryDirectory() as folder:
        own = places({"SAYTHESUM_HOME": folder}, ())
        last = made(own, size)
        return {name: _median_ms(ask) for name, ask in questions(own, last)}


def questions(own: Places, last: date) -> Iterator[tuple[str, Callable[[], object]]]:
    """What the desk's pages ask of the office."""
    code = CODES[7]
    yield "all pupils", lambda: list_pupils(own)
    yield "one pupil", lambda: show_pupil(own, code)
    yield "changes of a pupil", lambda: changes(own, code, _FIRST_DAY)
    yield "whose time is over", lambda: due(own, last)
    yield "practices of a pupil", lambda: practices(own, code)
    newest = practices(own, code)[-1].id
    yield "answers of a practice", lambda: answers(own, newest)
    yield "today of a pupil", lambda: today_of(own, code, last)
    yield "not heard for sure today", lambda: doubtful(own, code, last)
    yield "all plans", lambda: list_plans(own)
    yield "planned for a pupil today", lambda: for_today(own, code, last)
    yield "all grids", lambda: list_grids(own)


def _median_ms(ask: Callable[[], object]) -> float:
    times = []
    for _ in range(RUNS):
        begun = perf_counter()
        ask()
        times.append(1000 * (perf_counter() - begun))
    return median(times)


def made(own: Places, size: int) -> date:
    """The last day."""
    for code in CODES[:10]:
        add_pupil(own, code, _FIRST_DAY, {"speech.rate_wpm": "120"})
    with closing(SqliteStore(own.records_file)) as store:
        store.connection.execute("BEGIN")
        in_all, number = 0, 0
        while in_all < size:
            code, visit = CODES[number % PUPILS], number // PUPILS
            at = _FIRST_DAY + timedelta(days=visit, minutes=number % PUPILS)
            in_all += _practice(store, number, code, at)
            number += 1
        store.connection.execute("COMMIT")
    week = WeekPlan(CODES[:10], {Day.MONDAY: DayPlan(("ferry", "probe")), Day.FRIDAY: DayPlan(("choice",))})
    save_plan(own, "harbour", week, _FIRST_DAY)
    return (_FIRST_DAY + timedelta(days=(number - 1) // PUPILS)).date()


def _practice(store: SqliteStore, number: int, code: str, at: datetime) -> int:
    """How many answers it has."""
    id = uuid5(_FAMILY, str(number))
    plan = plan_as_text([StoredActivity(Aim.PRACTISE, text_of(GRID))])
    head = (number + 1, str(id), code, utc_text(at), plan, number, _SETTINGS, "0.1.0", "practise")
    insert_practice(store.connection, head)
    rows = tuple(_rows(id, number))
    for serial, row in enumerate(rows):
        time = utc_text(at + timedelta(seconds=5 * serial))
        insert_row(store.connection, (str(id), serial, row.id, kind_of(row), time, 5_000 * serial, row_as_text(row)))
    return len(rows) // 2


_SETTINGS = settings_as_text(Settings())


def _rows(practice: UUID, seed: int) -> Iterator[Row]:
    """Each sum asked and answered once, seven in ten rightly, by voice, one in twelve not for sure."""
    dice = Random(seed)
    count = 0
    for cell in (Cell(row, column) for row in range(len(GRID.starts)) for column in range(len(GRID.amounts))):
        asked = sum_at(GRID, cell)
        yield Ask(
            row_id(practice, count), cell.row, cell.column, Part.WHOLE, Support.INDEPENDENT, None, form=Form.FRESH
        )
        given = asked.total if dice.random() < 0.7 else asked.total - 10
        heard = HeardId(str(uuid5(practice, f"heard {count}")))
        said = answer(asked, given, cell=cell, id=row_id(practice, count + 1))
        certainty, sure = (0.6, False) if dice.random() < 1 / 12 else (0.97, True)
        yield replace(said, by=By.VOICE, heard=heard, certainty=certainty, sure=sure, settled=Settled.SAID_BACK)
        count += 2
    yield End(row_id(practice, count), count // 2, count // 3, EndReason.FINISHED)


if __name__ == "__main__":
    main()
