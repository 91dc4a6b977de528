"""Practising by keys in a plain terminal: a line out for each thing said, keys in, the typed digits behind it."""

from collections.abc import Callable, Iterable
from typing import TextIO
from uuid import uuid4

from saythesum.app.session.practice import Wish, practice, setup_for
from saythesum.app.session.runner import Runner
from saythesum.app.terminal.console import in_lines
from saythesum.app.terminal.keys import keys_from
from saythesum.core.records.rows import HeardId
from saythesum.dialogue.turns.effects import Ear, Listen, Wake
from saythesum.dialogue.turns.events import Began, InputEnded, UtteranceEnded, UtteranceId
from saythesum.keyboard.answer_entry import Digits, Typing, keep_with_question, situation
from saythesum.keyboard.key_actions import pressed
from saythesum.keyboard.keymap import keymap_of
from saythesum.keyboard.keys import ChangeLook, ChangeSpeaker, DigitTyped, KeyAction, NoWindow, Post, Pressed, SpeakKey
from saythesum.scene.scene import for_adult
from saythesum.wording.speak.said_keys import key_said


class TypedLine:
    """Plain lines, and after the last one what is being typed. The cursor only ever goes on, for a screen reader."""

    def __init__(self, write: Callable[[str], None]) -> None:
        self._write = write
        self._typed: Digits = ()

    def show(self, text: str) -> None:
        self.end()
        self._write(f"{in_lines(text)}\n")

    def type(self, digits: Digits) -> None:
        """What is typed by now; if that does not continue what stands there, it goes onto a new line."""
        if digits[: len(self._typed)] != self._typed:
            self.end()
        more = digits[len(self._typed) :]
        if more:
            self._write("".join(map(str, more)))
        self._typed = digits

    def end(self) -> None:
        if self._typed:
            self._write("\n")
        self._typed = ()


class KeysOutlets:
    """What is said is shown, and with that it has been said. Typed answers are not said back: no timer is needed."""

    runner: Runner

    def __init__(self, line: TypedLine) -> None:
        self._line = line

    def say(self, id: UtteranceId, text: str) -> None:
        self._line.show(text)
        self.runner.post(UtteranceEnded(id, self.runner.now_ms))

    def note(self, text: str, *, cuts: bool) -> None:
        self._line.show(text)

    def cue(self, name: str) -> None:
        pass

    def hush(self) -> None:
        pass

    def speak_slower(self) -> None:
        pass

    def listen(self, listen: Listen) -> None:
        pass

    def shut_ear(self) -> None:
        pass

    def wake(self, wake: Wake, since_ms: int) -> None:
        pass


def practise_by_keys(wish: Wish, stdin: TextIO | None, write: Callable[[str], None]) -> None:
    """Until the practice is over; the end of the input is a stop that keeps the place."""
    line = TypedLine(write)
    outlets = KeysOutlets(line)
    setup = setup_for(wish.pupil, wish.today)
    with practice(wish, setup, Ear.KEYS, outlets) as runner:
        outlets.runner = runner
        with keys_from(stdin, lambda: runner.now_ms, keymap_of(setup.settings)) as presses:
            runner.post(Began(runner.now_ms))
            run_by_keys(presses, runner, line)


def run_by_keys(presses: Iterable[Pressed], runner: Runner, line: TypedLine) -> None:
    typing = Typing()
    listed: tuple[str, ...] = ()
    for press in presses:
        if runner.finished:
            return
        typing, actions = pressed(typing, press, situation=situation(runner.state), heard_id=HeardId(str(uuid4())))
        _carry_out(actions, runner, line)
        listed = _list_marks(runner, line, listed)
        typing, actions = keep_with_question(typing, situation(runner.state))
        _carry_out(actions, runner, line)
        line.type(typing.digits)
        if runner.finished:
            return
    line.end()
    runner.post(InputEnded(runner.now_ms))


def _list_marks(runner: Runner, line: TypedLine, before: tuple[str, ...]) -> tuple[str, ...]:
    """In the adult's turn, where there is anything new to read."""
    marks = for_adult(runner.state)
    if marks != before:
        for text in marks:
            line.show(text)
    return marks


def _carry_out(actions: Iterable[KeyAction], runner: Runner, line: TypedLine) -> None:
    """Speech is over as soon as it is shown: nothing is cut here. The print is the terminal's own."""
    for action in actions:
        match action:
            case Post(event=event):
                line.end()
                runner.post(event)
            case SpeakKey(message=DigitTyped()):
                pass  # its echo is heard or read already
            case SpeakKey(message=message):
                line.show(key_said(message))
            case ChangeLook() | ChangeSpeaker():
                line.show(key_said(NoWindow()))
