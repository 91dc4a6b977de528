"""Learns a pupil's own words from what is certain to have been said, while the practice goes on."""

from collections.abc import Iterable
from datetime import date

from saythesum.app.session.learning.beside_practice import Heard, Quiet
from saythesum.app.session.learning.certain_sayings import Certain, CertainSayings, Saying
from saythesum.app.setup.words_kept import WordsKept
from saythesum.core.records.rows import Row
from saythesum.hearing.embedded.own_words.comparison import Comparison
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.embedded.own_words.words_file import none_yet
from saythesum.hearing.embedded.recogniser import NeuralRecogniser


class OwnWordsLearning:
    """What it learns holds from the next answer on. Frames of hearings stay in memory, to the end at most."""

    def __init__(self, before: OwnWords, kept: WordsKept, today: date) -> None:
        self.learnt = self._before = before
        self._kept, self._today = kept, today
        self._is_over = False
        self._sayings, self._certain = _none()

    def learn(self, thing: Heard | Row, engine: NeuralRecogniser, quiet: Quiet) -> None:
        """Nothing more, and plain listening, once they may not be used."""
        if self._is_over:
            return
        if not self._kept.may_be_used:  # also before each question: its answer is heard plainly then
            self._stop(engine)
            return
        if engine.vocal_tract_factor != self._before.factor:
            self._before = none_yet(engine.vocal_tract_factor)
            self._sayings, self._certain = _none()
        self._sayings.add(thing)
        if self._sayings.certain.keys() != self._certain.keys():
            self._certain = self._sayings.certain
            self._use(self._with(self._certain.values()), engine)

    def close(self) -> None:
        """All is kept already."""

    def _stop(self, engine: NeuralRecogniser) -> None:
        self._is_over = True
        engine.own_words = None
        self.learnt = self._before = none_yet(self._before.factor)
        self._sayings, self._certain = _none()

    def _use(self, learnt: OwnWords, engine: NeuralRecogniser) -> None:
        if learnt != self.learnt and self._kept.keep(learnt):
            self.learnt = learnt
            engine.own_words = Comparison(learnt)

    def _with(self, sayings: Iterable[tuple[int, Saying]]) -> OwnWords:
        """Added to those from before the practice, so that a mark that is taken back leaves nothing behind. A take
        that is odd is left out."""
        learnt = self._before
        for number, saying in sayings:
            if saying.factor == learnt.factor:
                came = learnt.with_take(number, saying.frames, on=self._today)
                learnt = came if isinstance(came, OwnWords) else learnt
        return learnt


def _none() -> tuple[CertainSayings, Certain]:
    return CertainSayings(), {}
