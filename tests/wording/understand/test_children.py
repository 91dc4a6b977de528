"""Sentences of children, written down before the rules: what they mean, and that none is taken for a number."""

import re
from collections import Counter
from collections.abc import Iterable

import pytest

from saythesum.core.meanings import Awaiting, Choice, Command, Given, Number, Unclear, WhyUnclear
from saythesum.wording.numbers import words
from saythesum.wording.understand.grammar import written
from saythesum.wording.understand.phrases import PHRASES, Where
from saythesum.wording.understand.understood import SHORTEST_SPOKEN_WISH, understood
from tests.tools.children import KNOWN, Said, misunderstood, sentences, taken_for_numbers
from tests.wording.sounds import distance
from tests.wording.understand.test_phrases import FAR_ENOUGH, espeak

CHILDREN = list(sentences(KNOWN))


def test_there_are_enough_and_of_every_kind() -> None:
    assert len(CHILDREN) >= 300
    assert min(Counter(said.means.partition(":")[0] for said in CHILDREN).values()) >= 8


@pytest.mark.parametrize(("typed", "share"), [(True, 0.98), (False, 0.96)])
def test_they_do_what_they_mean(typed: bool, share: float) -> None:
    missed = misunderstood(CHILDREN, typed=typed)
    assert len(missed) <= (1 - share) * len(CHILDREN), missed


def test_no_sentence_is_taken_for_a_number_that_is_none() -> None:
    assert taken_for_numbers(CHILDREN) == []


@pytest.mark.parametrize(
    ("text", "command"),
    [
        *[("I want to stop", Command.STOP), ("can I stop", Command.STOP), ("I can't do this", Command.HELP)],
        *[("what do I do", Command.HELP), ("can you help me please", Command.HELP), ("I don't get it", Command.HELP)],
        *[("I need the toilet", Command.NEEDS_ADULT), ("this is too hard", Command.HELP)],
        ("can you say that again slower", Command.SLOWER),
        ("my hearing aid is whistling", Command.NEEDS_ADULT),
    ],
)
@pytest.mark.parametrize("around", ["{}", "Miss, {}", "um, {}", "{} please", "erm, {}, sir"])
def test_politeness_and_hesitation_change_no_wish(text: str, command: Command, around: str) -> None:
    for awaiting in Awaiting:
        assert understood(around.format(text), awaiting, typed=True) == Given(command)


@pytest.mark.parametrize("text", ["Liam stop it", "can you stop poking me", "he's not helping me", "yes Miss I am"])
def test_what_is_said_to_somebody_else_is_no_wish(text: str) -> None:
    assert understood(text, Awaiting.NUMBER, typed=True) == Unclear(WhyUnclear.OTHER)


@pytest.mark.parametrize("text", ["I'm seven", "I'm stuck on forty", "what is forty and two", "six tens and two ones"])
def test_a_number_that_is_no_answer_is_not_taken(text: str) -> None:
    for awaiting in Awaiting:
        assert not isinstance(understood(text, awaiting, typed=True), Number)


@pytest.mark.parametrize(
    ("text", "yes"),
    [
        *[("uh huh", True), ("okay then", True), ("aye", True), ("mm hmm", True), ("yes please Miss", True)],
        *[("uh uh", False), ("naw", False), ("not really", False), ("no thanks", False), ("no I don't", False)],
    ],
)
def test_yes_and_no_as_children_say_them(text: str, yes: bool) -> None:
    assert understood(text, Awaiting.CHOICE) == Choice(yes)


def test_no_wish_that_is_spoken_for_a_number_is_within_four_sounds_of_one() -> None:
    """Source of the sounds: espeak-ng, British English."""
    spoken = [_letters(text) for text in _wishes() if isinstance(understood(text, Awaiting.NUMBER), Given)]
    assert len(spoken) > 250
    numbers = [(heard, Counter(heard)) for heard in espeak([words(value) for value in range(1100)])]
    near = [
        (text, heard)
        for text, told in zip(spoken, espeak(spoken), strict=True)
        for heard, count in numbers
        if _may_be_near(told, count) and distance(told, heard) < FAR_ENOUGH
    ]
    said_back = {"stop", "help", "wait", "no", "nope", "oh no"}
    assert {text for text, _ in near} <= said_back


def test_fewer_letters_than_that_are_not_enough() -> None:
    wishes = [said for said in CHILDREN if said.number is None]
    short = [said.text for said in wishes if sum(map(str.isalpha, said.text)) < SHORTEST_SPOKEN_WISH]
    assert any(isinstance(understood(text, Awaiting.NUMBER, typed=True), Given) for text in short)
    in_the_table = {text for phrase in PHRASES if phrase.where is not Where.TYPED for text in written(phrase.rule)}
    for text in set(short) - in_the_table:
        assert isinstance(understood(text, Awaiting.NUMBER), Unclear), text


def _wishes() -> Iterable[str]:
    """Of the children, and every typed phrase of the table."""
    yield from (said.text for said in CHILDREN if said.number is None)
    for phrase in PHRASES:
        if phrase.where in (Where.TYPED, Where.NO_NUMBER):
            yield from written(phrase.rule)


def _letters(text: str) -> str:
    return re.sub(r"[^a-zA-Z' ]", "", text)


def _may_be_near(told: tuple[str, ...], number: Counter[str]) -> bool:
    """A bound that is quick: sounds that the two do not share have to be changed."""
    shared = sum((Counter(told) & number).values())
    return max(len(told), number.total()) - shared < FAR_ENOUGH


def test_the_file_holds_what_it_says() -> None:
    assert Said("can I stop", "stop") in CHILDREN
