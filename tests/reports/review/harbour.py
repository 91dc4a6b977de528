"""A scenario of our own: a pupil of a harbour school over three months, two probes, 24 practices offered of which two
were not done, by keys and by voice, five answers taken back, and a target that was met on two of three days."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, timedelta
from random import Random
from uuid import UUID, uuid5

from saythesum.core.aims import Aim
from saythesum.core.grids.file_format import grid_from, text_of
from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.records.rows import (
    Answer,
    Ask,
    By,
    End,
    EndReason,
    HeardId,
    Note,
    NoteKind,
    Purpose,
    Reason,
    Row,
    Settled,
    Support,
    Void,
    VoidReason,
    row_id,
)
from saythesum.core.records.times import utc_text
from saythesum.core.sums import Part
from saythesum.office.places import Places
from saythesum.office.plans.today import not_done
from saythesum.office.pupils import Target, add_pupil, change_pupil, set_target
from saythesum.ports import StoredPractice
from saythesum.settings import Settings, Window
from saythesum.store.records import SqliteStore

PUPIL = "rk-7"
FIRST, LAST, ON = date(2031, 1, 6), date(2031, 4, 8), date(2031, 4, 8)
FERRY = grid_from('title = "Seats on the ferry"\nadd = [5, 8]\nstart = [47, 59, 36, 28, 17]\n')
BAKERY = grid_from('title = "Rolls in the bakery"\nadd = [3, 6]\ntake = [4, 7]\nstart = [41, 63, 85]\n')
_FAMILY = UUID("2f6d1c3a-7a51-4f0e-9d0c-5a1f1f2f0b77")
NOT_DONE = {date(2031, 2, 11): "unwell", date(2031, 3, 4): "no quiet place"}
TARGET_SET = date(2031, 3, 20)
TARGET_DAYS = {date(2031, 3, 25): 9, date(2031, 3, 27): 6, date(2031, 4, 3): 8}
"""Right unaided of the ferry's ten sums."""


@dataclass
class Rows:
    """One practice in the making."""

    practice: UUID
    by: By
    purpose: Purpose = Purpose.PRACTICE
    rows: list[Row] = field(default_factory=list)

    def ask(self, cell: Cell, part: Part, support: Support, because: object = None) -> None:
        self.rows.append(Ask(self._id, cell.row, cell.column, part, support, because))  # type: ignore[arg-type]

    def answer(self, grid: Grid, cell: Cell, given: int, part: Part, support: Support, **more: object) -> Answer:
        asked = grid.exercise_at(cell)
        right = asked.answer_to(part)
        is_voice = self.by is By.VOICE
        answer = Answer(
            *(self._id, cell.row, cell.column, asked.start, asked.amount, part, right, given, given == right),
            support=support,
            tries=1,
            certainty=0.95 if is_voice else None,
            close_to=(),
            heard=HeardId(f"h{len(self.rows)}"),
            took_ms=4000 + 100 * len(self.rows),
            could_be=(),
            by=self.by,
            settled=Settled.SAID_BACK if is_voice else Settled.KEYS,
            sure=True,
            operation=asked.operation,
            purpose=self.purpose,
        )
        answer = replace(answer, **more)  # type: ignore[arg-type]
        self.rows.append(answer)
        return answer

    def right(self, grid: Grid, cell: Cell) -> Answer:
        self.ask(cell, Part.WHOLE, Support.INDEPENDENT)
        return self.answer(grid, cell, grid.exercise_at(cell).total, Part.WHOLE, Support.INDEPENDENT)

    def helped(self, grid: Grid, cell: Cell, given: int, level: Support) -> None:
        """A wrong answer, then the steps, then the total with that help."""
        self.ask(cell, Part.WHOLE, Support.INDEPENDENT)
        wrong = self.answer(grid, cell, given, Part.WHOLE, Support.INDEPENDENT)
        self.ask(cell, Part.TOTAL, level, wrong.id)
        self.answer(grid, cell, grid.exercise_at(cell).total, Part.TOTAL, level)

    def called_for_help(self, grid: Grid, cell: Cell) -> None:
        self.ask(cell, Part.WHOLE, Support.INDEPENDENT)
        self.ask(cell, Part.TOTAL, Support.ASKED, Reason.HELP)
        self.answer(grid, cell, grid.exercise_at(cell).total, Part.TOTAL, Support.ASKED)

    def misheard(self, grid: Grid, cell: Cell) -> None:
        """Taken back by the pupil, and then right."""
        self.ask(cell, Part.WHOLE, Support.INDEPENDENT)
        wrong = self.answer(grid, cell, grid.exercise_at(cell).total + 10, Part.WHOLE, Support.INDEPENDENT)
        self.rows.append(Void(self._id, wrong.id, VoidReason.NOT_SAID))
        self.right(grid, cell)

    def unsure(self, grid: Grid, cell: Cell) -> None:
        """Wrong, and easily confused with another number."""
        self.ask(cell, Part.WHOLE, Support.INDEPENDENT)
        total = grid.exercise_at(cell).total
        self.answer(grid, cell, total - 10, Part.WHOLE, Support.INDEPENDENT, close_to=(total,))

    def end(self) -> None:
        self.rows.append(End(self._id, 0, 0, EndReason.FINISHED))

    def note(self, what: NoteKind, value: str, of: Answer | None = None) -> None:
        self.rows.append(Note(self._id, of.id if of else None, what, value))

    @property
    def _id(self):  # type: ignore[no-untyped-def]
        return row_id(self.practice, len(self.rows))


def days() -> tuple[date, ...]:
    """22 days of practice, and two on which what was offered was not done."""
    regular = [date(2031, 1, 9) + timedelta(days=7 * week + extra) for week in range(10) for extra in (0, 5)]
    kept = [day for day in regular if day not in NOT_DONE and day < TARGET_SET][:19]
    return tuple(sorted({*kept, date(2031, 1, 22), *TARGET_DAYS}))


def practices() -> Iterator[tuple[StoredPractice, date, tuple[Row, ...]]]:
    yield _probe(date(2031, 1, 7), right=3)
    for number, day in enumerate(days()):
        grid = FERRY if number % 2 == 0 or day in TARGET_DAYS else BAKERY
        made = Rows(uuid5(_FAMILY, f"{day}"), By.KEYS if number % 3 else By.VOICE)
        _fill(made, grid, number, TARGET_DAYS.get(day))
        made.end()
        yield _stored(made, grid, day, Aim.PRACTISE, 5 if number < 12 else 6), day, tuple(made.rows)
    yield _probe(date(2031, 4, 7), right=7)


def _fill(made: Rows, grid: Grid, number: int, exactly: int | None) -> None:
    dice = Random(number)
    cells = [Cell(row, column) for row in range(len(grid.starts)) for column in range(len(grid.amounts))]
    for place, cell in enumerate(cells):
        total = grid.exercise_at(cell).total
        if exactly is not None:
            if place < exactly:
                made.right(grid, cell)
            else:
                made.helped(grid, cell, total - 10, Support.ASKED)
        elif number < 5 and place == 0:
            made.misheard(grid, cell)
        elif made.by is By.VOICE and place == 1:
            made.unsure(grid, cell)
        elif dice.random() < 0.35 + number / 60:
            made.right(grid, cell)
        elif dice.random() < 0.2:
            made.called_for_help(grid, cell)
        else:
            level = Support.FIRST_STEP if number < 10 else Support.ASKED
            made.helped(grid, cell, total - 10, level)
    if number == 3:
        made.note(NoteKind.TEXT, "counted on <his> fingers & smiled")


def _probe(day: date, right: int) -> tuple[StoredPractice, date, tuple[Row, ...]]:
    made = Rows(uuid5(_FAMILY, f"probe {day}"), By.KEYS, Purpose.PROBE)
    cells = [Cell(row, column) for row in range(4) for column in range(2)]
    for place, cell in enumerate(cells):
        made.ask(cell, Part.WHOLE, Support.INDEPENDENT)
        total = FERRY.exercise_at(cell).total
        made.answer(FERRY, cell, total if place < right else total - 1, Part.WHOLE, Support.INDEPENDENT)
    made.end()
    return _stored(made, FERRY, day, Aim.PROBE, 5), day, tuple(made.rows)


def _stored(made: Rows, grid: Grid, day: date, aim: Aim, size: int) -> StoredPractice:
    return StoredPractice(
        id=made.practice,
        pupil=PUPIL,
        began_at=utc_text(_at(day)),
        grid_text=text_of(grid),
        seed=1,
        settings=Settings(window=Window(size=size)),
        program_version="0.1.0",
        aim=aim,
    )


def _at(day: date, second: int = 0) -> datetime:
    return datetime(day.year, day.month, day.day, 9, 30, tzinfo=UTC) + timedelta(seconds=second)


def keep_all(home: Places) -> None:
    add_pupil(home, PUPIL, _at(FIRST))
    store = SqliteStore(home.records_file)
    for stored, day, rows in practices():
        store.begin(stored)
        for second, row in enumerate(rows):
            store.keep(stored.id, row, at=utc_text(_at(day, second)), at_ms=1000 * second)
    store.close()
    for day, reason in NOT_DONE.items():
        not_done(home, PUPIL, day, reason, _at(day))
    set_target(
        home,
        PUPIL,
        Target("Adds five and eight across a ten", "Seats on the ferry", 8, 10, unaided=True, by=date(2031, 5, 1)),
        _at(TARGET_SET),
    )
    change_pupil(home, PUPIL, {"speech.rate_wpm": "120"}, _at(date(2031, 2, 3)))
