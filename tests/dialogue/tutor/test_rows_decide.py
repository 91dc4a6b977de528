"""The kept rows decide everything: voids leave nothing, and any stop resumes in the same place with the same rows."""

from dataclasses import replace
from random import Random

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.meanings import Choice, Command, Given, Meaning, Number
from saythesum.core.records.rows import Answer, Ask, End, Row, RowId, Void, VoidReason
from saythesum.core.sums import CLOSING_PARTS
from saythesum.dialogue.topics.answering import facts_offered
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.turns.stack import Confirming, OfferingFacts, SayingBack
from saythesum.dialogue.tutor.progress import cell_of, folded, folded_on, opens_visit, with_row
from saythesum.dialogue.tutor.question import standing_question
from tests.core.made_sums import sum_at
from tests.proofs.all_help import wrong_wholes
from tests.proofs.wild_pupil import WildPupil
from tests.same_rows import without_ids
from tests.talk import Talk, plan_of

STARTS, AMOUNTS = (38, 57), (5, 3)
MOST_REPLIES = 200


def wild_practice(seed: int, *, by_voice: float = 0.5, most: int = 60) -> Talk:
    talk = Talk(plan_of(STARTS, AMOUNTS))
    pupil = WildPupil(seed, by_voice=by_voice)
    talk.begin()
    for _ in range(most):
        if talk.finished:
            break
        pupil.act(talk)
    return talk


@pytest.mark.parametrize("seed", range(12))
def test_cut_anywhere_the_rows_give_the_state_that_was_there(seed: int) -> None:
    talk = Talk(plan_of(STARTS, AMOUNTS))
    pupil = WildPupil(seed)
    talk.begin()
    while not talk.finished and len(talk.rows) < 80:
        pupil.act(talk)
        assert folded(talk.rows) == talk.state.progress
    for cut in range(len(talk.rows) + 1):
        assert folded_on(folded(talk.rows[:cut]), talk.rows[cut:]) == talk.state.progress


def test_a_void_leaves_no_trace_in_progress() -> None:
    """Whatever was answered, and however that cell went on: with the answer void, all is as before it."""
    checked = 0
    for seed in range(16):
        rows = wild_practice(seed).rows
        for at, row in enumerate(rows):
            if isinstance(row, Answer):
                checked += _check_voids(rows, at)
    assert checked > 250


def _check_voids(rows: list[Row], at: int) -> int:
    """With the answer at `at` void after each row that still belongs to it."""
    answer, before = rows[at], folded(rows[:at])
    checked = 0
    for end in range(at + 1, len(rows) + 1):
        after = folded(rows[:end])
        if answer not in after.live or _goes_on_elsewhere(answer, after.live):
            break
        voided = with_row(after, Void(RowId("void"), answer.id, VoidReason.NOT_SAID))
        assert replace(voided, kept=before.kept) == before
        checked += 1
    return checked


def _goes_on_elsewhere(answer: Row, live: tuple[Row, ...]) -> bool:
    """Something was answered in another visit since, or the practice ended."""
    after = live[live.index(answer) + 1 :]
    visits = [row for row in after if isinstance(row, Ask) and opens_visit(row)]
    is_answered = bool(visits) and any(isinstance(row, Answer) for row in after[after.index(visits[0]) :])
    return is_answered or any(isinstance(row, End) for row in after)


def test_a_void_of_what_is_void_already_changes_nothing() -> None:
    talk = wild_practice(3)
    answer = next(row for row in talk.rows if isinstance(row, Answer))
    once = folded([*talk.rows, Void(talk.rows[-1].id, answer.id, VoidReason.NOT_SAID)])
    twice = with_row(once, Void(talk.rows[-1].id, answer.id, VoidReason.NOT_SAID))
    assert twice.live == once.live


# ---- killed after every row


class SteadyPupil:
    """Replies by the rows kept so far and the replies since: a kill only makes the pupil say the same again."""

    def __init__(self, seed: int, *, by_voice: bool) -> None:
        self.seed = seed
        self.by_voice = by_voice
        self._kept = self._replies = -1

    def starts_again(self) -> None:
        self._kept = -1

    def act(self, talk: Talk) -> None:
        self._replies = self._replies + 1 if len(talk.rows) == self._kept else 0
        self._kept = len(talk.rows)
        reply, certainty = self._reply(talk, Random(f"{self.seed} {self._kept} {self._replies}"))
        if self.by_voice:
            talk.hear(reply, certainty)
            while talk.is_waiting and not talk.finished:
                talk.wait()
        else:
            talk.type(reply)

    def _reply(self, talk: Talk, dice: Random) -> tuple[Meaning, float]:
        progress = talk.state.progress
        ask = progress.ask
        assert ask is not None
        asked = sum_at(talk.plan, cell_of(ask))
        is_voided = bool(talk.rows) and isinstance(talk.rows[-1], Void)
        if is_voided:
            return Number(asked.answer_to(ask.part)), 0.9
        if dice.random() < 0.25:
            return Given(
                dice.choice((Command.DONT_KNOW, Command.HELP, Command.SKIP, Command.SAY_AGAIN, Command.DOWN))
            ), 0.9
        if dice.random() < 0.1 and any(isinstance(row, Answer) for row in progress.live):
            return Given(Command.NOT_WHAT_I_SAID), 0.9
        value = self._value(asked, asked.answer_to(ask.part), dice, is_whole=ask.part in CLOSING_PARTS)
        is_unsure = dice.random() < 0.2 and talk.said[-1] != "Say it once more, please."
        return Number(value, close_to=(value + 10,) if dice.random() < 0.2 else ()), 0.5 if is_unsure else 0.9

    @staticmethod
    def _value(asked: Sum, right: int, dice: Random, *, is_whole: bool) -> int:
        if dice.random() < 0.5:
            return right
        return (
            dice.choice(wrong_wholes(asked)) if is_whole else dice.choice((1, right + 1, asked.next_ten, asked.total))
        )


def played(talk: Talk, pupil: SteadyPupil, *, until_rows: int | None = None) -> Talk:
    talk.begin()
    pupil.starts_again()
    for _ in range(MOST_REPLIES):
        if talk.finished or (until_rows is not None and len(talk.rows) >= until_rows):
            break
        pupil.act(talk)
    return talk


@pytest.mark.parametrize("by_voice", [False, True], ids=["typed", "spoken"])
@pytest.mark.parametrize("seed", range(3))
def test_killed_after_every_row_in_turn_it_ends_in_the_same_rows(seed: int, by_voice: bool) -> None:
    ear = Ear.OPEN if by_voice else Ear.TEXT
    whole = played(Talk(plan_of(STARTS, AMOUNTS), ear), SteadyPupil(seed, by_voice=by_voice))
    assert whole.finished
    for killed_at in range(1, len(whole.rows)):
        talk = Talk(plan_of(STARTS, AMOUNTS), ear)
        pupil = SteadyPupil(seed, by_voice=by_voice)
        played(talk, pupil, until_rows=killed_at)
        talk.rows = talk.rows[:killed_at]
        resumed = played(talk.again(), pupil)
        assert without_ids(resumed.rows) == without_ids(whole.rows), killed_at


@pytest.mark.parametrize("by_voice", [False, True], ids=["typed", "spoken"])
def test_killed_again_and_again_it_still_ends_in_the_same_rows(by_voice: bool) -> None:
    ear = Ear.OPEN if by_voice else Ear.TEXT
    for seed in range(12, 15):
        whole = played(Talk(plan_of(STARTS, AMOUNTS), ear), SteadyPupil(seed, by_voice=by_voice))
        talk = Talk(plan_of(STARTS, AMOUNTS), ear)
        pupil = SteadyPupil(seed, by_voice=by_voice)
        for kept in range(1, len(whole.rows)):
            played(talk, pupil, until_rows=kept)
            talk.rows = talk.rows[:kept]
            talk = talk.again()
        assert without_ids(played(talk, pupil).rows) == without_ids(whole.rows)


@pytest.mark.parametrize("seed", range(6))
def test_the_question_has_the_same_words_after_a_stop_at_any_moment(seed: int) -> None:
    talk = Talk(plan_of(STARTS, AMOUNTS))
    pupil = WildPupil(seed)
    talk.begin()
    for _ in range(40):
        if talk.finished:
            break
        question = standing_question(talk.plan, talk.state.progress).whole
        top = talk.state.talk.topics[-1]
        if isinstance(top, OfferingFacts):  # it is offered again, and no sum is asked yet
            question = (facts_offered(talk.plan, top.activity),)
        resumed = talk.again()
        resumed.begin()
        assert tuple(resumed.messages) == question
        assert len(resumed.rows) == len(talk.rows)
        pupil.act(talk)


def test_the_topics_that_wait_for_nothing_of_the_pupils_are_never_in_the_way() -> None:
    """A kill while something is said back or confirmed: the question comes again, and nothing of it is kept."""
    for times_unsure, topic in ((0, SayingBack), (3, Confirming)):
        talk = Talk(plan_of(STARTS, AMOUNTS))
        talk.begin()
        for _ in range(max(1, times_unsure)):
            talk.hear(Number(45), 0.5 if times_unsure else 0.9)
            talk.wait()
        assert isinstance(talk.state.talk.topics[-1], topic)
        again = talk.again()
        again.begin()
        again.type(Choice(True))
        assert not again.answers
