"""One suite for every engine: open, hear each phrase, refuse the rest, survive being opened again."""

from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest

from saythesum.core.meanings import NUMBER_KINDS, Awaiting, Choice, Command, Given, Meaning, Number, Unclear, WhyUnclear
from saythesum.errors import ListeningError
from saythesum.hearing.confidence.gate import Judged, judged
from saythesum.hearing.embedded.recogniser import LONGEST_S, NeuralRecogniser, tree
from saythesum.hearing.engines import recogniser
from saythesum.hearing.recording import spoken_part
from saythesum.hearing.typed import typed
from saythesum.ports import LISTENING_RATE_HZ
from saythesum.wording.numbers import words
from saythesum.wording.understand.phrases import spellings
from tests.tools.listening.sounds import flite, padded

Engine = Callable[[str, Awaiting], Judged]
"""What it makes of a phrase."""


def _neural(phrase: str, awaiting: Awaiting) -> Judged:
    """Said by a voice that is understood like a person, and cut as the ear cuts."""
    engine = NeuralRecogniser()
    engine.open(awaiting)
    engine.feed(spoken_part(padded(flite("rms", phrase))))
    return judged(engine.close(), awaiting)


def _typed(phrase: str, awaiting: Awaiting) -> Judged:
    return judged(typed(phrase, awaiting), awaiting)


ENGINES = [pytest.param(_neural, id="neural"), pytest.param(_typed, id="typed")]


def _phrases() -> Iterator[tuple[str, Awaiting, Meaning]]:
    """One spelling of each command and choice, for each closed set it is in."""
    seen: set[Meaning] = set()
    for awaiting in (Awaiting.NUMBER, Awaiting.COMMAND, Awaiting.CHOICE):
        seen = seen if awaiting is Awaiting.CHOICE else set()
        for spelling in spellings(awaiting):
            if isinstance(spelling.meaning, Given | Choice) and spelling.meaning not in seen:
                seen.add(spelling.meaning)
                yield spelling.text, awaiting, spelling.meaning


@pytest.mark.parametrize("engine", ENGINES)
def test_each_command_and_choice_is_heard(engine: Engine) -> None:
    missed = [
        (phrase, awaiting, found.heard)
        for phrase, awaiting, meant in _phrases()
        if _meaning((found := engine(phrase, awaiting)).heard) != _meaning(meant)
    ]
    assert missed == []


def _meaning(heard: Meaning) -> Command | bool | int | None:
    match heard:
        case Given(command=command):
            return command
        case Choice(yes=yes):
            return yes
        case Number(value=value):
            return value
        case Unclear():
            return None


@pytest.mark.parametrize("engine", ENGINES)
@pytest.mark.parametrize("awaiting", sorted(NUMBER_KINDS))
@pytest.mark.parametrize("value", [0, 7, 13, 40, 46, 62, 104, 350, 1012])
def test_numbers_are_heard(engine: Engine, awaiting: Awaiting, value: int) -> None:
    found = engine(words(value), awaiting).heard
    assert isinstance(found, Number)
    assert (found.value, found.sure) == (value, True)


@pytest.mark.parametrize("engine", ENGINES)
@pytest.mark.parametrize(
    ("sentence", "value"),
    [
        ("forty eight, no, forty seven", 47),
        ("is it fifty two?", 52),
        ("I think it's sixty one", 61),
        ("it was thirty four", 34),
        ("sixty one, I mean sixty two", 62),
        ("fifty two I think", 52),
    ],
)
def test_a_sentence_gives_its_number(engine: Engine, sentence: str, value: int) -> None:
    found = engine(sentence, Awaiting.NUMBER).heard
    assert isinstance(found, Number)
    assert (found.value, found.sure) == (value, True)


@pytest.mark.parametrize("voice", ["slt", "awb", "kal16"])
@pytest.mark.parametrize(
    ("sentence", "value"),
    [("that's forty three, isn't it", 43), ("it's sixty one, is it", 61), ("thirty four, right", 34)],
)
def test_a_number_in_the_middle_of_a_sentence_is_heard_again(voice: str, sentence: str, value: int) -> None:
    engine = NeuralRecogniser()
    engine.open(Awaiting.NUMBER)
    engine.feed(padded(flite(voice, sentence)))
    found = judged(engine.close(), Awaiting.NUMBER).heard
    assert isinstance(found, Number)
    assert (found.value, found.sure) == (value, True)


@pytest.mark.parametrize("engine", ENGINES)
@pytest.mark.parametrize("awaiting", list(Awaiting))
@pytest.mark.parametrize("phrase", ["the bread is in the oven", "my brother has a blue boat", "good morning everybody"])
def test_the_rest_is_refused_as_something_else(engine: Engine, awaiting: Awaiting, phrase: str) -> None:
    assert engine(phrase, awaiting).heard == Unclear(WhyUnclear.OTHER)


def test_nothing_is_nothing() -> None:
    engine = NeuralRecogniser()
    engine.open(Awaiting.NUMBER)
    assert judged(engine.close(), Awaiting.NUMBER).heard == Unclear(WhyUnclear.NOTHING)
    assert _typed("", Awaiting.NUMBER).heard == Unclear(WhyUnclear.NOTHING)


def test_it_can_be_opened_again_for_something_else() -> None:
    engine = NeuralRecogniser()
    engine.open(Awaiting.NUMBER)
    engine.feed(padded(flite("rms", "forty six")))
    engine.open(Awaiting.COMMAND)
    engine.feed(padded(flite("rms", "go on")))
    heard = judged(engine.close(), Awaiting.COMMAND).heard
    assert isinstance(heard, Given)
    assert heard.command is Command.GO_ON
    engine.open(Awaiting.NUMBER)
    engine.feed(padded(flite("rms", "forty six")))
    assert _meaning(judged(engine.close(), Awaiting.NUMBER).heard) == 46


def test_what_was_heard_so_far_may_go_on() -> None:
    engine = NeuralRecogniser()
    engine.open(Awaiting.NUMBER)
    sound = padded(flite("rms", "forty six"))
    engine.feed(sound[: len(sound) // 3])
    engine.so_far()
    engine.feed(sound[len(sound) // 3 :])
    assert _meaning(judged(engine.so_far(), Awaiting.NUMBER).heard) == 46
    assert engine.so_far() is engine.so_far(), "nothing new was fed: nothing is decoded again"


def test_sound_without_end_does_not_grow() -> None:
    engine = NeuralRecogniser()
    engine.open(Awaiting.NUMBER)
    second = np.full(LISTENING_RATE_HZ, 1e-3, dtype=np.float32)
    for _ in range(2 * LONGEST_S):
        engine.feed(second)
    assert engine.fed_samples == LONGEST_S * LISTENING_RATE_HZ


def test_numbers_and_steps_share_one_tree() -> None:
    assert tree(Awaiting.NUMBER) is tree(Awaiting.STEP)


def test_an_engine_that_is_not_there_is_one_sentence() -> None:
    with pytest.raises(ListeningError, match="There is no listening engine"):
        recogniser("parrot", Path())
