"""Learns a pupil's own words from what is certain to have been said, while the practice goes on."""

from collections.abc import Callable, Iterable
from datetime import date

from saythesum.app.session.learning.beside_practice import Heard, Quiet
from saythesum.app.session.learning.certain_sayings import Certain, CertainSayings, Saying
from saythesum.core.records.rows import Row
from saythesum.hearing.embedded.own_words.comparison import Comparison
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.embedded.own_words.words_file import none_yet
from saythesum.hearing.embedded.recogniser import NeuralRecogniser


class OwnWordsLearning:
    """What it learns holds from the next answer on. Frames of hearings are kept in memory, to the end at most."""

    def __init__(self, before: OwnWords, keep: Callable[[OwnWords], None], today: date) -> None:
        """`keep` is called whenever there are more or other takes than before."""
        self.learnt = self._before = before
        self._keep, self._today = keep, today
        self._sayings = CertainSayings()
        self._certain: Certain = {}

    def learn(self, thing: Heard | Row, engine: NeuralRecogniser, quiet: Quiet) -> None:
        """Begins anew where the vocal-tract factor has changed: what was lowered otherwise cannot be compared."""
        if engine.vocal_tract_factor != self._before.factor:
            self._before = none_yet(engine.vocal_tract_factor)
            self._certain = {}
        self._sayings.add(thing)
        certain = self._sayings.certain
        if certain.keys() == self._certain.keys():
            return
        self._certain = certain
        learnt = self._with(certain.values())
        if learnt != self.learnt:
            self.learnt = learnt
            engine.own_words = Comparison(learnt)
            self._keep(learnt)

    def close(self) -> None:
        """All is kept already."""

    def _with(self, sayings: Iterable[tuple[int, Saying]]) -> OwnWords:
        """Added to those from before the practice, so that a mark that is taken back leaves nothing behind. A take
        that is odd is left out."""
        learnt = self._before
        for number, saying in sayings:
            if saying.factor == learnt.factor:
                came = learnt.with_take(number, saying.frames, on=self._today)
                learnt = came if isinstance(came, OwnWords) else learnt
        return learnt
