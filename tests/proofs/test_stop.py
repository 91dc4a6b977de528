"""Proof 7: stop means stop. (That a pulled headset is silence is proved where the sound is.)"""

from random import Random

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.records.rows import Answer, Ask, End, EndReason
from saythesum.dialogue.turns.effects import Ear, Effect, Finish, Keep, Listen, Say
from saythesum.wording.speak.said import said
from tests.proofs.all_help import AMOUNTS, STARTS
from tests.proofs.said_numbers import numbers_said
from tests.talk import Talk, plan_of

MOST_WORDS = 20


def lines(effects: list[Effect]) -> list[str]:
    return [said(effect.message, "short") for effect in effects if isinstance(effect, Say)]


def missed(ear: Ear = Ear.OPEN, asked: Sum | None = None) -> Talk:
    asked = asked or Sum(57, 8)
    talk = Talk(plan_of((asked.start, 24), (asked.amount,)), ear)
    talk.begin()
    talk.type(str(asked.total - 1))
    return talk


@pytest.mark.parametrize("ear", Ear)
def test_one_line_and_no_question(ear: Ear) -> None:
    talk = missed(ear)
    effects = talk.type("stop")
    (line,) = lines(effects)
    assert line == "We'll stop there. We'll come back to that one. Bye for now."
    assert "?" not in line
    assert not any(isinstance(effect, Listen) for effect in effects)
    assert isinstance(effects[-1], Finish)
    assert talk.listen is None
    assert talk.finished


def test_for_every_sum_the_line_is_short_and_holds_no_step_towards_the_answer() -> None:
    for asked in Random(7).sample([Sum(start, amount) for start in STARTS for amount in AMOUNTS], 100):
        talk = missed(asked=asked)
        for _ in range(2):
            talk.type("0")
        (line,) = lines(talk.type("stop"))
        assert numbers_said(line) <= {1}  # "that one"
        assert len(line.split()) <= MOST_WORDS


def test_all_is_kept_before_the_line_is_said() -> None:
    talk = missed()
    effects = talk.type("stop")
    kept = [place for place, effect in enumerate(effects) if isinstance(effect, Keep)]
    said_at = [place for place, effect in enumerate(effects) if isinstance(effect, Say)]
    assert max(kept) < min(said_at)
    assert isinstance(talk.rows[-1], End)
    assert talk.rows[-1].reason is EndReason.STOPPED


def test_nothing_that_comes_after_it_is_heard_or_said() -> None:
    talk = missed()
    talk.type("stop")
    rows, said_before = list(talk.rows), list(talk.said)
    assert talk.type("65") + talk.press() + talk.hear("sixty-five") + talk.wait(60_000) == []
    assert talk.adult_takes() + talk.adult_gives() + talk.end_input() == []
    assert (talk.rows, talk.said) == (rows, said_before)


def test_the_next_start_asks_for_that_sum_within_one_turn() -> None:
    talk = missed()
    talk.type("stop")
    again = talk.again()
    assert lines(again.begin()) == ["Fifty-seven add eight."]
    ask = again.state.progress.ask
    assert isinstance(ask, Ask)
    assert (ask.part, ask.support) == ("whole", "independent")


def test_with_nothing_missed_the_line_tells_no_answer() -> None:
    talk = Talk(plan_of((57, 24), (8,)), Ear.TEXT)
    talk.begin()
    assert lines(talk.type("stop")) == ["We'll stop there. Bye for now."]
    talk = Talk(plan_of((57, 24), (8,)), Ear.TEXT)
    talk.begin()
    talk.type("65")
    assert lines(talk.type("stop")) == ["We'll stop there. One done. Bye for now."]
    again = talk.again()
    assert lines(again.begin()) == ["New row, twenty-four.", "Twenty-four add eight."]
    assert [row.given for row in again.rows if isinstance(row, Answer)] == [65]
