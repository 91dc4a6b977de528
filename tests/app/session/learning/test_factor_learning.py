"""The factor learnt beside a practice: from kept spoken answers only, and never from what was said in them."""

from collections.abc import Iterable
from queue import SimpleQueue

import numpy as np
import pytest

from saythesum.app.session.learning.beside_practice import LearningBeside
from saythesum.app.session.learning.factor_learning import MOST_SOUNDS, FactorLearning
from saythesum.core.meanings import Awaiting, Unclear, WhyUnclear
from saythesum.core.records.rows import Answer, By, HeardId, RowId, Settled, Support
from saythesum.core.sums import Part
from saythesum.dialogue.turns.events import HeardSoFar, ListenId, SpeechBegan
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.recording import spoken_part
from saythesum.hearing.vocal_tract.factor import VocalTract
from saythesum.ports import Samples
from tests.by_sound import recorded
from tests.tools.listening.conditions import raised

SAID = ("forty-one", "forty-three", "sixty", "sixty-two", "sixty-five", "thirty-seven")


class Practice:
    """Answers that are heard and kept, with a real engine."""

    def __init__(self) -> None:
        self.kept: SimpleQueue[VocalTract] = SimpleQueue()
        self.factor = FactorLearning(VocalTract(), self.kept.put)
        self.learning = LearningBeside([self.factor])
        self.engine = NeuralRecogniser()
        self._heard = 0

    def hears(self, sound: Samples) -> HeardId:
        self._heard += 1
        id = HeardId(f"heard-{self._heard}")
        self.engine.open(Awaiting.NUMBER)
        self.engine.feed(sound)
        event = HeardSoFar(ListenId(1), 0, Unclear(WhyUnclear.OTHER), "", began_ms=0, ended_ms=1, at_ms=1, id=id)
        self.learning.heard(event, self.engine)
        return id

    def keeps(self, id: HeardId, by: By = By.VOICE) -> None:
        self.learning.kept(answer(id, by))

    def next_kept(self) -> VocalTract:
        return self.kept.get(timeout=60)


def answer(heard: HeardId, by: By) -> Answer:
    return Answer(
        RowId("row"), 0, 0, 38, 5, Part.WHOLE, 43, 43, True, Support.INDEPENDENT, 1, 0.9, (), heard, 900, (), by,
        Settled.SAID_BACK, True,
    )  # fmt: skip


def childs(text: str) -> Samples:
    return spoken_part(raised(recorded(text), 1.4))


@pytest.fixture(scope="module")
def answers() -> list[Samples]:
    return [childs(text) for text in SAID]


def test_a_childs_answers_are_heard_lower_within_a_practice(answers: list[Samples]) -> None:
    practice = Practice()
    for sound in [*answers, *answers]:
        practice.keeps(practice.hears(sound))
    learnt = practice.next_kept()
    assert learnt.factor >= 1.2
    assert 5 <= learnt.answers <= 2 * len(answers)
    practice.learning.close()
    assert practice.engine.vocal_tract_factor == practice.factor.learnt.factor >= 1.2


def test_a_grown_up_is_heard_as_before() -> None:
    practice = Practice()
    for text in SAID:
        practice.keeps(practice.hears(spoken_part(recorded(text))))
    practice.learning.close()
    assert practice.next_kept() == VocalTract(1.0, len(SAID))
    assert practice.engine.vocal_tract_factor == 1.0


def test_what_was_not_kept_or_not_spoken_counts_for_nothing(answers: list[Samples]) -> None:
    practice = Practice()
    for sound in answers:
        practice.hears(sound)
    for sound in answers:
        practice.keeps(practice.hears(sound), By.KEYS)
    practice.keeps(HeardId("never heard"))
    practice.learning.close()
    assert practice.factor.learnt == VocalTract()
    assert practice.kept.empty()


def test_only_the_last_sounds_are_remembered(answers: list[Samples]) -> None:
    practice = Practice()
    early = [practice.hears(sound) for sound in answers]
    for _ in range(MOST_SOUNDS):
        practice.hears(answers[0])
    for id in early:
        practice.keeps(id)
    practice.learning.close()
    assert practice.factor.learnt == VocalTract()


def test_long_talk_is_left_out() -> None:
    practice = Practice()
    long = np.concatenate([recorded("sixty-two")] * 8)
    for _ in range(6):
        practice.keeps(practice.hears(long))
    practice.learning.close()
    assert practice.factor.learnt == VocalTract()


class _Watched(NeuralRecogniser):
    """Notes of each score whether the pupil was speaking when it was asked for."""

    is_spoken = False

    def __init__(self) -> None:
        super().__init__()
        self.scored_in_speech: list[bool] = []

    def log_probabilities(self, samples: Samples, awaiting: Awaiting, factors: Iterable[float]) -> list[float]:
        self.scored_in_speech.append(self.is_spoken)
        return super().log_probabilities(samples, awaiting, factors)


def test_nothing_is_learnt_while_the_pupil_speaks(answers: list[Samples]) -> None:
    practice = Practice()
    practice.engine = engine = _Watched()
    ids = [practice.hears(sound) for sound in answers[:5]]
    practice.learning.heard(SpeechBegan(ListenId(1), 0), engine)
    engine.is_spoken = True
    for id in ids:
        practice.keeps(id)
    engine.feed(answers[5])
    engine.so_far()  # takes as long as scoring one factor
    engine.is_spoken = False
    practice.hears(answers[5])
    practice.learning.close()
    assert practice.factor.learnt.answers == 5
    assert engine.scored_in_speech == [False] * len(engine.scored_in_speech)
