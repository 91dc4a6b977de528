"""One table of commands for all topics. A topic only lists the few that it suspends or answers itself."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from saythesum.core.aims import Aim
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.grids.grid import Cell
from saythesum.core.meanings import Command, HowHeard, Number
from saythesum.core.records.rows import Answer, By, EndReason, Reason, Support
from saythesum.core.sums import CLOSING_PARTS
from saythesum.dialogue import messages as say
from saythesum.dialogue.topics.answering import asked_again, ending, going_on, settle, void
from saythesum.dialogue.topics.anywhere import hush, keys_aloud, needs_adult, say_again, slower, told, wait
from saythesum.dialogue.topics.talking import obey_in_talk, start_talk
from saythesum.dialogue.turns.context import TurnContext
from saythesum.dialogue.turns.turn import Turn
from saythesum.dialogue.tutor.broken_facts import facts_asked_in_a_row
from saythesum.dialogue.tutor.next_cell import MOST_LEAVINGS, Chosen, Next, NothingLeft, cell_asked, next_cell
from saythesum.dialogue.tutor.next_step import help_with
from saythesum.dialogue.tutor.progress import answers_in, cell_of, is_help, with_row
from saythesum.learner.assessment.finding_out import MOST


def obey(command: Command, context: TurnContext) -> Turn:
    if context.is_in_talk:
        return obey_in_talk(command, context)
    if command in _IN_A_GRID - _ways_in(context) and not context.activity.has_grid:
        return told(context, say.OneByOne())
    return _TABLE[command](context)


# ---- hearing it again, waiting, stopping ---------------------------------------------------------


def _stop(context: TurnContext) -> Turn:
    is_missed = context.cell not in context.progress.closed and any(
        is_help(row) or (isinstance(row, Answer) and not row.right) for row in context.progress.visit
    )
    line = say.StopLine(is_missed, context.progress.answered_in(range(len(context.plan.activities))))
    return ending(context.plan, context.progress, EndReason.STOPPED, said=(line,))


# ---- help ------------------------------------------------------------------------------------------


def _dont_know(context: TurnContext) -> Turn:
    return _helped(context, Reason.DONT_KNOW)


def _help(context: TurnContext) -> Turn:
    return _helped(context, Reason.HELP)


def _helped(context: TurnContext, because: Reason) -> Turn:
    next = help_with(context.plan, context.progress, because, is_enough=context.is_enough_help)
    return going_on(context.plan, context.progress, next, said=(*_passed_over(context), *_left_open(context, next)))


def _left_open(context: TurnContext, next: Next) -> tuple[say.Message, ...]:
    """A pupil who does not know even after the worked line goes on, and hears what will happen to this sum."""
    ask = next.ask if isinstance(next, Chosen) else next
    if context.ask.support is not Support.MODELLED or isinstance(ask, NothingLeft) or cell_of(ask) == context.cell:
        return ()
    return (say.LeftOpen(comes_back=context.progress.left.count(context.cell) + 1 < MOST_LEAVINGS),)


def _passed_over(context: TurnContext) -> tuple[say.Message, ...]:
    """In a probe a pupil who does not know goes on, and hears that this is fine."""
    return (say.PassedOver(),) if not context.activity.aim.is_helped else ()


# ---- taking back -----------------------------------------------------------------------------------


def _not_what_i_said(context: TurnContext) -> Turn:
    """Voids the last number kept and asks its question again."""
    answers = answers_in(context.progress.live)
    if not answers:
        return told(context, say.NothingToTakeBack())
    undo = void(context, answers[-1])
    undone = replace(context, progress=with_row(context.progress, undo))
    is_by_voice = context.is_spoken and answers[-1].by is By.VOICE
    turn = asked_again(undone, said=(say.Misheard() if is_by_voice else say.TakenBack(),))
    return replace(turn, keep=(undo,))


def _said_first(context: TurnContext) -> Turn:
    """ "That's what I said first", after "Yes": where a first hearing may have been this number, it was unaided."""
    answers = answers_in(context.progress.live)
    last = answers[-1] if answers else None
    first = [answer for answer in answers if last and _is_first(answer, last, context)]
    if last is None or not first:
        return asked_again(context)
    undo = void(context, first[0])
    undone = replace(context, progress=with_row(context.progress, undo))
    number = Number(last.given, certainty=last.certainty, sure=last.sure, close_to=last.close_to)
    turn = settle(undone, number, HowHeard(last.by, last.heard, None), last.settled)
    return replace(turn, keep=(undo, *turn.keep), say=(say.Misheard(), *turn.say))


def _is_first(answer: Answer, last: Answer, context: TurnContext) -> bool:
    """Whether `answer` was kept as wrong although the hearing may have been the number that `last` kept as right."""
    is_whole = answer.part in CLOSING_PARTS and last.part in CLOSING_PARTS
    is_here = cell_of(answer) == cell_of(last) and is_whole
    return is_here and last.right and not answer.right and context.may_have_been(answer, last.given)


# ---- moving about the grid ---------------------------------------------------------------------------


def _skip(context: TurnContext) -> Turn:
    next = next_cell(context.plan, context.progress, Reason.SKIPPED)
    return going_on(context.plan, context.progress, next, said=_passed_over(context))


def _go_back(context: TurnContext) -> Turn:
    """To the nearest open cell before this one, in the order they are asked."""
    cells = context.activity.cells
    return _moved(context, reversed(cells[: cells.index(context.cell)]), Command.GO_BACK)


def _way(command: Command) -> Callable[[TurnContext], Turn]:
    def move(context: TurnContext) -> Turn:
        return _moved(context, _cells_that_way(context, command), command)

    return move


def _cells_that_way(context: TurnContext, way: Command) -> list[Cell]:
    """The cells in that direction, nearest first; from an end of the row, the first open one inwards."""
    here = context.cell
    columns, rows = context.activity.grid.columns, context.activity.grid.rows
    if not context.activity.has_grid:
        return _before_or_after(context, way)
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


def _before_or_after(context: TurnContext, way: Command) -> list[Cell]:
    """In a list of sums: up and down go to the one before and the one after."""
    cells = context.activity.cells
    at = cells.index(context.cell)
    return [*reversed(cells[:at])] if way is Command.UP else [*cells[at + 1 :]]


def _moved(context: TurnContext, cells: Iterable[Cell], way: Command) -> Turn:
    for cell in cells:
        if cell not in context.progress.closed:
            return going_on(
                context.plan, context.progress, cell_asked(context.plan, context.progress, cell, Reason.MOVED)
            )
    return told(context, say.NoFurther(way))


# ---- being told ----------------------------------------------------------------------------------------


def _where_am_i(context: TurnContext) -> Turn:
    if not context.activity.has_grid:
        return told(context, _how_far(context))
    return told(context, say.WhereYouAre(context.asked, _closed(context), len(context.activity.cells)))


def _read_row(context: TurnContext) -> Turn:
    columns = range(context.activity.grid.columns)
    return told(context, say.RowRead(tuple(_read(context, replace(context.cell, column=column)) for column in columns)))


def _read_column(context: TurnContext) -> Turn:
    rows = range(context.activity.grid.rows)
    return told(context, say.ColumnRead(tuple(_read(context, replace(context.cell, row=row)) for row in rows)))


def _read(context: TurnContext, cell: Cell) -> tuple[Exercise, int | None]:
    asked = context.plan.exercise_at(cell)
    return asked, asked.total if cell in context.progress.closed else None


def _how_many_more(context: TurnContext) -> Turn:
    if not context.activity.has_grid:
        return told(context, _how_far(context))
    return told(context, say.HowManyMore(len(context.activity.cells) - _closed(context)))


def _how_far(context: TurnContext) -> say.HowFar:
    activity = context.activity
    if activity.aim is Aim.PRACTISE:
        return say.HowFar(_closed(context), len(activity.cells) - _closed(context), is_at_most=False)
    is_finding_out = activity.aim is Aim.FIND_OUT
    most = MOST if is_finding_out else min(activity.most or len(activity.cells), len(activity.cells))
    is_aside = context.plan.is_aside(context.ask)
    asked = facts_asked_in_a_row(context.progress) if is_aside else len(context.progress.asked_in(activity.place))
    return say.HowFar(asked - 1, most - asked + 1, is_at_most=is_finding_out)


def _closed(context: TurnContext) -> int:
    """How many cells of the current activity are done."""
    return context.progress.closed_in(context.ask.activity)


_IN_A_GRID = frozenset(
    {
        *(Command.LEFT, Command.RIGHT, Command.UP, Command.DOWN, Command.ROW_START, Command.ROW_END),
        *(Command.GO_BACK, Command.READ_ROW, Command.READ_COLUMN, Command.PATTERNS),
    }
)


def _ways_in(context: TurnContext) -> frozenset[Command]:
    """What a list of sums has of a grid."""
    is_list = context.activity.aim is Aim.PRACTISE
    return frozenset({Command.GO_BACK, Command.UP, Command.DOWN}) if is_list else frozenset()


_TABLE: Mapping[Command, Callable[[TurnContext], Turn]] = {
    Command.SAY_AGAIN: say_again,
    Command.SLOWER: slower,
    Command.WAIT: wait,
    Command.GO_ON: say_again,
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
    Command.HUSH: hush,
    Command.STOP: _stop,
    Command.LEFT: _way(Command.LEFT),
    Command.RIGHT: _way(Command.RIGHT),
    Command.UP: _way(Command.UP),
    Command.DOWN: _way(Command.DOWN),
    Command.ROW_START: _way(Command.ROW_START),
    Command.ROW_END: _way(Command.ROW_END),
    Command.KEYS_ALOUD: keys_aloud,
    Command.PATTERNS: start_talk,
    Command.NO_MORE_PATTERNS: asked_again,
    Command.NEEDS_ADULT: needs_adult,
}
