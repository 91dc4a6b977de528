"""Which cell is asked next, by the aim of its activity, and why it was chosen."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from saythesum.core.aims import Aim
from saythesum.core.grids.facts import FEW_ASKED
from saythesum.core.grids.grid import Cell, Order
from saythesum.core.records.rows import Ask, End, EndReason, Form, Reason, RowId, Support
from saythesum.core.sums import Part
from saythesum.dialogue import messages as say
from saythesum.dialogue.tutor.broken_facts import facts_asked_in_a_row, is_among_facts
from saythesum.dialogue.tutor.hard_going import EVERY_REST, hard_goings
from saythesum.dialogue.tutor.pattern_talk import first_of_talk, found_in
from saythesum.dialogue.tutor.plan import Activity, Plan
from saythesum.dialogue.tutor.progress import (
    Progress,
    cell_of,
    ended,
    known,
    known_here,
    opens_visit,
)
from saythesum.learner.assessment import finding_out
from saythesum.learner.selection import WhyChosen, band_of, choose, why_it_broke, why_it_tells_most
from saythesum.learner.worth_finding import WorthFinding

MOST_LEAVINGS = 2
"""A cell that was skipped comes back once; skipped again, it waits for another day."""

Because: TypeAlias = RowId | Reason | None


@dataclass(frozen=True, slots=True)
class Chosen:
    """The cell, or the pattern to talk about, was chosen for a reason that an adult may want to know."""

    ask: Ask
    why: WhyChosen | WorthFinding


@dataclass(frozen=True, slots=True)
class NothingLeft:
    """There is nothing more to ask."""


@dataclass(frozen=True, slots=True)
class TalkOver:
    """A talk about a pattern has come to its end."""

    said: tuple[say.Message, ...]
    then: Ask | Chosen | NothingLeft


Next: TypeAlias = Ask | Chosen | NothingLeft


def next_cell(plan: Plan, progress: Progress, because: Reason | None) -> Next:
    """The next question of the current activity; when that is over, the first of the following one.

    A finished practice that is started again asks the cells that any of its activities left for another day.
    """
    is_over = ended(progress) is EndReason.FINISHED
    if not is_over and is_among_facts(plan, progress):
        next = next_fact(plan.activity_on(progress.ask), plan, progress, because)
        if not isinstance(next, NothingLeft):
            return next
    on = 0 if is_over else activity_reached(plan, progress)
    for activity in plan.activities[on:]:
        next = _next_in(activity, plan, progress, because)
        if not isinstance(next, NothingLeft):
            return next
    return NothingLeft()


def activity_reached(plan: Plan, progress: Progress) -> int:
    """The place of the plan's own activity that was asked from last."""
    asked = (row.activity for row in reversed(progress.live) if isinstance(row, Ask) and not plan.is_aside(row))
    return next(asked, 0)


def _next_in(activity: Activity, plan: Plan, progress: Progress, because: Reason | None) -> Next:
    match activity.aim:
        case Aim.PRACTISE:
            return _of_a_grid(activity, plan, progress, because)
        case Aim.PROBE:
            cells = _not_asked_yet(activity, progress)
            return cell_asked(plan, progress, cells[0], because) if cells else NothingLeft()
        case Aim.FIND_OUT:
            return _telling_most(activity, plan, progress, because)
        case Aim.FACTS:
            return _of_facts(activity, plan, progress, because)
        case Aim.TALK:
            return NothingLeft() if progress.has_talked_about(activity.place) else talk_begun(plan, progress, activity)


def talk_begun(plan: Plan, progress: Progress, activity: Activity) -> Chosen | NothingLeft:
    """The first question of a talk about this activity's grid, where it has a pattern to talk about."""
    found = found_in(plan, progress, activity.place)
    if found is None:
        return NothingLeft()
    return Chosen(first_of_talk(plan, progress, activity.place, found), found)


def cell_asked(plan: Plan, progress: Progress, cell: Cell, because: Because) -> Ask:
    """The whole sum, in the words of the first visit; after help with it, it is a fresh look and not unaided."""
    id = plan.next_id(progress.kept)
    support = Support.ENCOURAGED if cell in progress.helped else Support.INDEPENDENT
    asked = plan.exercise_at(cell)
    return Ask(
        id,
        cell.row,
        cell.column,
        Part.WHOLE,
        support,
        because,
        activity=cell.activity,
        exercise=asked.name,
        hidden=asked.hidden,
        form=form_at(plan, progress, cell, because),
    )


def form_at(plan: Plan, progress: Progress, cell: Cell, because: Because) -> Form:
    """The form of a question for a new cell, by what was asked before it."""
    before = progress.ask
    asked = progress.asked_in(cell.activity)
    if plan.is_aside(cell):
        return Form.FRESH
    if before is None or not asked:
        return Form.FIRST
    activity = plan.activity_of(cell)
    if not activity.aim.has_grid:
        return Form.FRESH
    if plan.is_aside(before):
        return Form.BACK_TO_SUMS
    here = cell_of(before)
    if not activity.has_grid:
        is_back = because is not Reason.MOVED and _is_come_back_to(cell, asked) and here != cell
        return Form.BACK if is_back else Form.FRESH
    if because is not Reason.MOVED and _is_come_back_to(cell, asked):
        return Form.BACK_IN_ROW if here.row == cell.row else Form.BACK
    if here.row != cell.row:
        is_by_rows = activity.grid.order is Order.ROWS and because is not Reason.MOVED
        is_new = is_by_rows and not any(one.row == cell.row for one in asked)
        return Form.NEW_ROW if is_new else Form.FRESH
    if here == cell or _has_ended_since_asked(progress):
        return Form.FRESH
    return Form.NEXT_ALONG if here.column + 1 == cell.column else Form.SAME_ROW


def _is_come_back_to(cell: Cell, asked: frozenset[Cell]) -> bool:
    """The tool comes back to it; a pupil who moves there knows."""
    return cell in asked and len(asked) > 1


def _has_ended_since_asked(progress: Progress) -> bool:
    last = next((row for row in reversed(progress.live) if isinstance(row, Ask | End)), None)
    return isinstance(last, End)


def _of_a_grid(activity: Activity, plan: Plan, progress: Progress, because: Reason | None) -> Next:
    """The next open cell in the plan's order; skipped cells come back once, after all others.

    A cell whose answer the tool has just said is not asked next: the pupil would only repeat it.
    """
    here = _place_in_order(progress, activity)
    at = activity.cells.index(here) if here in activity.cells else -1
    ahead = activity.cells[at + 1 :] + activity.cells[: at + 1]
    left = Counter(progress.left)
    if because is Reason.SKIPPED and here in activity.cells and not is_among_facts(plan, progress):
        is_told = progress.ask is not None and progress.ask.support is Support.MODELLED
        ahead = ahead[:-1] if is_told else ahead
        left[here] += 1
    for times in range(MOST_LEAVINGS):
        cells = [cell for cell in ahead if cell not in progress.closed and left[cell] == times]
        if cells:
            easier = _easier(plan, progress, cells, because)
            return easier or _first_or_chosen(plan, progress, cells, because)
    return NothingLeft()


def _place_in_order(progress: Progress, activity: Activity) -> Cell:
    """An easier sum that came between is no place in it: the practice goes back to where it was."""
    for row in reversed(progress.live):
        if not isinstance(row, Ask) or row.activity != activity.place:
            continue
        if opens_visit(row) and row.form is not Form.EASIER:
            return cell_of(row)
    return activity.cells[-1]


def _easier(plan: Plan, progress: Progress, cells: Sequence[Cell], because: Reason | None) -> Ask | None:
    """After several sums that did not go well, the one of those left that is likeliest to, where it is not next
    anyway."""
    if because is Reason.MOVED or hard_goings(progress) % EVERY_REST == 0:
        return None
    pupil, day = known(plan, progress), plan.began_at.date()

    def ease(cell: Cell) -> tuple[float, int, int]:
        asked = plan.exercise_at(cell)
        return (round(pupil.chance(asked, day), 3), -asked.place_in_teaching, -asked.amount)

    easiest = max(cells, key=ease)
    if ease(easiest) <= ease(cells[0]):
        return None
    return replace(cell_asked(plan, progress, easiest, because), form=Form.EASIER)


def _first_or_chosen(plan: Plan, progress: Progress, cells: Sequence[Cell], because: Reason | None) -> Next:
    """Where the order is by what the pupil needs, the cell that helps most."""
    if plan.activity_of(cells[0]).grid.order is not Order.CHOSEN:
        return cell_asked(plan, progress, cells[0], because)
    open_cells = {cell: plan.exercise_at(cell) for cell in cells}
    band = band_of(plan.settings.choosing)
    choice = choose(known(plan, progress), open_cells, plan.began_at.date(), band)
    return Chosen(cell_asked(plan, progress, choice.cell, because), choice.why)


def _telling_most(activity: Activity, plan: Plan, progress: Progress, because: Reason | None) -> Next:
    """Answers of other days are left aside: this practice finds out for itself."""
    pupil, asked = known_here(plan, progress), progress.asked_in(activity.cells[0].activity)
    if finding_out.is_over(pupil.evidence, len(asked)):
        return NothingLeft()
    open_cells = {plan.exercise_at(cell): cell for cell in _not_asked_yet(activity, progress)}
    before = [plan.exercise_at(cell) for cell in asked]
    telling = finding_out.next_to_ask(tuple(open_cells), pupil.evidence, before)
    mistakes = finding_out.in_question(telling, pupil.evidence)
    why = why_it_tells_most(pupil, telling, plan.began_at.date(), mistakes)
    return Chosen(cell_asked(plan, progress, open_cells[telling], because), why)


def _of_facts(activity: Activity, plan: Plan, progress: Progress, because: Reason | None) -> Next:
    """Those that help most, each once."""
    left = _not_asked_yet(activity, progress)
    if not left or len(progress.asked_in(activity.place)) >= (activity.most or len(activity.cells)):
        return NothingLeft()
    return _first_or_chosen(plan, progress, left, because)


def next_fact(activity: Activity, plan: Plan, progress: Progress, because: Reason | None) -> Next:
    """Of facts that the sums led back to, the one that is least likely known."""
    is_on = progress.ask is not None and progress.ask.activity == activity.place
    left = _not_asked_yet(activity, progress)
    if not left or (is_on and facts_asked_in_a_row(progress) >= FEW_ASKED):
        return NothingLeft()
    pupil, day = known(plan, progress), plan.began_at.date()
    cell = min(left, key=lambda cell: round(pupil.belief(plan.exercise_at(cell).item).known, 6))
    why = why_it_broke(pupil, plan.exercise_at(cell), day)
    return Chosen(cell_asked(plan, progress, cell, because), why)


def _not_asked_yet(activity: Activity, progress: Progress) -> list[Cell]:
    """Each sum comes once, even if it was left unanswered."""
    asked = progress.asked_in(activity.cells[0].activity)
    return [cell for cell in activity.cells if cell not in asked]
