"""Practising in plain text: one line out for each thing said, one line in for each answer or command."""

from collections.abc import Iterable
from uuid import uuid4

from saythesum.app.session.practice import Wish, practice, setup_for
from saythesum.app.session.runner import Runner
from saythesum.app.terminal.console import in_lines, show
from saythesum.core.meanings import NUMBER_KINDS, Awaiting, Command, Given, Number
from saythesum.core.records.rows import By, HeardId
from saythesum.dialogue.turns.effects import Ear, Listen, Wake
from saythesum.dialogue.turns.events import (
    AdultMarked,
    Began,
    Entered,
    InputEnded,
    TurnGivenBack,
    TurnTaken,
    UtteranceEnded,
    UtteranceId,
)
from saythesum.hearing.typed import read
from saythesum.keyboard.keymap import Keymap, keymap_of
from saythesum.keyboard.keys import ReadBack
from saythesum.scene.scene import for_adult
from saythesum.wording.speak.said_keys import key_said

ADULTS_WORD = "adult"
"""A line of its own: the adult takes the turn, or gives it back."""


class TextOutlets:
    """What is said is shown, and with that it has been said. Nothing is timed: no timer is ever set off."""

    runner: Runner
    awaiting = Awaiting.NUMBER

    def say(self, id: UtteranceId, text: str) -> None:
        show(in_lines(text))
        self.runner.post(UtteranceEnded(id, self.runner.now_ms))

    def note(self, text: str, *, cuts: bool) -> None:
        show(text)

    def cue(self, name: str) -> None:
        pass

    def hush(self) -> None:
        pass

    def speak_slower(self) -> None:
        pass

    def listen(self, listen: Listen) -> None:
        self.awaiting = listen.awaiting

    def shut_ear(self) -> None:
        pass

    def wake(self, wake: Wake, since_ms: int) -> None:
        pass


def practise_by_text(wish: Wish, lines: Iterable[str]) -> None:
    """Until the practice is over; the end of the input is a stop that keeps the place, and so is Ctrl with C."""
    outlets = TextOutlets()
    setup = setup_for(wish.pupil, wish.today)
    with practice(wish, setup, Ear.TEXT, outlets) as runner:
        outlets.runner = runner
        keymap = keymap_of(setup.settings)
        try:
            runner.post(Began(runner.now_ms))
            _take(lines, runner, outlets, keymap)
        except KeyboardInterrupt:
            show("")  # what the terminal wrote of it stands on a line of its own
        if not runner.finished:
            runner.post(InputEnded(runner.now_ms))


def _take(lines: Iterable[str], runner: Runner, outlets: TextOutlets, keymap: Keymap) -> None:
    is_adults_turn = False
    for line in lines:
        if runner.finished:
            return
        if line.strip().lower() == ADULTS_WORD:
            is_adults_turn = not is_adults_turn
            _change_turns(runner, is_adults_turn)
        elif is_adults_turn:
            _mark(runner, line.strip())
        else:
            _enter(runner, line.rstrip("\r\n"), outlets.awaiting, keymap)
        if runner.finished:
            return


def _change_turns(runner: Runner, is_adults_turn: bool) -> None:
    if is_adults_turn:
        show("The adult's turn. A line with the word adult gives it back.")
        runner.post(TurnTaken(runner.now_ms))
        _list_marks(runner)
    else:
        runner.post(TurnGivenBack(runner.now_ms))


def _mark(runner: Runner, line: str) -> None:
    """A digit marks; whatever else is typed in the adult's turn goes nowhere."""
    if len(line) == 1 and line.isdecimal():
        runner.post(AdultMarked(int(line), runner.now_ms))
        _list_marks(runner)


def _list_marks(runner: Runner) -> None:
    about, *lines, _ = for_adult(runner.state)
    for shown in (about, *lines):
        show(shown)


def _enter(runner: Runner, line: str, awaiting: Awaiting, keymap: Keymap) -> None:
    """An empty line is Enter with nothing typed: go on, or say it again. Letters that are a number are read back."""
    in_digits = keymap.digits_of(line.strip()) if awaiting in NUMBER_KINDS else None
    heard = read(in_digits or line, awaiting) if line.strip() else Given(Command.GO_ON)
    if in_digits and isinstance(heard, Number):
        show(key_said(ReadBack(heard.value)))
    now_ms = runner.now_ms
    runner.post(Entered(heard, line, By.TEXT, now_ms, now_ms, HeardId(str(uuid4()))))
