"""One queue for everything that happens, and the one thread that takes things out of it."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from queue import Empty, SimpleQueue
from typing import TypeAlias, TypeVar

from saythesum.app.session.listener import ListeningLost
from saythesum.app.session.mouth import VoiceLost
from saythesum.dialogue.turns.events import Event, InputEnded
from saythesum.errors import ScreenError
from saythesum.keyboard.keys import Pressed
from saythesum.ports import Over, Screen, Touched
from saythesum.sound.device_events import DeviceNews


@dataclass(frozen=True, slots=True)
class ScreenLost:
    sentence: str


Happened: TypeAlias = Event | Over | DeviceNews | VoiceLost | ListeningLost | ScreenLost | Pressed | Touched
Got = TypeVar("Got")


class Inbox:
    """What happens anywhere, for the one thread that runs the dialogue."""

    def __init__(self) -> None:
        self._things: SimpleQueue[Happened] = SimpleQueue()
        self.screen: Screen | None = None
        self.ends_with_screen: Callable[[], InputEnded] | None = None
        """Set where nothing but the window's keyboard can be answered with."""

    def post(self, thing: Happened) -> None:
        """From any thread."""
        self._things.put(thing)
        if self.screen:
            self.screen.wake()

    def after(self, wait_ms: int) -> Iterator[Happened]:
        """What has come, once something has or the time is over."""
        if self.screen:
            wait_ms = wait_ms if self._things.empty() else 0
            yield from self.on_screen(lambda screen: screen.presses(wait_ms)) or ()
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

    def on_screen(self, use: Callable[[Screen], Got]) -> Got | None:
        """None where there is no screen. One that has gone away is told once, as `ScreenLost`."""
        if self.screen is None:
            return None
        try:
            return use(self.screen)
        except ScreenError as error:
            self.screen = None
            self.post(ScreenLost(str(error)))
            if self.ends_with_screen:
                self.post(self.ends_with_screen())
            return None
