from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Protocol, TypeAlias

from saythesum.core.meanings import Awaiting, Meaning
from saythesum.ports.sound import Samples

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Frames: TypeAlias = "NDArray[np.float32]"
"""What an encoder makes of a stretch of sound: a row for each short while."""


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """One thing a stretch of speech may have meant.

    `meaning` None stands for a rival that is no answer (an ordinal, say): it takes part so that it can win.
    """

    meaning: Meaning | None
    log_probability: float


@dataclass(frozen=True, slots=True)
class SecondOpinion:
    """What a second model, of the same sound, thinks was meant."""

    log_probabilities: Mapping[Meaning | None, float]
    """Of each meaning it tells apart; None is something else, whatever that may be."""
    of_others: float
    """Of all numbers together that have no place of their own."""

    def of(self, meaning: Meaning | None) -> float:
        return self.log_probabilities.get(meaning, self.of_others)

    def doubt(self, meaning: Meaning | None) -> float:
        """By how many nats it prefers anything else to `meaning`; below 0 where it prefers that."""
        others = [score for other, score in self.log_probabilities.items() if other != meaning]
        if meaning in self.log_probabilities:
            others.append(self.of_others)
        return max(others) - self.of(meaning)


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
    second: SecondOpinion | None = None
    """None where the engine has none."""
    frames: "Frames | None" = field(default=None, compare=False, repr=False)
    """What the engine's encoder made of the sound, for whoever compares sayings; None where there is no encoder."""


class Recogniser(Protocol):
    """One engine. Opened for a kind of answer, fed blocks, closed; it can be opened again."""

    name: str

    def open(self, awaiting: Awaiting) -> None: ...

    def feed(self, block: Samples) -> None:
        """Mono, LISTENING_RATE_HZ, any length."""

    def so_far(self) -> Hearing:
        """What was fed since `open`, as if it ended here. Feeding may go on afterwards."""

    def close(self) -> Hearing: ...
