"""Sound servers move a stream to another loudspeaker when its own goes, and tell the stream nothing.

PulseAudio, and PipeWire in its place, tell it to whoever asks, by the program `pactl`. Where there is no such server
or program, a device that goes ends its stream, which is noticed without this.
"""

import os
import re
import subprocess
from collections.abc import Callable
from dataclasses import dataclass
from threading import Thread

ANSWERS_WITHIN_S = 2


@dataclass(frozen=True, slots=True)
class Place:
    """Where a stream of this process is heard. `port` tells a socket for headphones from the loudspeaker beside it."""

    sink: str
    port: str


class Watch:
    """Posts, from a thread of its own, when this process may not be heard at `home` any more: look, then."""

    def __init__(self, home: frozenset[Place], post: Callable[[], None]) -> None:
        self._home = home
        self._post = post
        self._told = subprocess.Popen(
            ["pactl", "subscribe"],  # noqa: S607 - the user's own, found as the shell finds it
            env=_plain_english(),
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        )
        self._thread = Thread(target=self._listen, name="sound server", daemon=True)
        self._thread.start()

    def close(self) -> None:
        self._told.kill()
        self._told.wait()
        self._thread.join()
        if self._told.stdout:
            self._told.stdout.close()

    def _listen(self) -> None:
        """Our own stops and starts are changes of a stream, too: of a change only what it came to matters."""
        assert self._told.stdout
        for line in self._told.stdout:
            is_gone = re.search(r"'remove' on sink #", line)
            is_changed = re.search(r"'change' on (sink|sink-input) #", line)
            if is_gone or (is_changed and not places_of_ours() <= self._home):
                self._post()


def places_of_ours() -> frozenset[Place]:
    """Empty where no server plays anything of this process."""
    ours = [each for each in _listed("sink-inputs") if f'application.process.id = "{os.getpid()}"' in each]
    numbers = {_field(each, "Sink") for each in ours}
    sinks = _listed("sinks") if ours else []
    return frozenset(
        Place(_field(sink, "Name"), _field(sink, "Active Port"))
        for sink in sinks
        if (number := re.match(r"Sink #(\d+)", sink)) and number[1] in numbers
    )


def _listed(kind: str) -> list[str]:
    """One text for each; nothing where there is no server."""
    try:
        done = subprocess.run(  # noqa: S603
            ["pactl", "list", kind],  # noqa: S607 - as above
            env=_plain_english(),
            capture_output=True,
            text=True,
            timeout=ANSWERS_WITHIN_S,
            check=False,
        )
    except (OSError, subprocess.TimeoutExpired):
        return []
    return [each for each in done.stdout.split("\n\n") if each.strip()]


def _field(listed: str, name: str) -> str:
    found = re.search(rf"^\s*{name}: (.+)", listed, re.MULTILINE)
    return found[1] if found else ""


def _plain_english() -> dict[str, str]:
    return {**os.environ, "LC_ALL": "C"}
