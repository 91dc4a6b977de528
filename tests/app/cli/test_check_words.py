"""The minute of number words, with recordings in place of a microphone, in no time at all."""

from itertools import pairwise

import numpy as np
import pytest

from saythesum.app.cli.checks.check_words import (
    ALL_UNDERSTOOD,
    ASKED,
    TOO_LITTLE,
    WordHeard,
    found_in,
    learnt_from,
    words_asked,
    words_heard,
)
from saythesum.core.meanings import Meaning, Number, Unclear, WhyUnclear
from saythesum.hearing.confidence.confusable import are_confusable
from saythesum.hearing.confidence.gate import Judged, Verdict
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.vocal_tract.factor import VocalTract
from saythesum.ports import Samples
from saythesum.wording.numbers import words
from tests.by_sound import recorded
from tests.tools.listening.conditions import raised
from tests.tools.listening.sounds import padded


def answers(question: str) -> Samples:
    """Somebody says what they are asked to."""
    return padded(recorded(question.removeprefix("Say ").removesuffix(".")))


def childs_answers(question: str) -> Samples:
    return raised(answers(question), 1.4)


def test_a_clear_voice_is_told_to_speak() -> None:
    engine = NeuralRecogniser()
    said = words_asked(answers)
    assert [value for value, _ in said] == list(ASKED)
    assert found_in(words_heard(said, engine)) == [ALL_UNDERSTOOD]
    assert learnt_from(said, engine, VocalTract()).factor == 1.0


def test_a_childs_voice_gives_the_factor_and_is_understood_with_it() -> None:
    engine = NeuralRecogniser()
    said = words_asked(childs_answers)
    before = sum(word.is_understood for word in words_heard(said, engine))
    learnt = learnt_from(said, engine, VocalTract())
    assert learnt.factor >= 1.2
    assert learnt.answers == len(ASKED)
    engine.vocal_tract_factor = learnt.factor
    assert sum(word.is_understood for word in words_heard(said, engine)) > before


def test_silence_is_too_little() -> None:
    said = words_asked(lambda _: padded(np.zeros(16_000, np.float32)))
    found = found_in(words_heard(said, NeuralRecogniser()))
    assert found[0] == f"Understood: 0 of {len(ASKED)} words."
    assert found[-1] == TOO_LITTLE


def heard(asked: int, understood: Meaning) -> WordHeard:
    return WordHeard(asked, Judged(understood, Verdict.TAKEN, 0.0))


def number(value: int, *alternatives: int, sure: bool = True) -> Number:
    return Number(value, 0.8, sure=sure, alternatives=alternatives)


UNDERSTOOD = [heard(value, number(value)) for value in (5, 60, 9, 80)]


@pytest.mark.parametrize(
    ("missed", "found"),
    [
        ([heard(30, number(40))], "It mixes thirty and forty. Prefer keys for those."),
        ([heard(30, number(40)), heard(40, number(30, sure=False))], "It mixes thirty and forty. Prefer"),
        ([heard(14, number(14, 40, sure=False))], "It mixes fourteen and forty. Prefer"),
        ([heard(9, number(5)), heard(30, number(40))], "It mixes five and nine; thirty and forty. Prefer"),
        ([heard(15, number(15, sure=False))], "It could not make out fifteen. Prefer"),
        (
            [heard(3, Unclear(WhyUnclear.OTHER)), heard(70, Unclear(WhyUnclear.NOTHING))],
            "It could not make out three, seventy.",
        ),
    ],
)
def test_what_is_missed_is_told_in_words(missed: list[WordHeard], found: str) -> None:
    told = found_in([*UNDERSTOOD, *missed])
    assert told[0] == f"Understood: 4 of {4 + len(missed)} words."
    assert told[1].startswith(found)
    assert len(told) == 2


def test_no_word_is_asked_for_beside_one_it_is_mixed_with() -> None:
    """What was said a moment ago would otherwise help or hinder whoever repeats it."""
    assert not any(are_confusable(one, next) for one, next in pairwise(ASKED))
    assert all(words(value) for value in ASKED)
