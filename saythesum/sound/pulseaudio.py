"""Sound servers move a stream to another loudspeaker when its own goes, without a word to the stream.

PulseAudio, and PipeWire in its place, report it through the program `pactl`. Where there is no such server
or program, a device that goes ends its stream, which is noticed without this.

A stream may ask PulseAudio not to be moved, but not through ALSA, which PortAudio plays by: named devices, PULSE_SINK
and PULSE_PROP change nothing. A combined sink works with a single loudspeaker in it: it stays when that
one goes, and is silent.
"""

import os
import re
import subprocess
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from threading import Thread

from saythesum.errors import DeviceError

ANSWERS_WITHIN_S = 2


@dataclass(frozen=True, slots=True)
class Output:
    """Where a stream of this process is heard. `port` tells a headphone socket from the loudspeaker beside it."""

    sink: str
    port: str


class Watch:
    """Posts, from its own thread, when this process may no longer be heard where it began: time to look."""

    def __init__(self, is_at_home: Callable[[], bool], post: Callable[[], None]) -> None:
        self._is_at_home = is_at_home
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
        """Our own stops and starts are reported as changes of a stream too, so a change is followed by a look."""
        assert self._told.stdout
        for line in self._told.stdout:
            is_gone = re.search(r"'remove' on sink #", line)
            is_changed = re.search(r"'change' on (sink|sink-input) #", line)
            if is_gone or (is_changed and not self._is_at_home()):
                self._post()


def our_outputs() -> frozenset[Output]:
    """Empty where no server plays anything of this process."""
    return _outputs_of(os.getpid())


def sinks_of(process: int) -> frozenset[str]:
    """Where a process is heard; what it plays into a sink of our own is followed to where that leads."""
    leads_to = dict(re.findall(r"sink_name=(\S+) slaves=(\S+)", _asked("list", "short", "modules")))
    return frozenset(leads_to.get(output.sink, output.sink) for output in _outputs_of(process))


def sink_called(wanted: str) -> str | None:
    """The sink whose name or description is that, or has it in it; None where there is no server or no such sink."""
    names = {_field(sink, "Name"): _field(sink, "Description") for sink in _listed("sinks")}
    looked_for = wanted.strip().lower()
    for name, about in names.items():
        if looked_for in (name.lower(), about.lower()):
            return name
    return next((name for name, about in names.items() if looked_for and looked_for in f"{name} {about}".lower()), None)


def _outputs_of(process: int) -> frozenset[Output]:
    its = [each for each in _listed("sink-inputs") if f'application.process.id = "{process}"' in each]
    numbers = {_field(each, "Sink") for each in its}
    sinks = _listed("sinks") if its else []
    return frozenset(
        _output(sink) for sink in sinks if (number := re.match(r"Sink #(\d+)", sink)) and number[1] in numbers
    )


def all_outputs() -> frozenset[Output]:
    return frozenset(_output(sink) for sink in _listed("sinks"))


class PrivateSink:
    """A sink of our own that leads to one other sink and nowhere else."""

    NAME = "saythesum"

    def __init__(self, sink: str, name: str = NAME) -> None:
        """`name`: its own, one for each process that has one. Raises DeviceError where the server makes none."""
        self._name = name
        for module in _asked("list", "short", "modules").splitlines():
            if f"sink_name={name} " in module:  # of a program that was killed
                _asked("unload-module", module.split()[0])
        is_known_to_work = "Server Name: pulseaudio\n" in _asked("info")  # PipeWire moves by rules of its own
        words = ("load-module", "module-combine-sink", f"sink_name={name}", f"slaves={sink}")
        self._module = _asked(*words).strip() if is_known_to_work else ""
        if not self._module:
            raise DeviceError(f"The sound server makes no sink that leads only to {sink}; it plays to that itself.")

    def close(self) -> None:
        _asked("unload-module", self._module)

    @contextmanager
    def taken(self) -> Iterator[None]:
        """A stream that is opened meanwhile plays into it."""
        before = os.environ.get("PULSE_SINK")
        os.environ["PULSE_SINK"] = self._name
        try:
            yield
        finally:
            if before is None:
                del os.environ["PULSE_SINK"]
            else:
                os.environ["PULSE_SINK"] = before


def _output(sink: str) -> Output:
    return Output(_field(sink, "Name"), _field(sink, "Active Port"))


def _listed(kind: str) -> list[str]:
    """One text for each; empty without a server."""
    return [each for each in _asked("list", kind).split("\n\n") if each.strip()]


def _asked(*words: str) -> str:
    """The server's answer; empty if there is no server, or it refuses."""
    try:
        done = subprocess.run(  # noqa: S603
            ["pactl", *words],  # noqa: S607 - as above
            env=_plain_english(),
            capture_output=True,
            text=True,
            timeout=ANSWERS_WITHIN_S,
            check=False,
        )
    except (OSError, subprocess.TimeoutExpired):
        return ""
    return done.stdout


def _field(listed: str, name: str) -> str:
    found = re.search(rf"^\s*{name}: (.+)", listed, re.MULTILINE)
    return found[1] if found else ""


def _plain_english() -> dict[str, str]:
    return {**os.environ, "LC_ALL": "C"}
