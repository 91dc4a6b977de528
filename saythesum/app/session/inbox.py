"""One queue for everything that happens, and the one thread that takes things out of it."""

import signal
import threading
from collections.abc import Callable, Iterator
from queue import Empty, SimpleQueue
from typing import TypeAlias, TypeVar

from saythesum.app.session.speech.listener import ListeningLost
from saythesum.app.session.speech.mouth import VoiceLost
from saythesum.app.session.ways_left import ScreenLost, WaysLeft
from saythesum.dialogue.turns.events import Event, InputEnded
from saythesum.errors import ScreenError
from saythesum.ports import Over, Screen, ScreenNews
from saythesum.sound.device_events import DeviceNews

Happened: TypeAlias = Event | Over | DeviceNews | VoiceLost | ListeningLost | ScreenLost | ScreenNews
Got = TypeVar("Got")


class Inbox:
    """What happens anywhere, for the one thread that runs the dialogue."""

    def __init__(self, now_ms: Callable[[], int]) -> None:
        self._now_ms = now_ms
        self._things: SimpleQueue[Happened] = SimpleQueue()
        self.screen: Screen | None = None
        self.ways: WaysLeft | None = None
        """To answer by: when none is left, the input has ended. None until the devices have been opened."""

    def post(self, thing: Happened) -> None:
        """From any thread."""
        self._things.put(thing)
        if self.screen:
            self.screen.wake()

    def after(self, wait_ms: int) -> Iterator[Happened]:
        """What has come, once something has or the time is over."""
        for thing in self._after(wait_ms):
            yield thing
            if self.ways:
                self.ways.note(thing)
                if self.ways.are_none:
                    self.ways = None  # posted once
                    yield InputEnded(self._now_ms())

    def _after(self, wait_ms: int) -> Iterator[Happened]:
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
        """Returns None without a screen. A screen that goes away is posted once, as `ScreenLost`."""
        if self.screen is None:
            return None
        try:
            return use(self.screen)
        except ScreenError as error:
            self.screen = None
            take_stops_back()
            self.post(ScreenLost(str(error)))
            return None


def take_stops_back() -> None:
    """While there is a window, SDL turns a termination signal into the closing of that window. Once the window is lost
    nobody reads that any more, so from here on the signal ends the program at once. Every answer is on disk.
    """
    if threading.current_thread() is threading.main_thread() and signal.getsignal(signal.SIGTERM) is signal.SIG_DFL:
        signal.signal(signal.SIGTERM, signal.SIG_DFL)
