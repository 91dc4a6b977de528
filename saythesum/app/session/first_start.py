"""The start without a verb: silent until a key or a word; the first time, five questions by ear and key."""

from collections.abc import Callable, Iterator
from typing import Any

from saythesum.app.session.inbox import Happened, Inbox
from saythesum.dialogue.turns.events import InputEnded, SpeechBegan
from saythesum.keyboard.keys import Key, Pressed
from saythesum.ports import Touched
from saythesum.wording.speak.said_start import KEPT, PRINT, SPEED, START_QUESTIONS, WAY, StartQuestion, welcome

WAIT_MS = 1_000
PASSED = -1
"""Escape: all further questions are passed over."""

Changes = dict[str, dict[str, Any]]


class FirstStart:
    """Asks by `say`, which gets what to say and, within a question, that question and the place of its answer;
    `try_out` makes a choice be heard or seen at once; `aside` gets whatever is no answer.
    """

    def __init__(
        self,
        inbox: Inbox,
        say: Callable[[str, StartQuestion | None, int], None],
        try_out: Callable[[StartQuestion, Any], None],
        aside: Callable[[Happened], None],
    ) -> None:
        self.wants_desk = False
        """An adult asked for the desk in place of an answer."""
        self._inbox, self._say, self._try_out, self._aside = inbox, say, try_out, aside

    def wait_for_someone(self) -> bool:
        """Until a key, a touch or a word; False where the input ended instead."""
        for thing in self._things():
            if isinstance(thing, InputEnded) or (isinstance(thing, Pressed) and thing.key is Key.CLOSE):
                return False
            if isinstance(thing, Pressed) and thing.is_let_go:
                continue
            if isinstance(thing, Pressed | Touched | SpeechBegan):
                return True
            self._aside(thing)
        return False

    def ask(self, *, has_window: bool, has_microphone: bool) -> Changes | None:
        """The changed settings, by table and name; None where the input ended, or the desk is wanted.

        Without a window the size of the print is not asked for, without a microphone not whether to speak.
        """
        left_out = ([] if has_window else [PRINT]) + ([] if has_microphone else [WAY])
        questions = [question for question in START_QUESTIONS if question not in left_out]
        self._say(welcome(len(questions)), None, 0)
        changes: Changes = {"start": {"asked": True}}
        for question in questions:
            chosen = self._chosen(question)
            if chosen is None:
                return None
            if chosen == PASSED:
                break
            changes.setdefault(question.table, {})[question.setting] = question.values[chosen]
        self._say(KEPT, None, 0)
        return changes

    def _chosen(self, question: StartQuestion) -> int | None:
        """The place of the answer; PASSED, or None where the input ended."""
        at = question.begins_at
        self._say(question.asked(at), question, at)
        for thing in self._things():
            if isinstance(thing, InputEnded):
                return None
            if not isinstance(thing, Pressed):
                self._aside(thing)
                continue
            match thing.key:
                case _ if thing.is_repeat:
                    pass
                case Key.ENTER:
                    return at
                case Key.ESCAPE:
                    return PASSED
                case Key.CLOSE:
                    return None
                case Key.ADULT:
                    self.wants_desk = True
                    return None
                case Key.UP | Key.DOWN:
                    at = min(max(at + (1 if thing.key is Key.UP else -1), 0), len(question.values) - 1)
                    if question in (SPEED, PRINT):
                        self._try_out(question, question.values[at])
                    self._say(question.choices[at], question, at)
                case Key.SPACE | Key.SAY_AGAIN | Key.KEYS_ALOUD:
                    self._say(question.asked(at), question, at)
                case _:
                    self._aside(thing)
        return None

    def _things(self) -> Iterator[Happened]:
        while True:
            yield from map(_as_key, self._inbox.after(WAIT_MS))


def _as_key(thing: Happened) -> Happened:
    """The one button whose touch is no key is Enter."""
    return Pressed(Key.ENTER, thing.at_ms) if isinstance(thing, Touched) else thing
