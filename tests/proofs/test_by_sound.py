"""Proofs 1, 2 and 3 by sound: a recorded pupil, the real ear and engine, in sample time."""

import json
from collections import Counter
from collections.abc import Iterator
from math import comb

import pytest

from saythesum.app.rehearsal.sample_time import BLOCK_SAMPLES
from saythesum.app.rehearsal.speaking_pupil import Utterance
from saythesum.core.exercises.adding import Sum
from saythesum.core.records.rows import Answer, Support
from saythesum.dialogue.turns.events import TurnGivenBack, TurnTaken
from saythesum.speaking.voice import ToolVoice
from tests.by_sound import Practice, connected, recorded, said_by_the_pupil, tool_voice
from tests.proofs.by_sound import SAID_AGAIN, Said, came_of, measured
from tests.talk import plan_of


@pytest.fixture(scope="module")
def voice(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ToolVoice]:
    with tool_voice(tmp_path_factory.mktemp("cache")) as voice:
        yield voice


def answers(practice: Practice) -> list[Answer]:
    return [row for row in practice.state.progress.live if isinstance(row, Answer)]


# ---- 1. no tell ------------------------------------------------------------------------------------------


def test_no_tell(voice: ToolVoice) -> None:
    """A part of `python -m tests.proofs.by_sound`: the same sound, right in one sum and wrong in another."""
    told = measured(8, voice)
    assert told.told_apart == told.not_answered == 0
    assert told.once_more_right == told.once_more_wrong
    assert told.said_back_rightly >= 7
    assert max(told.pairs_apart) <= BLOCK_SAMPLES


def test_no_tell_of_a_sound_at_the_limit(voice: ToolVoice) -> None:
    """What noise has made doubtful is refused or asked for once more by where its frames fall, which differs with the
    length of the question before it. So the rates are compared, over sums to which it is right and wrong.
    """
    number, noise_db, seed = 85, 6.0, 3
    right = [Sum(number - amount, amount) for amount in range(2, 8)]
    wrong = [Sum(70 - amount, amount) for amount in range(2, 8)]
    came = {
        is_right: Counter(came_of(Said(asked, number, noise_db, seed), voice).words for asked in sums)
        for is_right, sums in ((True, right), (False, wrong))
    }
    assert set(came[True] | came[False]) <= {(), (SAID_AGAIN,)}
    assert as_uneven_by_chance(came[True][()], came[False][()], of=len(right)) >= 0.01


def as_uneven_by_chance(one: int, other: int, *, of: int) -> float:
    """How likely at least so uneven a split is between two groups of the same size. Source: Fisher's exact test."""
    both = one + other
    ways = [comb(of, part) * comb(of, both - part) for part in range(both + 1)]
    return sum(way for way in ways if way <= ways[one]) / sum(ways)


@pytest.mark.parametrize(("one", "other", "chance"), [(0, 8, 0.0002), (3, 3, 1.0), (1, 4, 0.2821)])
def test_chance_of_an_uneven_split(one: int, other: int, chance: float) -> None:
    """Counted by hand: 2 of 12,870 ways for the first."""
    assert as_uneven_by_chance(one, other, of=8) == pytest.approx(chance, abs=0.0002)


# ---- 2. counting aloud -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "gap_ms"), [(("thirty-nine", "forty", "forty-three"), 2000), (("forty", "three"), 2200)]
)
def test_nothing_is_said_into_a_count_and_its_last_number_counts(
    said: tuple[str, ...], gap_ms: int, voice: ToolVoice
) -> None:
    first, *others = said
    reply = (Utterance(first, 700), *(Utterance(text, gap_ms) for text in others))
    practice = connected(Practice(voice, iter([reply])), plan_of((38,), (5,)))
    practice.begin()
    practice.pass_until_listening()
    before = list(practice.spoken.texts)
    practice.pass_until(lambda: practice.clock.samples > practice.pupil.end)
    assert practice.spoken.texts == before
    practice.pass_until(lambda: bool(answers(practice)))
    (answer,) = answers(practice)
    assert (answer.given, answer.right, answer.tries) == (43, True, 1)
    assert answer.support is Support.INDEPENDENT
    assert answer.could_be == ()


# ---- 3. the adult talks ----------------------------------------------------------------------------------


@pytest.mark.parametrize(("taken_ms", "begun"), [(200, 1), (2500, 2)], ids=["in the first sentence", "in the question"])
def test_what_is_said_in_the_adults_turn_is_nobodys_answer(taken_ms: int, begun: int, voice: ToolVoice) -> None:
    log: list[str] = []
    practice = connected(Practice(voice, said_by_the_pupil("sixty-five", "")), plan_of((57,), (8,)), log.append)
    practice.begin()
    practice.pass_ms(taken_ms)
    assert practice.tool.end > practice.clock.samples, "in the middle of what the tool says"
    assert len(practice.spoken.texts) == begun
    the_adult_talks(practice)
    practice.pass_until(lambda: bool(answers(practice)))
    assert [answer.given for answer in answers(practice)] == [65]
    assert [json.loads(line)["kind"] for line in log].count("heard") == 1


def test_the_turn_taken_in_the_middle_of_a_word(voice: ToolVoice) -> None:
    """The adult has begun to speak into the open ear, and then presses the key."""
    log: list[str] = []
    practice = connected(Practice(voice, said_by_the_pupil("", "sixty-five", "")), plan_of((57,), (8,)), log.append)
    practice.begin()
    practice.pass_until_listening()
    practice.overheard(recorded("fifty-four"))
    practice.pass_ms(300)
    the_adult_talks(practice)
    practice.pass_until(lambda: bool(answers(practice)))
    assert [answer.given for answer in answers(practice)] == [65]
    assert [json.loads(line)["kind"] for line in log].count("heard") == 1


def the_adult_talks(practice: Practice) -> None:
    """Takes the turn, says "sixty" and "five" to the pupil, gives it back: the question comes once, in its words."""
    practice.happen(TurnTaken(practice.clock.since_start_ms()))
    before, silent_from = list(practice.spoken.texts), practice.clock.samples
    for text in ("sixty", "five"):
        practice.overheard(recorded(text), after_ms=800)
    practice.pass_until(lambda: practice.clock.samples > practice.pupil.end)
    practice.pass_ms(5_000)
    assert practice.spoken.texts == before
    assert practice.tool.end <= silent_from
    assert not practice.is_listening
    practice.happen(TurnGivenBack(practice.clock.since_start_ms()))
    practice.pass_until_listening()
    assert practice.spoken.texts[len(before) :] == ["One row, one sum.", "Fifty-seven add eight."]
