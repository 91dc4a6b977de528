"""A practice whose purpose is to find out: help as in any other; what is asked depends on what was answered."""

from functools import cache
from random import Random

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.meanings import Command, Given, Number
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.mistakes.pattern import Mistake
from saythesum.core.records.rows import Answer, Ask, By, Purpose
from saythesum.core.sums import Kind, Part
from saythesum.dialogue.turns.effects import Ear, Keep
from saythesum.dialogue.tutor.progress import cell_of, known_here
from saythesum.keyboard.answer_entry import Typing
from saythesum.learner.assessment.finding_out import FEWEST, MOST
from saythesum.learner.findings import findings
from saythesum.learner.replay import Kept, learned
from saythesum.learner.selection import ChoiceReason, WhyChosen
from saythesum.scene.scene import scene
from tests.core.made_sums import sum_at
from tests.dialogue.made_plans import BEGAN_AT, finding_plan
from tests.same_rows import without_ids
from tests.talk import Talk

NAMED = {mistake.name: mistake for mistake in MISTAKES}


def reply(talk: Talk, mistake: Mistake | None) -> int:
    """The mistake wherever it can show in a whole sum; every step rightly."""
    ask = talk.state.progress.ask
    assert ask is not None
    asked = sum_at(talk.plan, cell_of(ask))
    if ask.part is Part.WHOLE and mistake:
        shown = [number for number in mistake.gives(asked) if mistake.fits(asked, number) and number >= 0]
        return shown[0] if shown else asked.total
    return asked.answer_to(ask.part)


@cache
def played(mistake: Mistake | None, seed: int = 0, *, killed: bool = False) -> Talk:
    talk = Talk(finding_plan(seed), Ear.TEXT)
    talk.begin()
    while not talk.finished:
        talk.type(Number(reply(talk, mistake)))
        if killed and not talk.finished:
            talk = talk.again()
            talk.begin()
    return talk


def sums_asked(talk: Talk) -> list[Sum]:
    wholes = [row for row in talk.rows if isinstance(row, Ask) and row.part is Part.WHOLE]
    return list(dict.fromkeys(sum_at(talk.plan, cell_of(ask)) for ask in wholes))


def named(talk: Talk) -> list[str]:
    return [finding.mistake for finding in findings(known_here(talk.plan, talk.state.progress).evidence)]


@pytest.mark.parametrize("name", NAMED)
@pytest.mark.parametrize("seed", range(2))
def test_a_mistake_that_is_believed_in_is_found_and_named_to_nobody_but_the_adult(name: str, seed: int) -> None:
    talk = played(NAMED[name], seed)
    assert named(talk)[0] == name
    assert FEWEST <= len(sums_asked(talk)) <= MOST
    assert not any(name in line for line in talk.said)
    assert talk.said[-1].endswith("done. Bye for now.")


@pytest.mark.parametrize("seed", range(5))
def test_of_a_pupil_who_makes_no_mistake_nothing_is_named(seed: int) -> None:
    talk = played(None, seed)
    assert named(talk) == []
    assert len(sums_asked(talk)) == FEWEST
    assert talk.said[-1] == "That's all six done. Bye for now."


def test_the_sums_are_of_the_405_and_come_once_each_from_different_tens() -> None:
    plan = finding_plan()
    assert len(plan.activities[0].cells) == len(set(plan.activities[0].cells)) == 405
    assert {sum_at(plan, cell).kind for cell in plan.activities[0].cells} == {Kind.CROSSING, Kind.LANDING}
    for seed in range(5):
        sums = sums_asked(played(None, seed))
        assert len({asked.tens for asked in sums}) >= 3
    assert len({tuple(sums_asked(played(None, seed))) for seed in range(5)}) == 5


def test_what_is_asked_depends_on_what_was_answered() -> None:
    assert sums_asked(played(None))[0] == sums_asked(played(NAMED["one-short"]))[0]
    assert sums_asked(played(None)) != sums_asked(played(NAMED["one-short"]))


def test_a_pupil_who_answers_at_random_is_let_go_after_twelve() -> None:
    talk = Talk(finding_plan(), Ear.TEXT)
    talk.begin()
    dice = Random(1)
    while not talk.finished:
        ask = talk.state.progress.ask
        assert ask is not None
        is_first = ask.part is Part.WHOLE and not talk.state.progress.visit[1:]
        talk.type(Number(dice.randrange(200) if is_first else reply(talk, None)))
    assert len(sums_asked(talk)) == MOST
    assert named(talk) == []


def test_nobody_is_asked_more_than_twelve_who_skips_them_all() -> None:
    talk = Talk(finding_plan(), Ear.TEXT)
    talk.begin()
    for _ in range(MOST):
        assert not talk.finished
        talk.type("skip")
    assert talk.finished
    assert len(set(sums_asked(talk))) == MOST
    assert talk.said[-1] == "We'll have those another day. Bye for now."


def test_help_is_given_as_ever_and_the_rows_are_those_of_a_practice() -> None:
    talk = played(NAMED["whole-amount-after-bridging"])
    assert any("get you to" in line for line in talk.said)
    assert {answer.purpose for answer in talk.answers} == {Purpose.PRACTICE}


def test_what_may_have_been_misheard_is_no_evidence() -> None:
    def by_voice(close: bool) -> list[str]:
        talk = Talk(finding_plan())
        talk.begin()
        for _ in range(FEWEST):
            number = reply(talk, NAMED["one-short"])
            talk.hear(Number(number, close_to=(number + 10,) if close else ()), 0.9)
            talk.wait()
            talk.wait()
            talk.type("skip")
        return named(talk)

    assert by_voice(close=False) == ["one-short"]
    assert by_voice(close=True) == []


def test_other_days_count_for_nothing() -> None:
    believed = played(NAMED["one-short"])
    before = learned([Kept(row, BEGAN_AT) for row in believed.rows])
    assert before.evidence
    again = Talk(finding_plan(1, before=before), Ear.TEXT)
    fresh = Talk(finding_plan(1), Ear.TEXT)
    for talk in (again, fresh):
        talk.begin()
        while not talk.finished:
            talk.type(Number(reply(talk, None)))
    assert sums_asked(again) == sums_asked(fresh)
    assert named(again) == []


def test_each_choice_has_its_reason() -> None:
    talk = Talk(finding_plan(), Ear.TEXT)
    effects = talk.begin()
    while not talk.finished:
        effects += talk.type(Number(reply(talk, NAMED["one-short"])))
    keeps = [effect for effect in effects if isinstance(effect, Keep)]
    chosen = [keep for keep in keeps if keep.why]
    whys = [keep.why for keep in chosen if isinstance(keep.why, WhyChosen)]
    assert {why.reason for why in whys} == {ChoiceReason.TELLING}
    assert [why.asked for why in whys] == sums_asked(talk)
    assert all(isinstance(keep.row, Ask) and keep.row.part is Part.WHOLE for keep in chosen)
    assert "one-short" in chosen[-1].why.mistakes  # type: ignore[union-attr]


@pytest.mark.parametrize("command", [Command.LEFT, Command.DOWN, Command.GO_BACK, Command.READ_ROW, Command.ROW_END])
def test_there_is_no_grid_to_move_in(command: Command) -> None:
    talk = Talk(finding_plan(), Ear.KEYS)
    talk.begin()
    question, rows = talk.said[-1], list(talk.rows)
    talk.type(Given(command))
    assert talk.said[-2:] == ["The sums come one by one here.", question]
    assert talk.rows == rows
    assert len(scene(talk.state, Typing()).grid.cells) == 1


def test_how_far_it_is() -> None:
    talk = Talk(finding_plan(), Ear.KEYS)
    talk.begin()
    talk.type(Number(reply(talk, None)))
    talk.type("how many more")
    assert "One done, at most eleven more." in talk.said


@pytest.mark.parametrize("name", [None, "one-short", "stopped-at-the-ten", "start-reversed"])
def test_killed_after_every_answer_it_asks_the_same(name: str | None) -> None:
    mistake = NAMED[name] if name else None
    whole = played(mistake)
    assert without_ids(played(mistake, killed=True).rows) == without_ids(whole.rows)
    assert all(isinstance(row, Answer) and row.by is By.TEXT for row in whole.answers)


def test_stopped_at_a_missed_sum_it_is_asked_anew_and_the_rest_as_before() -> None:
    talk = Talk(finding_plan(), Ear.TEXT)
    talk.begin()
    talk.type(Number(reply(talk, NAMED["one-short"])))
    talk.type("stop")
    again = talk.again()
    again.begin()
    assert sums_asked(again) == sums_asked(talk)
    while not again.finished:
        again.type(Number(reply(again, NAMED["one-short"])))
    assert named(again) == ["one-short"]
