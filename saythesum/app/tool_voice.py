"""The voice the tool speaks with in one practice."""

from dataclasses import replace
from pathlib import Path

from saythesum.ports import Sound
from saythesum.settings import Speech
from saythesum.speaking.kept import KeptVoice
from saythesum.speaking.spoken import ChildVoice

SLOWER = 0.85
SLOWEST_WPM = 80
"""pyttsx3's espeak driver goes no slower."""


class ToolVoice:
    """Renders phrases; can be made slower in the middle of a practice."""

    def __init__(self, speech: Speech, cache: Path) -> None:
        self._speech = speech
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
        spoken = ChildVoice(self._speech)
        return spoken, KeptVoice(spoken, self._folder)
