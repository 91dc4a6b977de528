from dataclasses import dataclass
from typing import Protocol

from saythesum.core.meanings import Awaiting, Meaning
from saythesum.ports.sound import Samples


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """One thing a stretch of speech may have meant.

    `meaning` None stands for a rival that is no answer (an ordinal, say): it takes part so that it can win.
    """

    meaning: Meaning | None
    log_probability: float


@dataclass(frozen=True, slots=True)
class Hearing:
    """What an engine makes of one stretch of speech; the gate turns it into one meaning."""

    ranked: tuple[Hypothesis, ...]
    """The closed set, likeliest first, one entry a meaning. Empty where nothing fitted at all."""
    free_text: str
    """What an unconstrained hearing wrote; "" where the engine has none."""
    free_log_probability: float
    inside: tuple[Hypothesis, ...] = ()
    """Where the free text is a sentence with something of the closed set in it: the last such place alone, heard
    again against the closed set, likeliest first. Empty where there is none, or the engine cannot."""
    is_speech: bool = True


class Recogniser(Protocol):
    """One engine. Opened for a kind of answer, fed blocks, closed; it can be opened again."""

    name: str

    def open(self, awaiting: Awaiting) -> None: ...

    def feed(self, block: Samples) -> None:
        """Mono, LISTENING_RATE_HZ, any length."""

    def so_far(self) -> Hearing:
        """What was fed since `open`, as if it ended here. Feeding may go on afterwards."""

    def close(self) -> Hearing: ...
