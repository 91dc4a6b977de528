"""One queue for everything that happens, and the one thread that takes things out of it."""

from collections.abc import Iterator
from queue import Empty, SimpleQueue
from typing import TypeAlias

from saythesum.app.listener import ListeningLost
from saythesum.app.mouth import VoiceLost
from saythesum.dialogue.events import Event
from saythesum.dialogue.keys import Pressed
from saythesum.ports import Screen, Touched
from saythesum.sound.news import SoundNews

Happened: TypeAlias = Event | SoundNews | VoiceLost | ListeningLost | Pressed | Touched


class Inbox:
    """What happens anywhere, for the one thread that runs the dialogue."""

    def __init__(self) -> None:
        self._things: SimpleQueue[Happened] = SimpleQueue()
        self.screen: Screen | None = None

    def post(self, thing: Happened) -> None:
        """From any thread."""
        self._things.put(thing)
        if self.screen:
            self.screen.wake()

    def after(self, wait_ms: int) -> Iterator[Happened]:
        """What has come, once something has or the time is over. Raises ScreenError when the screen has gone."""
        if self.screen:
            yield from self.screen.presses(0 if not self._things.empty() else wait_ms)
        else:
            try:
                yield self._things.get(timeout=wait_ms / 1000)
            except Empty:
                return
        while True:
            try:
                yield self._things.get_nowait()
            except Empty:
                return
