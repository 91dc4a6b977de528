from typing import Protocol

from saythesum.dialogue.turns.effects import Listen


class Listener(Protocol):
    """An ear that opens and shuts. What it hears is posted as events of the dialogue.

    Sound from before the ear opened, and from after it shut, is forgotten.
    """

    @property
    def is_ready(self) -> bool:
        """It listens as soon as it is asked to: the engine is loaded."""

    @property
    def heard_until_ms(self) -> int:
        """The run's clock at the end of the sound it has listened to, or passed over, so far."""

    def open(self, listen: Listen, now_ms: int, *, silent_from_ms: int = 0) -> None:
        """`silent_from_ms`: when the tool cannot be heard any more, not even as an echo."""

    def shut(self) -> None: ...

    def close(self) -> None: ...
