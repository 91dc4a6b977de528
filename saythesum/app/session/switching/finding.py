"""Finding the switch by having it pressed, by ear and in print: somebody beside the pupil may help, nobody has to."""

from collections.abc import Callable, Iterator, Mapping

from saythesum.app.session.inbox import Happened, Inbox
from saythesum.app.session.speech.speech_queue import SpeechQueue
from saythesum.app.session.ways_left import ScreenLost
from saythesum.dialogue.turns.events import InputEnded
from saythesum.keyboard.keys import Key, Pressed
from saythesum.ports import Over
from saythesum.scene.start_scene import start_scene
from saythesum.wording.speak.said_switch import (
    HOLDS_NO_SWITCH,
    PRESS_SECOND,
    PRESS_YOUR_SWITCH,
    SWITCH_KEPT,
    press_again,
)

WAIT_MS = 1_000


class SwitchFinder:
    """`say` says and shows a sentence; `aside` gets whatever is no press of a switch. It waits for ever."""

    def __init__(
        self, inbox: Inbox, say: Callable[[str], None], aside: Callable[[Happened], None], debounce_ms: int
    ) -> None:
        self._inbox, self._say, self._aside, self._debounce_ms = inbox, say, aside, debounce_ms
        self._deaf_until_ms = 0

    def find(self) -> Mapping[str, str] | None:
        """The settings of `[switch]`; None where the input ended."""
        first = self._sure(PRESS_YOUR_SWITCH)
        second = self._sure(PRESS_SECOND, first) if first else None
        if first is None or second is None:
            return None
        self._say(SWITCH_KEPT)
        return {"first": first} if second == first else {"first": first, "second": second}

    def _sure(self, question: str, known: str | None = None) -> str | None:
        """What was pressed twice running, so that no accident becomes the switch; what is known is sure at once."""
        self._say(question)
        before: str | None = None
        for name in self._pressed():
            if name in (before, known):
                return name
            before = name
            self._say(press_again(name))
        return None

    def _pressed(self) -> Iterator[str]:
        """The names of what is pressed, bounces left out; it ends where the input does."""
        for thing in self._things():
            match thing:
                case InputEnded() | Pressed(key=Key.CLOSE | Key.STOP):
                    return
                case Pressed(key=Key.SWITCH, name=name, at_ms=at_ms):
                    is_bounce = thing.is_repeat or thing.is_let_go or at_ms < self._deaf_until_ms
                    self._deaf_until_ms = at_ms + self._debounce_ms
                    if not is_bounce:
                        yield name
                case Pressed(key=Key.DIGIT, is_repeat=False):
                    self._say(HOLDS_NO_SWITCH)
                case _:
                    self._aside(thing)

    def _things(self) -> Iterator[Happened]:
        while True:
            yield from self._inbox.after(WAIT_MS)


def switch_finder(inbox: Inbox, queue: SpeechQueue, debounce_ms: int) -> SwitchFinder:
    def say(sentence: str) -> None:
        queue.note(sentence, cuts=True)
        inbox.on_screen(lambda screen: screen.show(start_scene(sentence)))

    def aside(thing: Happened) -> None:
        match thing:
            case Over():
                queue.sound_over(thing)
            case ScreenLost(sentence=sentence):
                queue.note(sentence, cuts=False)
            case _:
                pass

    return SwitchFinder(inbox, say, aside, debounce_ms)
