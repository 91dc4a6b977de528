"""What a pressed key does. No answer is sent without Enter, and a key that is held down acts once."""

from collections.abc import Mapping
from dataclasses import replace

from saythesum.core.meanings import (
    LARGEST_NUMBER,
    MOST_DIGITS,
    Choice,
    Command,
    Given,
    Meaning,
    Number,
    Unclear,
    WhyUnclear,
)
from saythesum.core.records.rows import By, HeardId
from saythesum.dialogue.turns.events import (
    AdultMarked,
    CountsAgain,
    EarAsked,
    Entered,
    InputEnded,
    TurnGivenBack,
    TurnTaken,
)
from saythesum.keyboard.answer_entry import Outcome, Situation, TakenBack, Typing, keep_with_question
from saythesum.keyboard.keys import (
    AdultHasTurn,
    ChangeLook,
    ChangeSpeaker,
    CutSpeech,
    DigitTyped,
    Focus,
    FocusMoved,
    Key,
    KeyAction,
    KeyMessage,
    LookChange,
    NoRoom,
    Post,
    Pressed,
    PutBack,
    ReadBack,
    RubbedOut,
    SpeakKey,
)

RUBBING_OUT_MS = 700
"""A Backspace this soon after the last one still means rubbing out, even when nothing is left to rub out."""


def pressed(typing: Typing, press: Pressed, *, situation: Situation, heard_id: HeardId) -> Outcome:
    """`heard_id` becomes the id of the answer or command that this press leads to, if any."""
    if press.is_repeat or not situation.is_running:
        return typing, ()
    if press.key in LOOKS:
        return _look_changed(typing, LOOKS[press.key], situation)
    if press.key is Key.SCREEN_READER:
        return typing, (*_cut(situation), ChangeSpeaker())
    if press.key is Key.CLOSE:
        return typing, (Post(InputEnded(press.at_ms)),)
    typing = replace(typing, verdict_passed=situation.verdict_on)
    if situation.is_adults_turn:
        return typing, _in_adults_turn(press)
    typing, _ = keep_with_question(typing, situation)
    if press.key in (Key.BACKSPACE, Key.NOT_WHAT_I_SAID):
        return _backspace(typing, press, situation, heard_id)
    return _other_than_backspace(replace(typing, taken_back=None), press, situation, heard_id)


def _in_adults_turn(press: Pressed) -> tuple[KeyAction, ...]:
    """Digits mark, the turn can be given back, and stop means stop; the pupil's other keys do nothing."""
    if press.key in (Key.ADULT, Key.ESCAPE):
        return (Post(TurnGivenBack(press.at_ms)),)
    if press.key is Key.DIGIT and press.digit is not None:
        return (Post(AdultMarked(press.digit, press.at_ms)),)
    return (Post(InputEnded(press.at_ms)),) if press.key is Key.STOP else ()


def _other_than_backspace(typing: Typing, press: Pressed, situation: Situation, heard_id: HeardId) -> Outcome:
    match press.key:
        case Key.DIGIT:
            assert press.digit is not None, "a digit key says which"
            return _digit(typing, press, situation, press.digit)
        case Key.ENTER if typing.focus is not Focus.ANSWER:
            return _button(typing, press, situation, heard_id)
        case Key.ENTER:
            return _enter(typing, press, heard_id)
        case Key.TAB | Key.SHIFT_TAB:
            order = list(Focus) if press.key is Key.TAB else list(reversed(Focus))
            here = order.index(typing.focus)
            after = (*order[here + 1 :], *order[:here])
            return _focused(typing, next(place for place in after if place in typing.places), situation)
        case Key.ESCAPE:
            return _step_back(typing, press, situation, heard_id)
        case Key.ADULT:
            return typing, (Post(TurnTaken(press.at_ms)), SpeakKey(AdultHasTurn(press.by is By.SWITCH)))
        case Key.YES | Key.NO:
            choice = Choice(press.key is Key.YES)
            return typing, (Post(Entered(choice, press.key.value, press.by, press.at_ms, press.at_ms, heard_id)),)
        case Key.SWITCH | Key.SECOND_SWITCH:
            return typing, ()  # by itself a switch means nothing: see `scanning`
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
    Key.SKIP: Command.SKIP,
    Key.STOP: Command.STOP,
    Key.PATTERNS: Command.PATTERNS,
    Key.PAUSE: Command.WAIT,
    Key.GO_ON: Command.GO_ON,
}

# ---- typing an answer ----------------------------------------------------------------------------------


def _digit(typing: Typing, press: Pressed, situation: Situation, digit: int) -> Outcome:
    """Typing goes to the answer from wherever Tab is."""
    typing = replace(typing, focus=Focus.ANSWER)
    if len(typing.digits) == MOST_DIGITS:
        return typing, _spoken(NoRoom(), situation)
    began_ms = press.at_ms if typing.began_ms is None else typing.began_ms
    has_letters = typing.has_letters or press.is_letter
    digits = (*typing.digits, digit)
    typing = replace(typing, digits=digits, has_letters=has_letters, began_ms=began_ms, rubbed_ms=None)
    return typing, _spoken(DigitTyped(digit, press.is_letter), situation)


def _enter(typing: Typing, press: Pressed, heard_id: HeardId) -> Outcome:
    if not typing.digits:
        return typing, (Post(EarAsked(press.at_ms)),)
    text = "".join(map(str, typing.digits))
    began_ms = press.at_ms if typing.began_ms is None else typing.began_ms
    heard: Meaning = Number(int(text)) if int(text) <= LARGEST_NUMBER else Unclear(WhyUnclear.OTHER)
    sent = Post(Entered(heard, text, press.by, press.at_ms, began_ms, heard_id))
    actions: tuple[KeyAction, ...] = (sent,)
    if typing.has_letters and isinstance(heard, Number):
        actions = (SpeakKey(ReadBack(heard.value)), sent)
    return replace(typing, digits=(), has_letters=False, began_ms=None), actions


def _backspace(typing: Typing, press: Pressed, situation: Situation, heard_id: HeardId) -> Outcome:
    is_rubbing_out = press.key is Key.BACKSPACE
    if typing.digits and is_rubbing_out:
        return _rubbed_out(typing, press, situation)
    if is_rubbing_out and typing.rubbed_ms is not None and press.at_ms - typing.rubbed_ms <= RUBBING_OUT_MS:
        return replace(typing, rubbed_ms=press.at_ms, taken_back=None), ()
    if typing.taken_back and _still_stands(typing.taken_back, situation):
        return _put_back(typing, press, typing.taken_back)
    return _take_back(replace(typing, rubbed_ms=None), press, situation, heard_id)


def _rubbed_out(typing: Typing, press: Pressed, situation: Situation) -> Outcome:
    *left, last = typing.digits
    has_letters = typing.has_letters and bool(left)
    rubbed = replace(
        typing,
        digits=tuple(left),
        has_letters=has_letters,
        rubbed_ms=press.at_ms,
        focus=Focus.ANSWER,
        taken_back=None,
    )
    return rubbed, _spoken(RubbedOut(last, is_empty=not left), situation)


def _still_stands(taken: TakenBack, situation: Situation) -> bool:
    return (
        situation.question is not None
        and situation.question[0] == taken.cell
        and situation.answers == taken.answers_left
    )


def _take_back(typing: Typing, press: Pressed, situation: Situation, heard_id: HeardId) -> Outcome:
    given = _given(Command.NOT_WHAT_I_SAID, press, heard_id)
    return replace(typing, taken_back=situation.takes_back), (given,)


def _put_back(typing: Typing, press: Pressed, taken: TakenBack) -> Outcome:
    """A void is permanent, so this is a new answer to the same question, the same in all but its time."""
    again = CountsAgain(taken.number, taken.how, taken.settled, taken.part, press.at_ms)
    kept = replace(typing, taken_back=None, rubbed_ms=press.at_ms)
    return kept, (SpeakKey(PutBack(taken.number.value)), Post(again))


# ---- buttons and steps back ------------------------------------------------------------------------------


def _button(typing: Typing, press: Pressed, situation: Situation, heard_id: HeardId) -> Outcome:
    """Pressing a button moves the focus back to the answer, so that a second Enter does not press it again."""
    back = replace(typing, focus=Focus.ANSWER)
    match typing.focus:
        case Focus.GRID:
            shown = replace(back, shows_grid=not typing.shows_grid)
            return shown, (_given(Command.READ_ROW, press, heard_id),) if shown.shows_grid else ()
        case Focus.NOT_WHAT_I_SAID:
            return _take_back(back, press, situation, heard_id)
        case focus:
            return back, (_given(_BUTTONS[focus], press, heard_id),)


_BUTTONS: Mapping[Focus, Command] = {
    Focus.QUESTION: Command.SAY_AGAIN,
    Focus.HELP: Command.HELP,
    Focus.SKIP: Command.SKIP,
    Focus.PATTERNS: Command.PATTERNS,
    Focus.STOP: Command.STOP,
}


def _step_back(typing: Typing, press: Pressed, situation: Situation, heard_id: HeardId) -> Outcome:
    """Silence, or else one step back: from a button, from the grid, from a pause, from a talk about a pattern. Nothing
    typed is lost."""
    if situation.is_speaking:
        return typing, (CutSpeech(),)
    if typing.focus is not Focus.ANSWER:
        return _focused(typing, Focus.ANSWER, situation)
    if typing.shows_grid:
        return replace(typing, shows_grid=False), ()
    if situation.is_paused:
        return typing, (_given(Command.GO_ON, press, heard_id),)
    return typing, (_given(Command.NO_MORE_PATTERNS, press, heard_id),) if situation.is_about_patterns else ()


LOOKS: Mapping[Key, LookChange] = {
    Key.BIGGER: LookChange.BIGGER,
    Key.SMALLER: LookChange.SMALLER,
    Key.VIEW: LookChange.NEXT_VIEW,
    Key.COLOURS: LookChange.NEXT_COLOURS,
}


def _look_changed(typing: Typing, change: LookChange, situation: Situation) -> Outcome:
    """Choosing a view closes the grid if it was open."""
    shows_grid = typing.shows_grid and change is not LookChange.NEXT_VIEW
    return replace(typing, shows_grid=shows_grid), (*_cut(situation), ChangeLook(change))


def _focused(typing: Typing, focus: Focus, situation: Situation) -> Outcome:
    return replace(typing, focus=focus), _spoken(FocusMoved(focus, typing.digits), situation)


def _spoken(message: KeyMessage, situation: Situation) -> tuple[KeyAction, ...]:
    """What a key says interrupts whatever is being said."""
    return (*_cut(situation), SpeakKey(message))


def _cut(situation: Situation) -> tuple[KeyAction, ...]:
    return (CutSpeech(),) if situation.is_speaking else ()


def _given(command: Command, press: Pressed, heard_id: HeardId) -> Post:
    return Post(Entered(Given(command), command.value, press.by, press.at_ms, press.at_ms, heard_id))
