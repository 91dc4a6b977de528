"""Proof 4: what was misheard is no mistake of the pupil's: nothing of it is left."""

from collections import Counter
from random import Random

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.meanings import Number
from saythesum.core.records.rows import Answer, Support
from saythesum.dialogue.tutor.question import standing_question
from tests.learner.all_counted import all_counted
from tests.proofs.all_help import wrong_wholes
from tests.same_rows import without_ids
from tests.talk import Talk, plan_of

PRACTICES = 60
FERRY = Sum(57, 5)


def begun(asked: Sum = FERRY) -> Talk:
    talk = Talk(plan_of((asked.start, 24), (asked.amount, 8)))
    talk.begin()
    return talk


def without_the_misheard(asked: Sum = FERRY) -> Talk:
    talk = begun(asked)
    talk.answer(Number(asked.total))
    return talk


def wrong_that_count(talk: Talk) -> list[Answer]:
    return [answer for answer in all_counted(talk.answers) if not answer.right]


def mistake_counts(talk: Talk) -> Counter[str]:
    """How many of the answers that count each mistake fits."""
    return Counter(name for answer in wrong_that_count(talk) for name in answer.could_be)


def assert_same(talk: Talk, other: Talk) -> None:
    live, other_live = talk.state.progress.live, other.state.progress.live
    assert without_ids(live, with_how=False) == without_ids(other_live, with_how=False)
    assert talk.state.progress.closed == other.state.progress.closed
    assert talk.state.talk.topics == other.state.talk.topics
    assert standing_question(talk.plan, talk.state.progress) == standing_question(other.plan, other.state.progress)
    assert mistake_counts(talk) == mistake_counts(other)


def test_put_right_in_the_pause_nothing_was_kept() -> None:
    talk = begun()
    talk.hear("fifty-two")
    talk.wait()
    talk.answer("no, sixty-two")
    assert not mistake_counts(talk)
    assert [(answer.given, answer.right, answer.support) for answer in talk.answers] == [
        (62, True, Support.INDEPENDENT)
    ]
    assert_same(talk, without_the_misheard())


@pytest.mark.parametrize("words", ["no, sixty-two", "I said sixty-two", "not fifty-two, sixty-two"])
def test_put_right_after_not_yet_it_is_void(words: str) -> None:
    talk = begun()
    talk.answer("fifty-two")
    assert mistake_counts(talk) == {"new-ten-lost": 1, "subtracted": 1, "ones-differenced": 1}
    talk.answer(words)
    assert not mistake_counts(talk)
    assert [(answer.given, answer.right, answer.support) for answer in talk.answers] == [
        (62, True, Support.INDEPENDENT)
    ]
    assert_same(talk, without_the_misheard())


def test_put_right_in_the_middle_of_help_all_of_the_help_is_void() -> None:
    talk = begun(Sum(38, 5))
    talk.answer("forty-five")
    for line in ("I don't know", "help"):
        talk.type(line)
    talk.answer("I said forty-three")
    assert_same(talk, without_the_misheard(Sum(38, 5)))


def test_parts_answered_after_a_call_for_help_go_with_the_answer_that_led_there() -> None:
    talk = begun(Sum(38, 8))
    talk.answer("thirty-six")
    for line in ("I don't know", "2", "6"):
        talk.type(line)
    assert len(talk.answers) == 3
    talk.answer("I said forty-six")
    assert_same(talk, without_the_misheard(Sum(38, 8)))


def test_taken_back_by_a_command_and_answered_again() -> None:
    talk = begun()
    talk.answer("fifty-two")
    talk.hear("not what I said")
    talk.wait()
    talk.answer("sixty-two")
    assert_same(talk, without_the_misheard())


def test_whatever_was_misheard_and_however_late_it_is_put_right_the_state_is_that_without_it() -> None:
    for seed in range(PRACTICES):
        dice = Random(seed)
        asked = Sum(dice.randrange(10, 100), dice.randrange(1, 10))
        misheard = dice.choice(wrong_wholes(asked))
        talk = begun(asked)
        if dice.random() < 0.5:
            talk.hear(Number(misheard))
            talk.wait()
        else:
            talk.answer(Number(misheard))
            for _ in range(dice.randrange(3)):
                if talk.state.progress.ask and talk.state.progress.ask.support is not Support.MODELLED:
                    talk.type("I don't know")
        talk.answer(Number(asked.total, objecting=True))
        assert_same(talk, without_the_misheard(asked))


def test_close_to_another_number_it_is_no_evidence_until_it_comes_again() -> None:
    close = Number(52, close_to=(62,))
    talk = begun()
    talk.answer(close)
    assert not wrong_that_count(talk)
    assert talk.state.progress.ask
    assert talk.state.progress.ask.support is Support.ENCOURAGED
    talk.answer(close)
    assert len(wrong_that_count(talk)) == 1


def test_close_to_another_number_and_again_by_keys() -> None:
    talk = begun()
    talk.answer(Number(52, close_to=(62,)))
    talk.type("52")
    assert len(wrong_that_count(talk)) == 1


def test_an_unsure_part_is_no_evidence() -> None:
    talk = begun(Sum(38, 5))
    talk.type("45")
    before = mistake_counts(talk)
    talk.answer("three", 0.5)
    assert talk.answers[-1].could_be == ("gap-off-by-one",)
    assert mistake_counts(talk) == before
