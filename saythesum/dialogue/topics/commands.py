"""One table of commands for all topics. A topic only lists the few that it suspends or answers itself."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from saythesum.core.aims import Aim
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.grids.grid import Cell
from saythesum.core.meanings import Awaiting, Command, HowHeard, Number
from saythesum.core.records.rows import Answer, By, EndReason, Reason, Support
from saythesum.core.sums import CLOSING_PARTS
from saythesum.dialogue import messages as say
from saythesum.dialogue.topics.answering import asked_again, ending, going_on, settle, void
from saythesum.dialogue.turns.context import View
from saythesum.dialogue.turns.stack import Paused, awaiting_for, topic_for
from saythesum.dialogue.turns.turn import Afresh, ListenFor, Turn
from saythesum.dialogue.tutor.next_cell import MOST_LEAVINGS, Chosen, Next, Over, cell_asked, next_cell
from saythesum.dialogue.tutor.next_step import help_with
from saythesum.dialogue.tutor.progress import answers_in, cell_of, is_help, with_row
from saythesum.learner.assessment.finding_out import MOST


def obey(command: Command, view: View) -> Turn:
    if command in _IN_A_GRID and not view.activity.aim.has_grid:
        return _told(view, say.OneByOne())
    return _TABLE[command](view)


# ---- hearing it again, waiting, stopping ---------------------------------------------------------


def _say_again(view: View) -> Turn:
    """The same words. Hearing the question again is not help, and is kept as such."""
    if view.ask.support is not Support.INDEPENDENT:
        return going_on(view.plan, view.progress, None, is_again=True)
    repeated = replace(view.ask, id=view.next_id(), support=Support.REPEATED)
    return going_on(view.plan, view.progress, repeated, is_again=True)


def _slower(view: View) -> Turn:
    return replace(_say_again(view), is_slower=True)


def _wait(view: View) -> Turn:
    return Turn(Afresh((topic_for(view.ask), Paused())), (say.Waiting(),), then=ListenFor(Awaiting.COMMAND))


def _hush(view: View) -> Turn:
    return Turn(Afresh((topic_for(view.ask),)), then=ListenFor(awaiting_for(view.ask)), hushes=True)


def _stop(view: View) -> Turn:
    is_missed = view.cell not in view.progress.closed and any(
        is_help(row) or (isinstance(row, Answer) and not row.right) for row in view.progress.visit
    )
    line = say.StopLine(view.asked if is_missed else None, len(view.progress.closed))
    return ending(view.plan, view.progress, EndReason.STOPPED, said=(line,))


# ---- help ------------------------------------------------------------------------------------------


def _dont_know(view: View) -> Turn:
    return _helped(view, Reason.DONT_KNOW)


def _help(view: View) -> Turn:
    return _helped(view, Reason.HELP)


def _helped(view: View, because: Reason) -> Turn:
    next = help_with(view.plan, view.progress, because, is_enough=view.is_enough_help)
    return going_on(view.plan, view.progress, next, said=(*_passed_over(view), *_left_open(view, next)))


def _left_open(view: View, next: Next) -> tuple[say.Message, ...]:
    """Who does not know even after the worked line goes on, and hears what becomes of this sum."""
    ask = next.ask if isinstance(next, Chosen) else next
    if view.ask.support is not Support.MODELLED or isinstance(ask, Over) or cell_of(ask) == view.cell:
        return ()
    return (say.LeftOpen(comes_back=view.progress.left.count(view.cell) + 1 < MOST_LEAVINGS),)


def _passed_over(view: View) -> tuple[say.Message, ...]:
    """In a probe whoever does not know goes on, and hears that this is fine."""
    return (say.PassedOver(),) if not view.activity.aim.is_helped else ()


# ---- taking back -----------------------------------------------------------------------------------


def _not_what_i_said(view: View) -> Turn:
    """Void the last number kept, and ask again what it answered."""
    answers = answers_in(view.progress.live)
    if not answers:
        return _told(view, say.NothingToTakeBack())
    undo = void(view, answers[-1])
    undone = replace(view, progress=with_row(view.progress, undo))
    is_by_voice = view.is_spoken and answers[-1].by is By.VOICE
    turn = asked_again(undone, said=(say.Misheard() if is_by_voice else say.TakenBack(),))
    return replace(turn, keep=(undo,))


def _said_first(view: View) -> Turn:
    """ "That's what I said first", after "Yes": where a first hearing may have been this number, it was unaided."""
    answers = answers_in(view.progress.live)
    last = answers[-1] if answers else None
    first = [answer for answer in answers if last and _is_first(answer, last, view)]
    if last is None or not first:
        return asked_again(view)
    undo = void(view, first[0])
    undone = replace(view, progress=with_row(view.progress, undo))
    number = Number(last.given, certainty=last.certainty, sure=last.sure, close_to=last.close_to)
    turn = settle(undone, number, HowHeard(last.by, last.heard, None), last.settled)
    return replace(turn, keep=(undo, *turn.keep), say=(say.Misheard(), *turn.say))


def _is_first(answer: Answer, last: Answer, view: View) -> bool:
    """Whether `answer` was taken for wrong, and may have been what `last` was taken for rightly."""
    is_whole = answer.part in CLOSING_PARTS and last.part in CLOSING_PARTS
    is_here = cell_of(answer) == cell_of(last) and is_whole
    return is_here and last.right and not answer.right and view.may_have_been(answer, last.given)


# ---- moving about the grid ---------------------------------------------------------------------------


def _skip(view: View) -> Turn:
    next = next_cell(view.plan, view.progress, Reason.SKIPPED)
    return going_on(view.plan, view.progress, next, said=_passed_over(view))


def _go_back(view: View) -> Turn:
    """To the nearest open cell before this one, in the order they are asked."""
    cells = view.activity.cells
    return _moved(view, reversed(cells[: cells.index(view.cell)]), Command.GO_BACK)


def _way(command: Command) -> Callable[[View], Turn]:
    def move(view: View) -> Turn:
        return _moved(view, _cells_that_way(view, command), command)

    return move


def _cells_that_way(view: View, way: Command) -> list[Cell]:
    """The cells in that direction, nearest first; from an end of the row, the first open one inwards."""
    here = view.cell
    columns, rows = len(view.activity.grid.amounts), len(view.activity.grid.starts)
    match way:
        case Command.LEFT:
            return [replace(here, column=column) for column in range(here.column - 1, -1, -1)]
        case Command.RIGHT:
            return [replace(here, column=column) for column in range(here.column + 1, columns)]
        case Command.UP:
            return [replace(here, row=row) for row in range(here.row - 1, -1, -1)]
        case Command.DOWN:
            return [replace(here, row=row) for row in range(here.row + 1, rows)]
        case Command.ROW_START:
            return [replace(here, column=column) for column in range(here.column)]
        case _:
            return [replace(here, column=column) for column in range(columns - 1, here.column, -1)]


def _moved(view: View, cells: Iterable[Cell], way: Command) -> Turn:
    for cell in cells:
        if cell not in view.progress.closed:
            return going_on(view.plan, view.progress, cell_asked(view.plan, view.progress, cell, Reason.MOVED))
    return _told(view, say.NoFurther(way))


# ---- being told ----------------------------------------------------------------------------------------


def _where_am_i(view: View) -> Turn:
    if not view.activity.aim.has_grid:
        return _told(view, _how_far(view))
    return _told(view, say.WhereYouAre(view.asked, _closed(view), len(view.activity.cells)))


def _read_row(view: View) -> Turn:
    columns = range(len(view.activity.grid.amounts))
    return _told(view, say.RowRead(tuple(_read(view, replace(view.cell, column=column)) for column in columns)))


def _read_column(view: View) -> Turn:
    rows = range(len(view.activity.grid.starts))
    return _told(view, say.ColumnRead(tuple(_read(view, replace(view.cell, row=row)) for row in rows)))


def _read(view: View, cell: Cell) -> tuple[Exercise, int | None]:
    asked = view.plan.exercise_at(cell)
    return asked, asked.total if cell in view.progress.closed else None


def _how_many_more(view: View) -> Turn:
    if not view.activity.aim.has_grid:
        return _told(view, _how_far(view))
    return _told(view, say.HowManyMore(len(view.activity.cells) - _closed(view)))


def _how_far(view: View) -> say.HowFar:
    is_finding_out = view.activity.aim is Aim.FIND_OUT
    most = MOST if is_finding_out else len(view.activity.cells)
    done = len(view.progress.asked_in(view.ask.activity)) - 1
    return say.HowFar(done, most - done, is_at_most=is_finding_out)


def _closed(view: View) -> int:
    """In the activity that is on."""
    return view.progress.closed_in(view.ask.activity)


def _keys_aloud(view: View) -> Turn:
    return _told(view, say.KeysAloud(view.plan.settings.keys.given))


def _told(view: View, message: say.Message) -> Turn:
    """Say it; then the question again, or the wait goes on."""
    if view.is_paused:
        return Turn(say=(message,), then=ListenFor(Awaiting.COMMAND))
    return asked_again(view, said=(message,))


_IN_A_GRID = frozenset(
    {
        *(Command.LEFT, Command.RIGHT, Command.UP, Command.DOWN, Command.ROW_START, Command.ROW_END),
        *(Command.GO_BACK, Command.READ_ROW, Command.READ_COLUMN),
    }
)

_TABLE: Mapping[Command, Callable[[View], Turn]] = {
    Command.SAY_AGAIN: _say_again,
    Command.SLOWER: _slower,
    Command.WAIT: _wait,
    Command.GO_ON: _say_again,
    Command.SKIP: _skip,
    Command.GO_BACK: _go_back,
    Command.HELP: _help,
    Command.DONT_KNOW: _dont_know,
    Command.NOT_WHAT_I_SAID: _not_what_i_said,
    Command.SAID_FIRST: _said_first,
    Command.WHERE_AM_I: _where_am_i,
    Command.READ_ROW: _read_row,
    Command.READ_COLUMN: _read_column,
    Command.HOW_MANY_MORE: _how_many_more,
    Command.HUSH: _hush,
    Command.STOP: _stop,
    Command.LEFT: _way(Command.LEFT),
    Command.RIGHT: _way(Command.RIGHT),
    Command.UP: _way(Command.UP),
    Command.DOWN: _way(Command.DOWN),
    Command.ROW_START: _way(Command.ROW_START),
    Command.ROW_END: _way(Command.ROW_END),
    Command.KEYS_ALOUD: _keys_aloud,
}
