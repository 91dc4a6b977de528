"""What a window shows, as values: what is said, the sum, the answer as it is typed, the verdict on the last one.

Made from the dialogue's state and messages alone. No right answer is shown before the pupil said it; only sentences
that say it aloud have it, too. Each thing has its name in words, for a screen reader.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from saythesum.core.exercises.exercise import HOLE, Exercise
from saythesum.core.grids.grid import Cell
from saythesum.core.records.rows import Answer, EndReason
from saythesum.core.sums import CLOSING_PARTS, Part
from saythesum.dialogue import messages as say
from saythesum.dialogue.step import State
from saythesum.dialogue.turns.context import LastVerdict
from saythesum.dialogue.turns.effects import TYPED, Ear
from saythesum.dialogue.turns.stack import AdultsTurn, Confirming, Ending, Paused, SayingBack, Topic
from saythesum.dialogue.tutor.pattern_talk import standing_move
from saythesum.dialogue.tutor.progress import cell_of, ended
from saythesum.keyboard.answer_entry import Digits, Typing
from saythesum.keyboard.keys import Focus
from saythesum.scene.caption import Aside, Caption, caption, said_and_shown
from saythesum.scene.grid import GridShown, answered_cells, grid_shown
from saythesum.scene.number_line import LineShown, line_shown
from saythesum.scene.number_pad import CLOSING, PadKeyShown
from saythesum.scene.pattern import NOTHING_MARKED, PatternShown, pattern_shown, question_shown
from saythesum.scene.scan import NOTHING_OFFERED, ScanShown
from saythesum.scene.spoken import Spoken, spoken
from saythesum.wording.for_adults.said_marks import marks_said
from saythesum.wording.numbers import words
from saythesum.wording.speak.said_keys import BUTTON_NAMES
from saythesum.wording.speak.said_shown import (
    answer_name,
    asked_in_braille,
    keys_of,
    part_name,
    sum_in_words,
    typed_in_words,
    verdict_in_digits,
    verdict_in_words,
)


class Now(StrEnum):
    """Whose turn it is, and what the microphone does."""

    LISTENING = "listening"
    NOT_LISTENING = "not-listening"
    ENTER_LISTENS = "enter-listens"
    TYPE = "type"
    CHOOSE = "choose"
    PRESS = "press"
    """Nothing is offered until the switch is pressed."""
    SWITCH_WAITS = "switch-waits"
    """Nothing can be chosen yet, or not any more."""
    ADULTS_TURN = "adults-turn"
    PAUSED = "paused"
    OVER = "over"
    CLOSES = "closes"
    """Over, and the last words are there to be read until a key is pressed."""
    STARTING = "starting"


NOW_WORDS: Mapping[Now, str] = {
    Now.LISTENING: "Listening",
    Now.NOT_LISTENING: "Not listening",
    Now.ENTER_LISTENS: "Press Enter, then speak",
    Now.TYPE: "Type the answer",
    Now.CHOOSE: "Choose with your switch",
    Now.PRESS: "Press your switch",
    Now.SWITCH_WAITS: "Listen first",
    Now.ADULTS_TURN: "The adult's turn",
    Now.PAUSED: "Waiting for you",
    Now.OVER: "Practice over",
    Now.CLOSES: "All done. Press any key",
    Now.STARTING: "Up or Down, then Enter",
}


@dataclass(frozen=True, slots=True)
class SumShown:
    text: str
    """ "38 + 5" """
    name: str


@dataclass(frozen=True, slots=True)
class AnswerShown:
    """The field for the answer, with what stands in it."""

    text: str
    """Half-typed, or as it was heard, right or wrong."""
    name: str
    value: str
    part: str
    """Which part of the way is asked; "" for the whole answer."""
    is_of_sum: bool
    """The sum's own answer is asked, so that an equals sign stands before it."""
    is_focused: bool
    in_braille: str
    """What stands before the answer on a braille line: "57+8=", "57 to 60? "."""
    fills_hole: bool = False
    """It belongs where the sum has its question mark."""


@dataclass(frozen=True, slots=True)
class VerdictShown:
    """A verdict with the sum and the answer that it is about, until the next answer or key."""

    text: str
    name: str
    is_right: bool


@dataclass(frozen=True, slots=True)
class ButtonShown:
    focus: Focus
    name: str
    keys: str
    """The keys that do the same; "" where Tab is the only way."""
    is_focused: bool


@dataclass(frozen=True, slots=True)
class Scene:
    """All that a window shows. How large, where and in which colours is the window's own."""

    now: Now
    now_words: str
    caption: Caption
    verdict: VerdictShown | None
    sum: SumShown | None
    """None where no sum is asked: before the first question, and after a stop."""
    answer: AnswerShown | None
    """The same."""
    grid: GridShown
    line: LineShown | None
    buttons: tuple[ButtonShown, ...]
    """None once the practice is over."""
    shows_grid: bool
    """The pupil opened the grid in place of the sum."""
    spoken: Spoken
    """For a screen reader."""
    for_adult: tuple[str, ...] = ()
    """In the adult's turn: a line for each digit that marks something, in place of all else. A screen reader
    finds them and is not told of them, for the pupil hears that."""
    pattern: PatternShown | None = None
    """What a talk is about; then the grid is shown with it, whatever the view."""
    choice: str = ""
    """Where no sum is asked: the answer that Enter would give."""
    keys: tuple[PadKeyShown, ...] = ()
    """As buttons, where there are no others to go on with."""
    offered: ScanShown | None = None
    """What a switch can choose just now; None where nobody practises by switch."""


@dataclass(frozen=True, slots=True)
class _Place:
    cell: Cell
    part: Part
    typed: Digits = ()
    given: int | None = None
    """As it was heard, or kept."""


def scene(state: State, typing: Typing, aside: Aside | None = None, scan: ScanShown = NOTHING_OFFERED) -> Scene:
    last = _last_verdict(state, typing)
    is_talk = state.progress.is_talking and not _is_over(state)
    place = None if is_talk else _place(state, typing, last[0] if last else None)
    pattern = pattern_shown(state) if is_talk else None
    now = _now(state, scan)
    shown = Scene(
        now=now,
        now_words=NOW_WORDS[now],
        caption=caption(state, aside),
        verdict=_verdict(state, *last) if last and not is_talk else None,
        sum=_sum(state, place) if place else None,
        answer=_answer(state, typing, place) if place else None,
        grid=grid_shown(state, place.cell if place else None, pattern.marks if pattern else NOTHING_MARKED),
        line=_line(state, place) if place else None,
        buttons=() if _is_over(state) else _buttons(state, typing),
        shows_grid=typing.shows_grid,
        for_adult=for_adult(state),
        spoken=_spoken(state, aside, scan),
        offered=scan if state.channel.ear is Ear.SWITCH and not _is_over(state) else None,
        keys=CLOSING if now is Now.CLOSES else (),
        pattern=pattern,
    )
    return _with_question(shown, state, typing) if is_talk else shown


def _with_question(shown: Scene, state: State, typing: Typing) -> Scene:
    """What a talk asks, in place of a sum; nothing where the pupil only thinks."""
    _, _, question = standing_move(state.plan, state.progress)
    if question is None:
        return shown
    asked, top = question_shown(question), _top(state)
    given = top.number.value if isinstance(top, SayingBack | Confirming) and not typing.digits else None
    answer = AnswerShown(
        text="".join(map(str, typing.digits)) if given is None else str(given),
        name=asked.name,
        value=typed_in_words(typing.digits) if given is None else words(given),
        part=asked.part,
        is_of_sum=not asked.part,
        is_focused=typing.focus is Focus.ANSWER,
        in_braille=asked.in_braille,
    )
    return replace(shown, sum=SumShown(asked.text, asked.name), answer=answer)


def for_adult(state: State) -> tuple[str, ...]:
    """Empty outside the adult's turn."""
    top = _top(state)
    return marks_said(state.progress, top) if isinstance(top, AdultsTurn) else ()


# ---- what is asked, and what was answered last -----------------------------------------------------------


def _place(state: State, typing: Typing, last: Answer | None) -> _Place | None:
    """What is asked, and what is typed or heard. At the end the last sum stays with its verdict.

    None before the first question, and at an end without a verdict: stop means stop, so no question stays shown.
    """
    top, ask = _top(state), state.progress.ask
    if _is_over(state):
        return _Place(cell_of(last), last.part, given=last.given) if last else None
    if ask is None:
        return None
    heard = top.number.value if isinstance(top, SayingBack | Confirming) else None
    return _Place(cell_of(ask), ask.part, typing.digits, heard)


def _last_verdict(state: State, typing: Typing) -> tuple[Answer, LastVerdict] | None:
    """None once the pupil has gone on from it by a key, or where this length of wording has no words for it."""
    verdict = state.talk.verdict
    answer = state.progress.answer(verdict.answer) if verdict else None
    if verdict is None or answer is None or verdict.answer == typing.verdict_passed:
        return None
    return (answer, verdict) if said_and_shown(verdict.messages, state) else None


def _verdict(state: State, answer: Answer, verdict: LastVerdict) -> VerdictShown:
    text = said_and_shown(verdict.messages, state)
    is_right = any(isinstance(message, say.Right) for message in verdict.messages)
    asked = state.plan.exercise_at(cell_of(answer))
    return VerdictShown(
        text=verdict_in_digits(asked, answer.given, text, is_right=is_right),
        name=verdict_in_words(asked, answer.given, text, is_right=is_right),
        is_right=is_right,
    )


def _sum(state: State, place: _Place) -> SumShown:
    asked = state.plan.exercise_at(place.cell)
    return SumShown(asked.shown, sum_in_words(asked))


def _answer(state: State, typing: Typing, place: _Place) -> AnswerShown:
    asked, is_whole = state.plan.exercise_at(place.cell), place.part in CLOSING_PARTS
    is_given = not place.typed and place.given is not None
    return AnswerShown(
        text=str(place.given) if is_given else "".join(map(str, place.typed)),
        name=answer_name(asked, place.part),
        value=words(place.given) if place.given is not None and is_given else typed_in_words(place.typed),
        part=part_name(asked, place.part),
        is_of_sum=is_whole and not asked.is_equation,
        fills_hole=is_whole and HOLE in asked.shown,
        is_focused=typing.focus is Focus.ANSWER and not _is_over(state),
        in_braille=asked_in_braille(state.plan.exercise_at(place.cell), place.part),
    )


def _line(state: State, place: _Place) -> LineShown | None:
    """Where nobody is helped a line would help, and show what was right."""
    if not state.plan.activity_on(state.progress.ask).aim.is_helped:
        return None
    ask = state.progress.ask
    is_current = ask is not None and cell_of(ask) == place.cell
    asked = state.plan.exercise_of(ask) if ask and is_current else state.plan.exercise_at(place.cell)
    return line_shown(asked, place.part, _known_parts(state, asked, place))


def _known_parts(state: State, asked: Exercise, place: _Place) -> frozenset[Part]:
    """The parts whose answers may be seen: those that were answered, or lie before the one that is asked."""
    steps = [part for part in asked.parts if part not in CLOSING_PARTS]
    if place.cell in answered_cells(state.progress):
        return frozenset({*steps, Part.TOTAL})
    if place.part in steps:
        right = (row.part for row in state.progress.visit if isinstance(row, Answer) and row.right)
        return frozenset({*steps[: steps.index(place.part)], *right} - CLOSING_PARTS)
    return frozenset(steps)


# ---- whose turn it is, and what can be pressed -----------------------------------------------------------


def _buttons(state: State, typing: Typing) -> tuple[ButtonShown, ...]:
    """The answer is a field."""
    return tuple(_button(focus, state, typing) for focus in typing.places if focus is not Focus.ANSWER)


def _button(focus: Focus, state: State, typing: Typing) -> ButtonShown:
    return ButtonShown(focus, BUTTON_NAMES[focus], keys_of(focus, state.plan.settings.keys), focus is typing.focus)


def _spoken(state: State, aside: Aside | None, scan: ScanShown) -> Spoken:
    """Where a screen reader speaks for the tool it says what is offered as well."""
    said = spoken(state, aside)
    if not (scan.name and state.plan.settings.window.screen_reader):
        return replace(said, turn=said.turn + scan.count)
    return Spoken(scan.name, said.turn + scan.count)


def _now(state: State, scan: ScanShown) -> Now:
    top = _top(state)
    if _is_over(state):
        return Now.CLOSES if ended(state.progress) is EndReason.FINISHED else Now.OVER
    if isinstance(top, AdultsTurn):
        return Now.ADULTS_TURN
    if isinstance(top, Paused):
        return Now.PAUSED
    if state.channel.ear is Ear.SWITCH:
        return Now.CHOOSE if scan.text else Now.PRESS if scan.is_open else Now.SWITCH_WAITS
    if state.channel.ear in TYPED:
        return Now.TYPE
    if state.channel.open_ear is not None and not state.channel.open_ear.is_between:
        return Now.LISTENING
    return Now.ENTER_LISTENS if state.channel.ear is Ear.PRESS else Now.NOT_LISTENING


def _is_over(state: State) -> bool:
    return isinstance(_top(state), Ending)


def _top(state: State) -> Topic | None:
    return state.talk.topics[-1] if state.talk.topics else None
