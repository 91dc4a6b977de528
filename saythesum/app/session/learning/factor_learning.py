"""Learns how much lower a pupil is heard best, from the answers that were kept, while the practice goes on."""

from collections.abc import Callable, Iterator

from saythesum.app.session.learning.beside_practice import Heard, Quiet
from saythesum.core.meanings import Awaiting
from saythesum.core.records.rows import Answer, By, HeardId, Row
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.vocal_tract.factor import FACTORS, Evidence, VocalTract
from saythesum.ports import LISTENING_RATE_HZ, Samples

MOST_SOUNDS = 8
"""Kept in memory until it is known whether they were answers; the oldest goes first."""
LONGEST_S = 4
"""Longer ones are sentences or counts, and cost more than they tell."""


class FactorLearning:
    """What it finds holds from the next answer on."""

    def __init__(self, so_far: VocalTract, keep: Callable[[VocalTract], None]) -> None:
        """`keep` is called when the factor changes, and at the end where anything was learnt."""
        self.learnt = self._kept = so_far
        self._keep = keep
        self._evidence = Evidence()
        self._sounds: dict[HeardId, Samples] = {}

    def learn(self, thing: Heard | Row, engine: NeuralRecogniser, quiet: Quiet) -> None:
        """Of an answer by voice that was kept, what was heard was the pupil."""
        match thing:
            case Heard(event=event, sound=sound):
                self._sounds[event.id] = sound
                while len(self._sounds) > MOST_SOUNDS:
                    del self._sounds[next(iter(self._sounds))]
            case Answer(by=By.VOICE, heard=id) if id in self._sounds:
                self._learn_from(self._sounds.pop(id), engine, quiet)

    def close(self) -> None:
        if self.learnt != self._kept:
            self._keep(self.learnt)

    def _learn_from(self, sound: Samples, engine: NeuralRecogniser, quiet: Quiet) -> None:
        """The factor stays while the pupil's own words are of use: they mean nothing with another."""
        if len(sound) > LONGEST_S * LISTENING_RATE_HZ or (engine.own_words and engine.own_words.is_of_use):
            return
        self._evidence = self._evidence.with_answer(_scores(engine, sound, quiet))
        self.learnt = self.learnt.after(self._evidence)
        if self.learnt.factor != engine.vocal_tract_factor:
            engine.vocal_tract_factor = self.learnt.factor
            self._kept = self.learnt
            self._keep(self.learnt)


def _scores(engine: NeuralRecogniser, sound: Samples, quiet: Quiet) -> Iterator[float]:
    for factor in FACTORS:
        quiet.wait()
        yield from engine.log_probabilities(sound, Awaiting.NUMBER, [factor])
