"""Made-up pupils: what each kind is made of shows in what it says, and the same seed gives the same pupil."""

from dataclasses import replace
from datetime import date, timedelta
from itertools import product
from statistics import mean

import pytest

from saythesum.app.rehearsal.kinds import KINDS, LEARNING, RIGHT, SLIPS_ONLY, believing_in, mind_of
from saythesum.app.rehearsal.simulated_pupil import SLIPS, Makeup, Mind
from saythesum.app.rehearsal.speaking_pupil import MadeUpPupil
from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.mistakes.pattern import Mistake
from saythesum.core.records.rows import Answer, End, EndReason
from saythesum.core.sums import Part
from saythesum.learner.skills import item_of
from tests.talk import Talk, plan_of

DAY = date(2026, 3, 2)
OARS = Sum(47, 8)
SUMS = [Sum(start, amount) for start, amount in product(range(20, 90), range(2, 10))]


def mind(makeup: Makeup, seed: int = 1) -> Mind:
    return Mind(makeup, f"{seed}", DAY)


def whole_right(pupil: Mind, on: date = DAY) -> list[bool]:
    return [pupil.answer(asked, Part.WHOLE, on).given == asked.total for asked in SUMS]


# The mind.


def test_who_knows_everything_says_nothing_wrong() -> None:
    pupil = mind_of(RIGHT, 1, DAY)
    assert all(whole_right(pupil))
    for asked in SUMS:
        for part in asked.parts:
            assert pupil.answer(asked, part, DAY).given == asked.answer_to(part)


def test_slips_come_as_often_as_they_should() -> None:
    """A binomial count, so within four of its standard deviations."""
    slips = len(SUMS) - sum(whole_right(mind_of(SLIPS_ONLY, 3, DAY)))
    deviation = (SLIPS * (1 - SLIPS) * len(SUMS)) ** 0.5
    assert slips == pytest.approx(SLIPS * len(SUMS), abs=4 * deviation)


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda mistake: mistake.name)
def test_a_mistake_is_made_wherever_it_can_show_and_nowhere_else(mistake: Mistake) -> None:
    pupil = mind(replace(believing_in(mistake).makeup, slips=0.0))
    for asked in SUMS:
        given = pupil.answer(asked, Part.WHOLE, DAY).given
        can_show = any(mistake.fits(asked, number) and 0 <= number <= 1099 for number in mistake.gives(asked))
        assert mistake.fits(asked, given) if can_show else given == asked.total


def test_two_mistakes_are_drawn_by_the_seed() -> None:
    kind = KINDS["two-mistakes"]
    drawn = {mind_of(kind, seed, DAY).makeup.mistakes for seed in range(20)}
    assert all(len(set(two)) == 2 for two in drawn)
    assert len(drawn) > 10


def test_what_is_known_at_first_is_the_share_asked_for() -> None:
    pupil = mind_of(LEARNING, 1, DAY)
    items = {item_of(asked) for asked in SUMS}
    assert mean(map(pupil.knows, items)) == pytest.approx(0.3, abs=0.1)
    assert pupil.knows(Item(Skill.JOIN)) == mind_of(LEARNING, 1, DAY).knows(Item(Skill.JOIN))


def test_who_learns_is_right_more_often_afterwards_and_who_does_not_learn_is_not() -> None:
    learns, stays = mind_of(LEARNING, 2, DAY), mind(replace(LEARNING.makeup, learns=False))
    before = mean(whole_right(mind_of(LEARNING, 2, DAY)))
    for asked in SUMS * 3:
        for pupil in (learns, stays):
            if pupil.answer(asked, Part.WHOLE, DAY).given != asked.total:
                for part in asked.parts:
                    pupil.answer(asked, part, DAY)
    assert mean(whole_right(learns)) > before + 0.3
    assert mean(map(stays.knows, map(item_of, SUMS))) < 0.4


def test_memory_fades_by_days_and_lasts_longer_when_recalled_late() -> None:
    item = item_of(OARS)
    pupil = mind(replace(LEARNING.makeup, by_heart=1.0, slips=0.0))
    recall = [pupil.recall(item, DAY + timedelta(days=days)) for days in (0, 3, 9, 27)]
    assert recall[0] == 1.0 and recall == sorted(recall, reverse=True)
    again = DAY + timedelta(days=3)
    assert pupil.answer(OARS, Part.WHOLE, again).given == OARS.total, "with this seed it came to mind"
    assert pupil.recall(item, again) == 1.0
    assert pupil.recall(item, again + timedelta(days=3)) > recall[1]


def test_a_holiday_costs_what_was_known() -> None:
    back = mind_of(KINDS["after-a-holiday"], 1, DAY)
    assert mean(back.recall(item_of(asked), DAY) for asked in SUMS) < 0.6
    assert back.knows(item_of(OARS))


# In a practice: the real dialogue, in words, without sound.


def practised(kind: str, seed: int = 1) -> Talk:
    plan = plan_of((38, 57, 76), (4, 5, 8))
    talk, pupil = Talk(plan), MadeUpPupil(KINDS[kind], seed, plan.began_at.date())
    talk.begin()
    asked_for = None
    for _ in range(2000):
        if talk.finished:
            return talk
        if talk.listen and talk.listen.id != asked_for:
            asked_for = talk.listen.id
            for utterance in pupil.reply(talk.state):
                talk.hear(utterance.text, after_ms=utterance.after_ms)
        talk.wait()
    raise AssertionError(f"the practice of {kind} does not end")


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_gets_through_a_grid(kind: str) -> None:
    talk = practised(kind)
    end = talk.rows[-1]
    assert isinstance(end, End) and end.reason is EndReason.FINISHED and end.cells == 9
    if kind in {mistake.name for mistake in MISTAKES}:
        assert sum(kind in row.could_be for row in talk.rows if isinstance(row, Answer)) >= 4
    if kind in ("right", "misheard", "counts"):
        assert end.right_first_time == 9


def test_the_same_seed_gives_the_same_rows() -> None:
    assert practised("learning", 4).rows == practised("learning", 4).rows
    assert practised("learning", 4).rows != practised("learning", 5).rows


def test_asked_to_say_it_once_more_a_pupil_says_the_same() -> None:
    talk = Talk(plan_of((38,), (5,)))
    pupil = MadeUpPupil(LEARNING, 3, DAY)
    talk.begin()
    first = pupil.reply(talk.state)
    talk.answer(first[0].text, certainty=0.3)
    assert pupil.reply(talk.state) == first
