"""What a window shows, as values: the sentence that is being said, the sum, the answer as it is typed.

No right answer is shown before the pupil said it; only sentences that say it aloud have it, too.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from saythesum.core.exercises.exercise import Exercise, Followed
from saythesum.core.grids.grid import Cell
from saythesum.core.records.rows import Answer
from saythesum.core.sums import CLOSING_PARTS, Part
from saythesum.dialogue import messages as say
from saythesum.dialogue.step import State
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.turns.stack import AdultsTurn, Confirming, Ending, Paused, SayingBack, Topic
from saythesum.dialogue.tutor.progress import Progress, cell_of
from saythesum.keyboard.answer_entry import Typing
from saythesum.keyboard.keys import Focus
from saythesum.wording.speak.said import said
from saythesum.wording.speak.said_keys import BUTTON_NAMES


class Now(StrEnum):
    """Whose turn it is, and what the microphone does."""

    LISTENING = "listening"
    NOT_LISTENING = "not-listening"
    ENTER_LISTENS = "enter-listens"
    TYPE = "type"
    ADULTS_TURN = "adults-turn"
    PAUSED = "paused"
    OVER = "over"
    STARTING = "starting"


NOW_WORDS: Mapping[Now, str] = {
    Now.LISTENING: "Listening",
    Now.NOT_LISTENING: "Not listening",
    Now.ENTER_LISTENS: "Press Enter, then speak",
    Now.TYPE: "Type the answer",
    Now.ADULTS_TURN: "The adult's turn",
    Now.PAUSED: "Waiting for you",
    Now.OVER: "Practice over",
    Now.STARTING: "Up or Down, then Enter",
}
PART_WORDS: Mapping[Part, str] = {
    Part.WHOLE: "",
    Part.NEXT_TEN: "The next ten",
    Part.GAP: "To the next ten",
    Part.REST: "What is left",
    Part.ONES: "The ones",
    Part.TOTAL: "All together",
}
LEFT_OPEN = "–"
"""In a cell that was worked through and waits for another day."""


@dataclass(frozen=True, slots=True)
class GridShown:
    starts: tuple[str, ...]
    amounts: tuple[str, ...]
    cells: tuple[tuple[str, ...], ...]
    """Row by row; "" where nothing was answered yet."""
    current: Cell | None
    most_digits: int
    """Of the longest answer: room that is kept in every cell."""


@dataclass(frozen=True, slots=True)
class Jump:
    by: str
    to: str
    """ "" for both where the pupil has not got there yet."""


@dataclass(frozen=True, slots=True)
class LineShown:
    """An empty number line: where it starts, and one jump or two. Its jumps are not to scale."""

    start: str
    jumps: tuple[Jump, ...]


@dataclass(frozen=True, slots=True)
class ButtonShown:
    focus: Focus
    name: str
    is_focused: bool


@dataclass(frozen=True, slots=True)
class Scene:
    """All that a window shows. How large, where and in which colours is the window's own."""

    now: Now
    now_words: str
    caption: str
    """The sentence being said, or said last."""
    sum: str
    part: str
    """Which guided part is asked; "" for the whole answer."""
    is_whole: bool
    """The answer is the sum's own, so that an equals sign stands before it."""
    answer: str
    """Half-typed, or as it was heard, right or wrong."""
    grid: GridShown
    line: LineShown | None
    buttons: tuple[ButtonShown, ...]
    shows_grid: bool
    """The pupil opened the grid in place of the sum."""
    choice: str = ""
    """Where no sum is asked: the answer that Enter would give."""


@dataclass(frozen=True, slots=True)
class _Place:
    cell: Cell
    part: Part
    answer: str


def scene(state: State, typing: Typing, saying: say.Message | str = "") -> Scene:
    """`saying`: the message being said, or a sentence from elsewhere (of a key, of a device)."""
    place = _place(state, typing, saying)
    now = _now(state)
    asked = state.plan.exercise_at(place.cell) if place else None
    is_helped = state.plan.activity_on(state.progress.ask).aim.is_helped  # elsewhere a line would show what was right
    return Scene(
        now=now,
        now_words=NOW_WORDS[now],
        caption=saying if isinstance(saying, str) else said(saying, state.plan.settings.wording.length),
        sum=asked.shown if asked else "",
        part=PART_WORDS[place.part] if place else "",
        is_whole=place is None or place.part in CLOSING_PARTS,
        answer=place.answer if place else "",
        grid=_grid(state, place.cell if place else None),
        line=_line(asked, place, state.progress) if asked and place and is_helped else None,
        buttons=tuple(ButtonShown(focus, BUTTON_NAMES[focus], focus is typing.focus) for focus in Focus),
        shows_grid=typing.shows_grid,
    )


def grid_extract(rows: range, columns: range, grid: GridShown) -> str:
    """Says so where a grid is too large to be shown whole."""
    told = []
    for shown, all_of_them, name in ((rows, len(grid.starts), "Row"), (columns, len(grid.amounts), "Column")):
        if len(shown) < all_of_them:
            which = f"{name} {shown.start + 1}" if len(shown) == 1 else f"{name}s {shown.start + 1} to {shown.stop}"
            told.append(f"{which} of {all_of_them}")
    return ". ".join(told)


def _place(state: State, typing: Typing, saying: say.Message | str) -> _Place | None:
    """A verdict is about the last answer, and is shown with it; otherwise what is asked, and what is typed.

    None before the first question and at the end: stop means stop, so no question stays on the screen.
    """
    progress = state.progress
    typed = "".join(map(str, typing.digits))
    answers = [row for row in progress.live if isinstance(row, Answer)]
    if isinstance(saying, say.Verdict | say.Noted | Followed) and answers and not typed:
        last = answers[-1]
        return _Place(cell_of(last), last.part, str(last.given))
    ask = progress.ask
    if ask is None or isinstance(_top(state), Ending):
        return None
    return _Place(cell_of(ask), ask.part, typed or _heard(_top(state)))


def _heard(top: Topic | None) -> str:
    return str(top.number.value) if isinstance(top, SayingBack | Confirming) else ""


def _now(state: State) -> Now:
    top = _top(state)
    if isinstance(top, Ending):
        return Now.OVER
    if isinstance(top, AdultsTurn):
        return Now.ADULTS_TURN
    if isinstance(top, Paused):
        return Now.PAUSED
    if state.channel.ear in (Ear.KEYS, Ear.TEXT):
        return Now.TYPE
    if state.channel.open_ear is not None and not state.channel.open_ear.is_between:
        return Now.LISTENING
    return Now.ENTER_LISTENS if state.channel.ear is Ear.PRESS else Now.NOT_LISTENING


def _top(state: State) -> Topic | None:
    return state.talk.topics[-1] if state.talk.topics else None


def _grid(state: State, current: Cell | None) -> GridShown:
    activity = state.plan.activity_of(current) if current else state.plan.activity_on(state.progress.ask)
    grid, at = activity.grid, activity.cells[0].activity
    rows, columns = range(len(grid.starts)), range(len(grid.amounts))
    furthest = grid.starts.index(max(grid.starts))
    most_digits = max(len(str(grid.exercise_at(Cell(furthest, column)).total)) for column in columns)
    if not activity.aim.has_grid:
        return _grid_of_one(state.plan.exercise_at(current) if current else None, most_digits)
    answered = _answered(state.progress)
    return GridShown(
        starts=tuple(map(str, grid.starts)),
        amounts=tuple(grid.exercise_at(Cell(0, column)).shown_amount for column in columns),
        cells=tuple(tuple(_cell(Cell(row, column, at), state, answered) for column in columns) for row in rows),
        current=current,
        most_digits=most_digits,
    )


def _grid_of_one(asked: Exercise | None, most_digits: int) -> GridShown:
    """Where sums come one by one, only the one that is asked."""
    start, amount = (str(asked.start), asked.shown_amount) if asked else ("", "")
    return GridShown((start,), (amount,), (("",),), Cell(0, 0) if asked else None, most_digits)


def _answered(progress: Progress) -> frozenset[Cell]:
    """The cells whose right answer the pupil gave."""
    given = (row for row in progress.live if isinstance(row, Answer) and row.right and row.part in CLOSING_PARTS)
    return frozenset(map(cell_of, given))


def _cell(cell: Cell, state: State, answered: frozenset[Cell]) -> str:
    if cell in answered:
        return str(state.plan.exercise_at(cell).total)
    return LEFT_OPEN if cell in state.progress.closed else ""


def _line(asked: Exercise, place: _Place, progress: Progress) -> LineShown | None:
    """One jump for the whole amount until it is talked through in steps; None where no line helps."""
    known = _known_parts(asked, place, progress)
    jumps = asked.jumps
    if place.part is Part.WHOLE and Part.TOTAL not in known:
        jumps = tuple(replace(jump, by=asked.amount, by_part=None) for jump in jumps[-1:])
    shown = (
        Jump(
            str(jump.by) if jump.by_part is None or jump.by_part in known else "",
            str(jump.to) if jump.to_part in known else "",
        )
        for jump in jumps
    )
    return LineShown(str(asked.start), tuple(shown)) if jumps else None


def _known_parts(asked: Exercise, place: _Place, progress: Progress) -> frozenset[Part]:
    """The parts whose answers may be seen: those that were answered, or lie before the one that is asked."""
    steps = [part for part in asked.parts if part not in CLOSING_PARTS]
    if place.cell in _answered(progress):
        return frozenset({*steps, Part.TOTAL})
    if place.part in steps:
        right = (row.part for row in progress.visit if isinstance(row, Answer) and row.right)
        return frozenset({*steps[: steps.index(place.part)], *right} - {Part.TOTAL, Part.WHOLE})
    return frozenset(steps)
