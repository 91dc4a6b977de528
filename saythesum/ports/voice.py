from typing import Protocol

from saythesum.ports.sound import Sound


class Voice(Protocol):
    """Turns a phrase into sound; it never plays anything itself."""

    def render(self, phrase: str) -> Sound:
        """Raises VoiceError when the phrase cannot be spoken even after a restart."""

    def close(self) -> None: ...


class PacedVoice(Voice, Protocol):
    """A voice whose pace can change in the middle of a practice."""

    def slow_down(self) -> None: ...

    def speak_at(self, rate_wpm: int) -> None: ...
