"""What a practice by voice begins with of what was learnt of the pupil, and what goes on learning beside it."""

from contextlib import ExitStack
from datetime import date

from saythesum.app.session.learning.beside_practice import Learner, LearningBeside
from saythesum.app.session.learning.factor_learning import FactorLearning
from saythesum.app.session.learning.own_words_learning import OwnWordsLearning
from saythesum.app.session.practice import Setup
from saythesum.app.setup.pupil_settings import has_consent, keep_vocal_tract, vocal_tract_of
from saythesum.app.setup.words_kept import WordsKept
from saythesum.app.terminal.console import tell
from saythesum.errors import ListeningError
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.embedded.own_words.words_file import read_own_words


def own_words_of(pupil: str, setup: Setup) -> OwnWords | None:
    """Those that are kept of the pupil, few or many; None without consent, and where another engine listens."""
    listening = setup.settings.listening
    if listening.engine != "neural" or not setup.settings.own_words.is_given(_today(setup)):
        return None
    try:
        return read_own_words(setup.places.words_file(pupil), listening.vocal_tract_factor, tell)
    except ListeningError:  # the ear will say so
        return None


def learning_of(pupil: str, own_words: OwnWords | None, setup: Setup, stack: ExitStack) -> LearningBeside | None:
    """None where the settings, or an engine that is as it is, leave nothing to learn."""
    listening, places, today = setup.settings.listening, setup.places, _today(setup)
    learners: list[Learner] = []
    if listening.engine == "neural" and listening.learn_vocal_tract:
        tract = vocal_tract_of(listening)
        learners.append(FactorLearning(tract, lambda learnt: keep_vocal_tract(pupil, places, learnt)))
    if own_words is not None:
        kept = WordsKept(places.words_file(pupil), lambda: has_consent(pupil, places, today), tell)
        learners.append(OwnWordsLearning(own_words, kept, today))
    if not learners:
        return None
    learning = LearningBeside(learners)
    stack.callback(learning.close)
    return learning


def _today(setup: Setup) -> date:
    return setup.clock.now().astimezone().date()
