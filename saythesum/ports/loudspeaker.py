from dataclasses import dataclass
from typing import Protocol, TypeAlias

from saythesum.dialogue.turns.events import UtteranceId
from saythesum.ports.sound import Sound

BETWEEN_SOUNDS_MS = 250
"""From the end of one sound to the beginning of the next, unless asked otherwise."""


@dataclass(frozen=True, slots=True)
class OwnSound:
    """A sound cue, or what is said of a key or a device: no utterance of the dialogue, which never hears of it."""

    serial: int


SoundId: TypeAlias = UtteranceId | OwnSound


@dataclass(frozen=True, slots=True)
class Over:
    """A sound has been heard to its end, or was cut, or could not be played."""

    id: SoundId
    at_ms: int
    """The run's clock."""
    cut_ms: int | None = None
    """How much of it was heard before it was cut; None when it was heard whole."""


class Loudspeaker(Protocol):
    """One sound after the other. Every id that was played comes back in one `Over`, whatever happens.

    `play` and `cut` return at once and may be called from any thread.
    """

    def play(self, id: SoundId, sound: Sound, *, after_ms: int = BETWEEN_SOUNDS_MS) -> None:
        """After what is playing, `after_ms` from its end; after a cut at once."""

    def cut(self) -> None:
        """Silence at once; what waits is dropped too."""

    def close(self) -> None:
        """Cuts what is playing."""
