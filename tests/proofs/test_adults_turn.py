"""Proof 3: what is said while the adult has the turn is nobody's answer."""

import pytest

from saythesum.dialogue.turns.effects import Ear, Effect, Keep, Listen, Say, Settle
from saythesum.wording.speak.said import said
from tests.proofs.adult_talks import measured
from tests.talk import Talk, plan_of


def the_adult_talks(talk: Talk) -> list[Effect]:
    """Takes the turn, talks, types and presses, and lets a minute pass."""
    effects = talk.adult_takes()
    for sentence in ("so sixty and what? five", "sixty-five", "stop there", "yes"):
        effects += talk.hear(sentence, after_ms=2000)
    effects += talk.type("65") + talk.press()
    return effects + talk.wait(60_000)


def nothing_came_of(effects: list[Effect]) -> bool:
    return not any(isinstance(effect, Settle | Keep | Say | Listen) for effect in effects)


@pytest.mark.parametrize("ear", Ear)
def test_the_question_is_said_once_in_the_same_words(ear: Ear) -> None:
    talk = Talk(plan_of((57,), (8,)), ear)
    talk.begin()
    talk.type("64")
    question = talk.said[-2:]
    assert nothing_came_of(the_adult_talks(talk))
    rows = list(talk.rows)
    effects = talk.adult_gives()
    spoken = [said(effect.message, "short") for effect in effects if isinstance(effect, Say)]
    assert [text for text in spoken if text] == question
    assert talk.rows == rows
    assert (talk.listen is not None) == (ear is not Ear.PRESS)


@pytest.mark.parametrize("said_ms", [1, 900, 2999])
def test_the_turn_taken_in_mid_sentence_cuts_it_and_it_is_said_once_afterwards(said_ms: int) -> None:
    talk = Talk(plan_of((57,), (8,)), speech_ms=3000)
    talk.begin()
    talk.wait(said_ms)
    question = list(talk.said)
    assert nothing_came_of(the_adult_talks(talk))
    talk.adult_gives()
    assert talk.said == question * 2
    assert talk.listen is None
    talk.wait()
    assert talk.listen is not None


@pytest.mark.parametrize("before", ["hear", "said back", "wait", "confirm"])
def test_the_turn_taken_at_any_other_moment_leaves_nothing_half_heard(before: str) -> None:
    talk = Talk(plan_of((57,), (8,)))
    talk.begin()
    if before == "confirm":
        for _ in range(3):
            talk.hear("sixty-four", 0.5)
            talk.wait()
    elif before == "wait":
        talk.type("please wait")
    else:
        talk.hear("sixty-four")
        if before == "said back":
            talk.wait()
    assert nothing_came_of(the_adult_talks(talk))
    talk.adult_gives()
    talk.answer("sixty-five")
    assert [answer.given for answer in talk.answers] == [65]


def test_the_end_of_the_input_ends_the_adults_turn_too() -> None:
    talk = Talk(plan_of((57,), (8,)))
    talk.begin()
    talk.adult_takes()
    talk.end_input()
    assert talk.finished


def test_an_adult_who_talks_without_taking_the_turn_is_mostly_not_answered() -> None:
    figures = measured()
    assert figures.sentences >= 20
    assert figures.kept <= figures.said_back <= figures.sentences // 2, figures
