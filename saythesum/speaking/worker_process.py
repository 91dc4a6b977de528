"""One run of the child program, seen from its parent. It may hang, die or babble at any moment."""

import json
import os
import subprocess
import sys
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Event, Timer
from typing import Any

from saythesum.errors import VoiceError
from saythesum.ports import Sound
from saythesum.settings import Speech
from saythesum.speaking.pcm import DamagedFileError, read_pcm

LONGEST_ANSWER_BYTES = 10_000
WITHOUT_SOUND = {"PULSE_SERVER": "unix:/nonexistent", "PIPEWIRE_REMOTE": "nonexistent"}
"""The child only renders. eSpeak looks for a sound server all the same, and would wait for one that hangs."""


class ChildFailedError(Exception):
    """The child hung, died, babbled or said that it failed; the text is the reason."""


def child_command() -> tuple[str, ...]:
    """By its path and with -P, so that a wave.py, say, in the folder where the user is cannot get in."""
    spec = find_spec("saythesum.speaking.worker")
    assert spec and spec.origin
    return (sys.executable, "-P", spec.origin)


@dataclass(frozen=True, slots=True)
class Engine:
    """What the child says about itself when it is ready."""

    name: str
    voice: str
    cannot: tuple[str, ...]
    """Settings that this engine does not have."""


class Child:
    """Every way of failing ends as ChildFailedError; after one, the child is to be closed."""

    def __init__(self, command: Sequence[str], deadline_ms: int, scratch: Path | None = None) -> None:
        """`deadline_ms` is for one phrase, and for getting ready. `scratch`: where phrases are handed over, in place of
        the system's temporary folder.
        """
        self._deadline_s = deadline_ms / 1000
        self._count = 0
        try:
            self._process = subprocess.Popen(  # noqa: S603  our own program
                command,
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                env=os.environ | WITHOUT_SOUND,
            )
        except OSError as error:
            raise ChildFailedError(f"it cannot be started: {error}") from error
        self._folder = TemporaryDirectory(prefix="saythesum-voice-", dir=scratch, ignore_cleanup_errors=True)

    def get_ready(self, speech: Speech) -> Engine:
        """Raises VoiceError where starting again would not help."""
        answer = self._ask(voice=speech.voice, rate_wpm=speech.rate_wpm, pitch=speech.pitch)
        if "missing" in answer:
            raise VoiceError(_MISSING.get(answer["missing"], _MISSING["library"]))
        try:
            return Engine(str(answer["ready"]), str(answer["voice"]), tuple(answer["cannot"]))
        except (KeyError, TypeError) as error:
            raise ChildFailedError("it did not say that it was ready") from error

    def render(self, phrase: str) -> Sound:
        self._count += 1
        path = Path(self._folder.name) / f"{self._count}.wav"
        answer = self._ask(number=self._count, phrase=phrase, file=str(path))
        if answer != {"number": self._count}:
            raise ChildFailedError(str(answer.get("failed", "it answered something else")))
        try:
            return read_pcm(path)
        except (DamagedFileError, OSError) as error:
            raise ChildFailedError(f"it wrote no whole sound file: {error}") from error
        finally:
            path.unlink(missing_ok=True)

    def kill(self) -> None:
        """From any thread."""
        self._process.kill()

    def close(self) -> None:
        self._process.kill()
        with suppress(BrokenPipeError), self._process:  # closes the pipes and waits; one may hold an unread request
            pass
        self._process.wait()
        self._folder.cleanup()

    def _ask(self, **request: object) -> dict[str, Any]:
        line = self._exchange(json.dumps(request).encode() + b"\n")
        try:
            answer = json.loads(line)
        except ValueError:
            answer = None
        if not isinstance(answer, dict):
            raise ChildFailedError("it wrote something that is no answer")
        return answer

    def _exchange(self, line: bytes) -> bytes:
        """At the deadline the child is killed, so that one that hangs becomes one that died."""
        assert self._process.stdin and self._process.stdout
        late = Event()

        def give_up() -> None:
            late.set()
            self._process.kill()

        watch = Timer(self._deadline_s, give_up)
        watch.daemon = True
        watch.start()
        try:
            self._process.stdin.write(line)
            self._process.stdin.flush()
            answer = self._process.stdout.readline(LONGEST_ANSWER_BYTES)
        except OSError:
            answer = b""
        finally:
            watch.cancel()
        if late.is_set():
            raise ChildFailedError(f"it did not answer within {self._deadline_s:g} seconds")
        if not answer:
            raise ChildFailedError("it died")
        return answer


_MISSING = {
    "library": "No voice: the speech library is missing or does not start; on Debian and Ubuntu install it with "
    "apt-get install espeak-ng.",
    "package": "No voice: the Python package pyttsx3, or a part of it, is missing; install saythesum again.",
}
