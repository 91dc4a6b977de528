"""Which pattern of a finished grid is worth finding for this pupil, and why, from the rows alone.

The stages of teaching come one after the other, a new one on a new day; within a stage it is the pattern that bears on
most cells that were missed or helped with. That order is our own choice; that patterns of amounts come before those of
starts, ones and diagonals is common practice.
"""

from collections.abc import Iterable, Set
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.patterns.finding import patterns_of
from saythesum.core.patterns.grid_pattern import ColumnsApart, GridPattern, RowsApart, Stage
from saythesum.core.patterns.moves import cells_heard
from saythesum.core.records.rows import UNAIDED, Answer, Ask, Row
from saythesum.core.sums import CLOSING_PARTS
from saythesum.learner.evidence import Tells, tells


class WorthReason(StrEnum):
    MISSED = "missed"
    """It bears on cells that were missed or helped with."""
    NEXT = "next"
    """No pattern of its stage does; it is the next in the order of teaching."""


@dataclass(frozen=True, slots=True)
class WhyFound:
    """For the adult and the log: one sentence is made of it."""

    reason: WorthReason
    bears_on: int
    """Cells that were missed or helped with, and that it is about."""
    missed: int
    """All cells of the grid that were missed or helped with."""


@dataclass(frozen=True, slots=True)
class WorthFinding:
    pattern: GridPattern
    why: WhyFound


@dataclass(frozen=True, slots=True)
class Talked:
    """A pattern that was talked about, as its rows name it."""

    name: str
    lines: tuple[int, ...]
    on: date


def talks_in(rows: Iterable[tuple[Row, datetime]]) -> tuple[Talked, ...]:
    """One after the other, from live rows with their times: a talk's questions name its pattern."""
    found: list[Talked] = []
    for row, at in rows:
        if isinstance(row, Ask) and row.about is not None and row.lines:
            talked = Talked(row.about, row.lines, at.date())
            found += [talked] if not found or found[-1] != talked else []
    return tuple(found)


def worth_finding(
    grid: Grid,
    rows: Iterable[Row],
    before: tuple[Talked, ...],
    on: date,
    *,
    activity: int = 0,
    readable: Set[Cell] | None = None,
) -> WorthFinding | None:
    """`rows`: the live ones of the practice; `activity`: the grid's place in it; `before`: all talks so far, the newest
    last; `readable`: the cells whose numbers may be read out, None where all may. Gives None where the grid has no
    pattern but the one that was just talked about."""
    last = before[-1] if before else None
    found = [one for one in patterns_of(grid) if last is None or (one.name, one.lines) != (last.name, last.lines)]
    if readable is not None:
        found = [one for one in found if cells_heard(grid, one) <= readable]
    if not found:
        return None
    missed = missed_cells(rows, activity)

    def rank(pattern: GridPattern) -> tuple[bool, int, float, bool]:
        borne = len(pattern.cells & missed)
        is_same_kind = last is not None and pattern.name == last.name
        return _is_plain(pattern), -borne, -borne / len(pattern.cells), is_same_kind

    best = min(_of_the_day(found, before, on), key=rank)
    bears_on = len(best.cells & missed)
    reason = WorthReason.MISSED if bears_on else WorthReason.NEXT
    return WorthFinding(best, WhyFound(reason, bears_on, len(missed)))


def missed_cells(rows: Iterable[Row], activity: int) -> frozenset[Cell]:
    """Those with a wrong answer that counts, or with an answer that was helped with."""
    return frozenset(
        Cell(*row.place) for row in rows if isinstance(row, Answer) and row.activity == activity and _is_missed(row)
    )


def _is_missed(answer: Answer) -> bool:
    if answer.row is None or answer.column is None:
        return False
    is_wrong = answer.part in CLOSING_PARTS and not answer.right and tells(answer) is Tells.THE_SUM
    return is_wrong or answer.support not in UNAIDED


def _is_plain(pattern: GridPattern) -> bool:
    """Two lines that are the same throughout: there is little to find out."""
    return isinstance(pattern, ColumnsApart | RowsApart) and pattern.by == 0


def _of_the_day(found: list[GridPattern], before: tuple[Talked, ...], on: date) -> list[GridPattern]:
    """Those of the day's stage. If the grid has none of it: of the nearest stage before it, else after it."""
    due = _due(before, on)
    if due is None:
        return found
    here = {one.stage for one in found}
    stage = max((one for one in here if one <= due), default=min(here))
    return [one for one in found if one.stage is stage]


def _due(before: tuple[Talked, ...], on: date) -> Stage | None:
    """The stage after the furthest that was talked about on an earlier day; None once there has been one of each."""
    furthest = max((_STAGES[one.name] for one in before if one.on < on and one.name in _STAGES), default=None)
    if furthest is None:
        return Stage.AMOUNTS
    return Stage(furthest + 1) if furthest < max(Stage) else None


_STAGES = {kind.name: kind.stage for kind in GridPattern.__subclasses__()}
