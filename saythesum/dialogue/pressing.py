"""What comes of a pressed key. Nothing is ever sent by itself, and a key that is held acts once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import chain
from typing import TypeAlias

from saythesum.core.grids import Cell
from saythesum.core.rows import Answer, Ask, By, HeardId, Settled
from saythesum.core.sums import Part
from saythesum.dialogue.events import CountsAgain, EarAsked, Entered, InputEnded, TurnGivenBack, TurnTaken
from saythesum.dialogue.heard import LARGEST_NUMBER, Command, Given, Number, Unclear, Understood, Why
from saythesum.dialogue.how import HowHeard
from saythesum.dialogue.keys import (
    AdultHasTurn,
    CutSpeech,
    DigitTyped,
    Focus,
    Key,
    KeyAction,
    KeyMessage,
    NoRoom,
    OnFocus,
    Post,
    Pressed,
    PutBack,
    Resize,
    RubbedOut,
    SpeakKey,
    StillTyped,
)
from saythesum.dialogue.progress import cell_of
from saythesum.dialogue.step import State
from saythesum.dialogue.topics import AdultsTurn, Confirming, Ending, Paused, SayingBack, Topic

MOST_DIGITS = 4
RUBBING_OUT_MS = 700
"""A Backspace this soon after the last one still means to rub out, also where nothing is left to rub out."""

Place: TypeAlias = tuple[Cell, Part]
"""The question that digits are typed for."""
Digits: TypeAlias = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class TakenBack:
    """What Backspace took back, and how things stand if nothing has happened since."""

    number: Number
    how: HowHeard
    """Without the time it took: that was another press or breath."""
    settled: Settled
    part: Part | None
    cell: Cell
    answers_left: int


@dataclass(frozen=True, slots=True)
class Typing:
    """The half-typed answer, and where Tab is. A window may show it as it stands."""

    digits: Digits = ()
    began_ms: int | None = None
    """The first key of this answer, rubbed out or not."""
    place: Place | None = None
    put_by: tuple[tuple[Place, Digits], ...] = ()
    """Half-typed answers to questions that the pupil has left."""
    rubbed_ms: int | None = None
    """The last Backspace that was one of rubbing out."""
    taken_back: TakenBack | None = None
    """Set only while nothing else has been pressed."""
    focus: Focus = Focus.ANSWER
    shows_grid: bool = False
    """The grid is shown in place of the sum."""


@dataclass(frozen=True, slots=True)
class Seen:
    """What keys depend on in the dialogue."""

    is_running: bool
    is_speaking: bool
    is_paused: bool
    is_adults_turn: bool
    place: Place | None
    takes_back: TakenBack | None
    """What "not what I said" would take back."""
    answers: int
    """How many answers count."""


Outcome: TypeAlias = tuple[Typing, tuple[KeyAction, ...]]


def seen(state: State) -> Seen:
    top = state.talk.topics[-1] if state.talk.topics else None
    ask = state.progress.ask
    answers = [row for row in state.progress.live if isinstance(row, Answer)]
    return Seen(
        is_running=top is not None and not isinstance(top, Ending),
        is_speaking=state.channel.speaking is not None,
        is_paused=isinstance(top, Paused),
        is_adults_turn=isinstance(top, AdultsTurn),
        place=(cell_of(ask), ask.part) if ask else None,
        takes_back=_to_take_back(top, ask, answers),
        answers=len(answers),
    )


def _to_take_back(top: Topic | None, ask: Ask | None, answers: Sequence[Answer]) -> TakenBack | None:
    if ask and isinstance(top, SayingBack | Confirming):
        settled = top.settled if isinstance(top, SayingBack) else Settled.CONFIRMED
        how = replace(top.how, took_ms=None)
        return TakenBack(top.number, how, settled, part=None, cell=cell_of(ask), answers_left=len(answers))
    if not answers:
        return None
    last = answers[-1]
    return TakenBack(
        Number(last.given, certainty=last.certainty, close_to=last.close_to),
        HowHeard(last.by, last.heard, took_ms=None),
        last.settled,
        part=last.part,
        cell=cell_of(last),
        answers_left=len(answers) - 1,
    )


def pressed(typing: Typing, press: Pressed, *, seen: Seen, heard_id: HeardId) -> Outcome:
    """`heard_id` is the id that this press gets if it comes to an answer or a command."""
    if press.is_repeat or not seen.is_running:
        return typing, ()
    if press.key in (Key.BIGGER, Key.SMALLER):
        return typing, (Resize(press.key is Key.BIGGER),)
    if press.key is Key.CLOSE:
        return typing, (Post(InputEnded(press.at_ms)),)
    if seen.is_adults_turn:
        return typing, _in_adults_turn(press)
    typing, _ = followed(typing, seen)
    if press.key is Key.BACKSPACE:
        return _backspace(typing, press, seen, heard_id)
    return _other_than_backspace(replace(typing, taken_back=None), press, seen, heard_id)


def followed(typing: Typing, seen: Seen) -> Outcome:
    """To be called after whatever happened in the dialogue: half-typed answers stay with their questions."""
    if seen.place == typing.place or seen.place is None:
        return typing, ()
    others = tuple((place, digits) for place, digits in typing.put_by if place not in (seen.place, typing.place))
    if typing.place and typing.digits:
        others = (*others, (typing.place, typing.digits))
    digits = dict(typing.put_by).get(seen.place, ())
    there = replace(typing, digits=digits, began_ms=None, place=seen.place, put_by=others)
    return there, (SpeakKey(StillTyped(digits)),) if digits else ()


def _in_adults_turn(press: Pressed) -> tuple[KeyAction, ...]:
    """Nothing the pupil presses counts; the turn can be given back, and stop means stop."""
    if press.key in (Key.ADULT, Key.ESCAPE):
        return (Post(TurnGivenBack(press.at_ms)),)
    return (Post(InputEnded(press.at_ms)),) if press.key is Key.STOP else ()


def _other_than_backspace(typing: Typing, press: Pressed, seen: Seen, heard_id: HeardId) -> Outcome:
    match press.key:
        case Key.DIGIT:
            assert press.digit is not None, "a digit key says which"
            return _digit(typing, press, seen, press.digit)
        case Key.ENTER | Key.SPACE if typing.focus is not Focus.ANSWER:
            return _button(typing, press, seen, heard_id)
        case Key.ENTER:
            return _enter(typing, press, heard_id)
        case Key.TAB | Key.SHIFT_TAB:
            places = list(Focus)
            way = 1 if press.key is Key.TAB else -1
            return _focused(typing, places[(places.index(typing.focus) + way) % len(places)], seen)
        case Key.ESCAPE:
            return _step_back(typing, press, seen, heard_id)
        case Key.ADULT:
            return typing, (Post(TurnTaken(press.at_ms)), SpeakKey(AdultHasTurn()))
        case key:
            return typing, (_given(_COMMANDS[key], press, heard_id),)


_COMMANDS: Mapping[Key, Command] = {
    Key.SPACE: Command.SAY_AGAIN,
    Key.SAY_AGAIN: Command.SAY_AGAIN,
    Key.HELP: Command.HELP,
    Key.WHERE_AM_I: Command.WHERE_AM_I,
    Key.LEFT: Command.LEFT,
    Key.RIGHT: Command.RIGHT,
    Key.UP: Command.UP,
    Key.DOWN: Command.DOWN,
    Key.HOME: Command.ROW_START,
    Key.END: Command.ROW_END,
    Key.KEYS_ALOUD: Command.KEYS_ALOUD,
    Key.STOP: Command.STOP,
}

# ---- typing an answer ----------------------------------------------------------------------------------


def _digit(typing: Typing, press: Pressed, seen: Seen, digit: int) -> Outcome:
    """Typing goes to the answer from wherever Tab is."""
    typing = replace(typing, focus=Focus.ANSWER)
    if len(typing.digits) == MOST_DIGITS:
        return typing, _spoken(NoRoom(), seen)
    began_ms = press.at_ms if typing.began_ms is None else typing.began_ms
    typing = replace(typing, digits=(*typing.digits, digit), began_ms=began_ms, rubbed_ms=None)
    return typing, _spoken(DigitTyped(digit), seen)


def _enter(typing: Typing, press: Pressed, heard_id: HeardId) -> Outcome:
    if not typing.digits:
        return typing, (Post(EarAsked(press.at_ms)),)
    text = "".join(map(str, typing.digits))
    began_ms = press.at_ms if typing.began_ms is None else typing.began_ms
    heard: Understood = Number(int(text)) if int(text) <= LARGEST_NUMBER else Unclear(Why.OTHER)
    sent = Post(Entered(heard, text, By.KEYS, press.at_ms, began_ms, heard_id))
    return replace(typing, digits=(), began_ms=None), (sent,)


def _backspace(typing: Typing, press: Pressed, seen: Seen, heard_id: HeardId) -> Outcome:
    if typing.digits:
        *left, last = typing.digits
        rubbed = replace(typing, digits=tuple(left), rubbed_ms=press.at_ms, focus=Focus.ANSWER, taken_back=None)
        return rubbed, _spoken(RubbedOut(last, is_empty=not left), seen)
    if typing.rubbed_ms is not None and press.at_ms - typing.rubbed_ms <= RUBBING_OUT_MS:
        return replace(typing, rubbed_ms=press.at_ms, taken_back=None), ()
    if typing.taken_back and _still_stands(typing.taken_back, seen):
        return _put_back(typing, press, typing.taken_back)
    return _take_back(replace(typing, rubbed_ms=None), press, seen, heard_id)


def _still_stands(taken: TakenBack, seen: Seen) -> bool:
    return seen.place is not None and seen.place[0] == taken.cell and seen.answers == taken.answers_left


def _take_back(typing: Typing, press: Pressed, seen: Seen, heard_id: HeardId) -> Outcome:
    given = _given(Command.NOT_WHAT_I_SAID, press, heard_id)
    return replace(typing, taken_back=seen.takes_back), (given,)


def _put_back(typing: Typing, press: Pressed, taken: TakenBack) -> Outcome:
    """A void is for ever, so it is a new answer to the same question; all but its time is as it was."""
    again = CountsAgain(taken.number, taken.how, taken.settled, taken.part, press.at_ms)
    kept = replace(typing, taken_back=None, rubbed_ms=press.at_ms)
    return kept, (SpeakKey(PutBack(taken.number.value)), Post(again))


# ---- buttons and steps back ------------------------------------------------------------------------------


def _button(typing: Typing, press: Pressed, seen: Seen, heard_id: HeardId) -> Outcome:
    """Pressed, a button gives Tab's place back to the answer: a second Enter does not press it again."""
    back = replace(typing, focus=Focus.ANSWER)
    match typing.focus:
        case Focus.GRID:
            shown = replace(back, shows_grid=not typing.shows_grid)
            return shown, (_given(Command.READ_ROW, press, heard_id),) if shown.shows_grid else ()
        case Focus.NOT_WHAT_I_SAID:
            return _take_back(back, press, seen, heard_id)
        case focus:
            return back, (_given(_BUTTONS[focus], press, heard_id),)


_BUTTONS: Mapping[Focus, Command] = {
    Focus.QUESTION: Command.SAY_AGAIN,
    Focus.HELP: Command.HELP,
    Focus.SKIP: Command.SKIP,
    Focus.STOP: Command.STOP,
}


def _step_back(typing: Typing, press: Pressed, seen: Seen, heard_id: HeardId) -> Outcome:
    """Hush, or one step back: from a button, from the grid, from a pause. Nothing typed is lost."""
    if seen.is_speaking:
        return typing, (CutSpeech(),)
    if typing.focus is not Focus.ANSWER:
        return _focused(typing, Focus.ANSWER, seen)
    if typing.shows_grid:
        return replace(typing, shows_grid=False), ()
    return typing, (_given(Command.GO_ON, press, heard_id),) if seen.is_paused else ()


def _focused(typing: Typing, focus: Focus, seen: Seen) -> Outcome:
    return replace(typing, focus=focus), _spoken(OnFocus(focus, typing.digits), seen)


def _spoken(message: KeyMessage, seen: Seen) -> tuple[KeyAction, ...]:
    """A key's own sound takes the place of whatever is being said."""
    cut: tuple[KeyAction, ...] = (CutSpeech(),) if seen.is_speaking else ()
    return tuple(chain(cut, (SpeakKey(message),)))


def _given(command: Command, press: Pressed, heard_id: HeardId) -> Post:
    return Post(Entered(Given(command), command.value, By.KEYS, press.at_ms, press.at_ms, heard_id))
