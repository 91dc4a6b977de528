"""The voice: phrases rendered by a child process, which is started again when it fails."""

import json
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from threading import Lock
from typing import TypeVar

import numpy as np

from saythesum.errors import VoiceError
from saythesum.ports import LISTENING_RATE_HZ, Sound
from saythesum.settings import Speech
from saythesum.speaking.loudness import levelled, trimmed
from saythesum.speaking.phrase_cache import KeptVoice
from saythesum.speaking.worker_process import Child, ChildFailedError, Engine, child_command

DEADLINE_MS = 10_000
"""Measured on two cores: 12 ms for a phrase, 90 ms for getting ready."""
TRIES = 2
Result = TypeVar("Result")


class ChildVoice:
    """A `Voice`. The child is started at once, so that it gets ready while the caller goes on."""

    def __init__(
        self,
        speech: Speech,
        *,
        command: Sequence[str] | None = None,
        deadline_ms: int = DEADLINE_MS,
        scratch: Path | None = None,
    ) -> None:
        self._speech = speech
        self._command = tuple(command or child_command())
        self._deadline_ms = deadline_ms
        self._scratch = scratch
        self._one_at_a_time = Lock()
        self._closed = False
        self._child: Child | None = None
        self._engine: Engine | None = None
        """Of the running child, once that is ready."""
        with suppress(ChildFailedError):
            self._child = Child(self._command, deadline_ms, scratch)

    def render(self, phrase: str) -> Sound:
        """Trimmed, and as loud as every other phrase; no sound for a phrase without a letter or digit.

        From any thread. Raises VoiceError.
        """
        plain = "".join(character if character.isprintable() else " " for character in phrase)
        if not any(character.isalnum() for character in plain):
            return Sound(np.zeros(0, np.float32), LISTENING_RATE_HZ)
        rendered = self._with_child(lambda child, _: child.render(plain), f"say {plain.strip()!r}")
        return levelled(trimmed(rendered), self._speech.volume_percent / 100)

    @property
    def identity(self) -> str:
        """All that a phrase's sound depends on, besides the phrase. Raises VoiceError."""
        engine, speech = self._ready_engine(), self._speech
        return json.dumps([engine.name, engine.voice, speech.rate_wpm, speech.pitch, speech.volume_percent])

    @property
    def notice(self) -> str | None:
        """What of the settings this machine's voice cannot do, for the person. Raises VoiceError."""
        engine, wanted = self._ready_engine(), self._speech
        told = []
        if engine.voice != wanted.voice:
            told.append(f'The voice "{wanted.voice}" is not on this machine; "{engine.voice}" speaks instead.')
        if "pitch" in engine.cannot and wanted.pitch != Speech().pitch:
            told.append("The voice of this machine has no pitch to set.")
        return " ".join(told) or None

    def close(self) -> None:
        """Cuts short whatever another thread waits for; that raises VoiceError there."""
        self._closed = True
        if child := self._child:
            child.kill()
        with self._one_at_a_time:
            self._drop_child()

    def _ready_engine(self) -> Engine:
        return self._with_child(lambda _, engine: engine, "start")

    def _with_child(self, work: Callable[[Child, Engine], Result], doing: str) -> Result:
        """`work` is done twice at most, each time with a child that has not failed yet."""
        reasons: list[str] = []
        with self._one_at_a_time:
            while len(reasons) < TRIES and not self._closed:
                try:
                    return work(*self._ready_child())
                except ChildFailedError as error:
                    reasons.append(str(error))
                    self._drop_child()
        because = "; again: ".join(reasons) or "it was closed"
        raise VoiceError(f"The voice could not {doing} ({because}); `saythesum check` looks for the cause.")

    def _ready_child(self) -> tuple[Child, Engine]:
        if self._child is None:
            self._child = Child(self._command, self._deadline_ms, self._scratch)
        if self._engine is None:
            self._engine = self._child.get_ready(self._speech)
        return self._child, self._engine

    def _drop_child(self) -> None:
        if self._child is not None:
            self._child.close()
        self._child = self._engine = None


SLOWER = 0.85
SLOWEST_WPM = 80
"""pyttsx3's espeak driver goes no slower."""


class ToolVoice:
    """Renders phrases; can be made slower in the middle of a practice."""

    def __init__(self, speech: Speech, cache: Path, scratch: Path | None = None) -> None:
        """`scratch`: for phrases on their way, in place of the system's temporary folder."""
        self._speech = speech
        self._scratch = scratch
        self._folder = cache / "phrases"
        self._spoken, self._voice = self._voices()

    def render(self, phrase: str) -> Sound:
        """Raises VoiceError."""
        return self._voice.render(phrase)

    def slow_down(self) -> None:
        self.speak_at(max(SLOWEST_WPM, round(self._speech.rate_wpm * SLOWER)))

    def speak_at(self, rate_wpm: int) -> None:
        self._voice.close()
        self._speech = replace(self._speech, rate_wpm=rate_wpm)
        self._spoken, self._voice = self._voices()

    @property
    def notice(self) -> str | None:
        """What of the settings this machine's voice cannot do. Raises VoiceError."""
        return self._spoken.notice

    def close(self) -> None:
        self._voice.close()

    def _voices(self) -> tuple[ChildVoice, KeptVoice]:
        spoken = ChildVoice(self._speech, scratch=self._scratch)
        return spoken, KeptVoice(spoken, self._folder)
