"""What a window shows, as values: what is being said, the sum, the answer as it is typed, the verdict on the last one.

No right answer is shown before the pupil said it; only sentences that say it aloud have it, too.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum

from saythesum.core.aims import Aim
from saythesum.core.grids.grid import Cell
from saythesum.core.records.rows import Answer
from saythesum.core.sums import CLOSING_PARTS, Kind, Part, Sum
from saythesum.dialogue import messages as say
from saythesum.dialogue.step import State
from saythesum.dialogue.turns.context import LastVerdict
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.turns.stack import AdultsTurn, Confirming, Ending, Paused, SayingBack, Topic
from saythesum.dialogue.tutor.progress import Progress, cell_of
from saythesum.keyboard.answer_entry import Typing
from saythesum.keyboard.keys import Focus, KeyMessage
from saythesum.wording.speak.said import said
from saythesum.wording.speak.said_keys import BUTTON_NAMES, key_said


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
class VerdictShown:
    """A verdict beside the sum and the answer that it is about, until the next answer or key."""

    sum: str
    answer: str
    words: str
    is_right: bool
    """Only then an equals sign may stand between sum and answer."""


@dataclass(frozen=True, slots=True)
class News:
    """What has become of a device, in a sentence."""

    sentence: str


@dataclass(frozen=True, slots=True)
class Aside:
    """Something said beside the dialogue. It is shown until the dialogue says something."""

    message: KeyMessage | News
    after_turns: int
    """How many turns the dialogue had said before it."""


@dataclass(frozen=True, slots=True)
class Scene:
    """All that a window shows. How large, where and in which colours is the window's own."""

    now: Now
    now_words: str
    caption: str
    """The sentences being said, or said last, without the verdict."""
    verdict: VerdictShown | None
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


def scene(state: State, typing: Typing, aside: Aside | None = None) -> Scene:
    last = _last_verdict(state, typing)
    place = _place(state, typing, last)
    now = _now(state)
    asked = state.plan.sum_at(place.cell) if place else None
    is_probe = state.plan.aim is Aim.PROBE  # there a line would help, and show what was right
    return Scene(
        now=now,
        now_words=NOW_WORDS[now],
        caption=_caption(state, aside),
        verdict=_verdict_shown(state, *last) if last else None,
        sum=f"{asked.start} + {asked.amount}" if asked else "",
        part=PART_WORDS[place.part] if place else "",
        is_whole=place is None or place.part in CLOSING_PARTS,
        answer=place.answer if place else "",
        grid=_grid(state, place.cell if place else None),
        line=_line(asked, place, state.progress) if asked and place and not is_probe else None,
        buttons=tuple(ButtonShown(focus, BUTTON_NAMES[focus], focus is typing.focus) for focus in Focus),
        shows_grid=typing.shows_grid,
    )


def _last_verdict(state: State, typing: Typing) -> tuple[Answer, LastVerdict] | None:
    """None once the pupil has gone on from it by a key, or where this length of wording has no words for it."""
    verdict = state.talk.verdict
    answer = state.progress.answer(verdict.answer) if verdict else None
    if verdict is None or answer is None or verdict.answer == typing.verdict_passed:
        return None
    return (answer, verdict) if _said(verdict.messages, state) else None


def _verdict_shown(state: State, answer: Answer, verdict: LastVerdict) -> VerdictShown:
    return VerdictShown(
        sum=f"{answer.start} + {answer.amount}",
        answer=str(answer.given),
        words=_said(verdict.messages, state),
        is_right=any(isinstance(message, say.Right) for message in verdict.messages),
    )


def _caption(state: State, aside: Aside | None) -> str:
    if aside and aside.after_turns == state.channel.turns_said:
        return aside_said(aside.message)
    shown_apart = state.talk.verdict.messages if state.talk.verdict else ()
    return _said((message for message in state.channel.saying if message not in shown_apart), state)


def aside_said(message: KeyMessage | News) -> str:
    return message.sentence if isinstance(message, News) else key_said(message)


def _said(messages: Iterable[say.Message], state: State) -> str:
    in_words = (said(message, state.plan.settings.wording.length) for message in messages)
    return " ".join(text for text in in_words if text)


def grid_extract(rows: range, columns: range, grid: GridShown) -> str:
    """Says so where a grid is too large to be shown whole."""
    told = []
    for shown, all_of_them, name in ((rows, len(grid.starts), "Row"), (columns, len(grid.amounts), "Column")):
        if len(shown) < all_of_them:
            which = f"{name} {shown.start + 1}" if len(shown) == 1 else f"{name}s {shown.start + 1} to {shown.stop}"
            told.append(f"{which} of {all_of_them}")
    return ". ".join(told)


def _place(state: State, typing: Typing, last: tuple[Answer, LastVerdict] | None) -> _Place | None:
    """What is asked, and what is typed or heard. At the end the last sum stays with its verdict.

    None before the first question, and at an end without a verdict: stop means stop, so no question stays shown.
    """
    ask = state.progress.ask
    if isinstance(_top(state), Ending):
        return _Place(cell_of(last[0]), last[0].part, str(last[0].given)) if last else None
    if ask is None:
        return None
    typed = "".join(map(str, typing.digits))
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
    grid = state.plan.grid
    most_digits = len(str(max(grid.starts) + max(grid.amounts)))
    if not state.plan.aim.has_grid:
        return _grid_of_one(state.plan.sum_at(current) if current else None, most_digits)
    rows, columns = range(len(grid.starts)), range(len(grid.amounts))
    answered = _answered(state.progress)
    return GridShown(
        starts=tuple(map(str, grid.starts)),
        amounts=tuple(f"+{amount}" for amount in grid.amounts),
        cells=tuple(tuple(_cell(Cell(row, column), state, answered) for column in columns) for row in rows),
        current=current,
        most_digits=most_digits,
    )


def _grid_of_one(asked: Sum | None, most_digits: int) -> GridShown:
    """Where sums come one by one, only the one that is asked."""
    start, amount = (str(asked.start), f"+{asked.amount}") if asked else ("", "")
    return GridShown((start,), (amount,), (("",),), Cell(0, 0) if asked else None, most_digits)


def _answered(progress: Progress) -> frozenset[Cell]:
    """The cells whose right answer the pupil gave."""
    given = (row for row in progress.live if isinstance(row, Answer) and row.right and row.part in CLOSING_PARTS)
    return frozenset(map(cell_of, given))


def _cell(cell: Cell, state: State, answered: frozenset[Cell]) -> str:
    if cell in answered:
        return str(state.plan.sum_at(cell).total)
    return LEFT_OPEN if cell in state.progress.closed else ""


def _line(asked: Sum, place: _Place, progress: Progress) -> LineShown:
    """One jump for the whole amount until it is talked through in two."""
    total = str(asked.total) if place.cell in _answered(progress) else ""
    right = {row.part for row in progress.visit if isinstance(row, Answer) and row.right}
    if asked.kind is not Kind.CROSSING or (place.part is Part.WHOLE and not total):
        is_gap_asked = place.part is Part.GAP and not total
        return LineShown(str(asked.start), (Jump("" if is_gap_asked else str(asked.amount), total),))
    is_asked_for_all = place.part in CLOSING_PARTS
    is_ten_known = is_asked_for_all or place.part in (Part.GAP, Part.REST) or Part.NEXT_TEN in right
    to_ten = Jump(
        str(asked.gap) if is_asked_for_all or Part.GAP in right else "", str(asked.next_ten) if is_ten_known else ""
    )
    past_ten = Jump(str(asked.rest) if is_asked_for_all or Part.REST in right else "", total)
    return LineShown(str(asked.start), (to_ten, past_ten))
