"""The second engine: Vosk with a model that a person added. It hears while the pupil speaks, from a list of words."""

from collections.abc import Callable, Sequence
from functools import cache

import numpy as np

from saythesum.core.meanings import NUMBER_KINDS, Awaiting, Meaning
from saythesum.hearing.vosk.model import UNKNOWN, VoskModel, VoskStream
from saythesum.hearing.vosk.result import NOTHING_HEARD, alternatives_in, hearing_of
from saythesum.ports import LISTENING_RATE_HZ, Hearing, Samples
from saythesum.wording.numbers import words
from saythesum.wording.understand.phrases import word_list
from saythesum.wording.understand.understood import understood

LONGEST_S = 30
"""Whatever comes after is not listened to: no answer is as long, and memory stays bounded."""
MOST_WORDS_NAMED = 12


@cache
def entries(awaiting: Awaiting) -> tuple[str, ...]:
    """The list for the engine, in small letters as its vocabularies have them.

    It weighs words by how they follow each other in the list: with single words only, "fifty two" would be less
    likely than a "fifty" whose end is clipped. So the numbers below a hundred are there whole as well.
    """
    whole = [words(number).replace("-", " ") for number in range(100)] if awaiting in NUMBER_KINDS else []
    return tuple(dict.fromkeys(entry.lower() for entry in (*whole, *word_list(awaiting))))


class VoskRecogniser:
    """Keeps what it is fed, so that it can hear it again where the pupil goes on after `so_far`."""

    name = "vosk"

    def __init__(
        self,
        model: VoskModel,
        *,
        listens_for: Callable[[Awaiting], Sequence[str]] = entries,
        meaning: Callable[[str, Awaiting], Meaning] = understood,
    ) -> None:
        """`listens_for` and `meaning` belong together, and to the language of the model."""
        self._model = model
        self._listens_for = listens_for
        self._meaning = meaning
        self._awaiting: Awaiting | None = None
        self._stream: VoskStream | None = None
        self._blocks: list[Samples] = []
        self.fed_samples = 0
        self._heard: Hearing | None = None

    @property
    def missing_words(self) -> tuple[str, ...]:
        """Those of our words that the model does not know: what is said with them cannot be understood."""
        return self._model.missing(entry for awaiting in Awaiting for entry in self._listens_for(awaiting))

    @property
    def knows_any_number(self) -> bool:
        listed = self._listens_for(Awaiting.NUMBER)
        return any(self._model.knows(entry) for entry in listed if " " not in entry)

    def notices(self) -> tuple[str, ...]:
        """What the adult should know about the model, a sentence each."""
        found = []
        missing = self.missing_words
        if missing:
            named = ", ".join(missing[:MOST_WORDS_NAMED])
            more = f" and {len(missing) - MOST_WORDS_NAMED} more" if len(missing) > MOST_WORDS_NAMED else ""
            found.append(f"The model does not know these words, so they are not understood: {named}{more}.")
        if not self._model.knows(UNKNOWN):
            found.append("The model has no word for what is no answer, so other talk may be taken for one.")
        return tuple(found)

    def open(self, awaiting: Awaiting) -> None:
        self._awaiting = awaiting
        self._blocks, self.fed_samples, self._heard = [], 0, None
        self._stream = self._model.stream(self._listens_for(awaiting))

    def feed(self, block: Samples) -> None:
        kept = block[: LONGEST_S * LISTENING_RATE_HZ - self.fed_samples]
        if not len(kept):
            return
        if self._heard is not None:
            self._hear_again()
        self._blocks.append(kept.copy())
        self.fed_samples += len(kept)
        if self._stream:
            self._stream.feed(kept)

    def so_far(self) -> Hearing:
        if self._awaiting is None:
            raise RuntimeError("open comes first")
        if self._heard is None:
            self._heard = self._ended(self._awaiting)
        return self._heard

    def close(self) -> Hearing:
        heard = self.so_far()
        self._awaiting, self._stream, self._heard = None, None, None
        self._blocks, self.fed_samples = [], 0
        return heard

    def _hear_again(self) -> None:
        """Asking what was heard ends the engine's stream. A second of sound takes about 50 ms again."""
        assert self._awaiting is not None
        self._heard = None
        self._stream = self._model.stream(self._listens_for(self._awaiting))
        if self._stream and self._blocks:
            self._stream.feed(np.concatenate(self._blocks))

    def _ended(self, awaiting: Awaiting) -> Hearing:
        if self._stream is None or not any(block.any() for block in self._blocks):
            return NOTHING_HEARD
        alternatives = alternatives_in(self._stream.end())
        return hearing_of(alternatives, self._model.lattice_beam_nats, lambda text: self._meaning(text, awaiting))
