"""A wrong answer is met with the question that tells its mistakes apart, and never twice in the same way."""

from collections import Counter

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.records.rows import Ask, By, Form, RowId, Support
from saythesum.core.sums import Part
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.tutor.plan import planned
from saythesum.learner.assessment.telling_apart import by_what_they_tell, information
from saythesum.learner.evidence import Evidence
from saythesum.learner.pupil import Pupil
from saythesum.settings import Settings
from tests.talk import PRACTICE, Talk, plan_of
from tests.tools.first_replies import all_stories, first_reply, three_times

THREE = dict(all_stories())


def told(start: int, amount: int, *given: int) -> list[str]:
    """All that is said after the question."""
    talk = Talk(plan_of((start,), (amount,)), Ear.TEXT)
    talk.begin()
    before = len(talk.said)
    for number in given:
        talk.type(str(number))
    return talk.said[before:]


@pytest.mark.parametrize(
    ("start", "amount", "given", "question"),
    [
        (38, 5, 33, "Eight and five?"),
        (38, 5, 313, "Eight and five is thirteen. How many tens in that?"),
        (38, 5, 42, "Forty and two is forty-two. Two gets you to forty. How many of the five are left?"),
        (73, 5, 77, "You start on seventy-three. One more is?"),
        (37, 3, 43, "Forty-three is six more than thirty-seven. How many from thirty-seven to the next ten?"),
        (38, 5, 83, "Eighty-three is far past thirty-eight. Thirty-eight: is that three tens or eight tens?"),
        (97, 6, 13, "Seven and six is thirteen. The tens count too. How many tens in ninety-seven?"),
        (54, 7, 60, "Fifty-four and six is sixty. How many of the seven are left?"),
    ],
)
def test_a_small_question_that_separates(start: int, amount: int, given: int, question: str) -> None:
    assert first_reply(Sum(start, amount), given) == f"Not yet. {question}"


def test_the_question_is_chosen_by_what_it_tells_of_the_mistakes_that_fit() -> None:
    asked = Sum(38, 5)
    lost_or_taken = {"new-ten-lost": 1 / 3, "subtracted": 1 / 3, "ones-differenced": 1 / 3}
    told = {part: information(asked, part, lost_or_taken) for part in asked.small_questions}
    assert by_what_they_tell(asked, lost_or_taken)[0] is Part.ONES
    assert told[Part.ONES] > 0.2
    assert told[Part.TENS] == pytest.approx(0)
    alone = {"whole-amount-after-bridging": 1.0}
    assert by_what_they_tell(asked, alone)[0] is Part.REST  # nothing to tell apart: where the mistake shows


def test_what_is_known_of_the_pupil_counts() -> None:
    """Forty-two for 47 add 5 may be a ten that was lost, or taking away; of this pupil a ten was lost twice before."""
    lost = [(Sum(57, 8), 55), (Sum(46, 8), 44)]
    evidence = tuple(Evidence(RowId(str(given)), asked.key, Part.WHOLE, given, By.KEYS) for asked, given in lost)
    plan = planned(PRACTICE, plan_of((47,), (5,)).activities, Settings(), before=Pupil(evidence=evidence))
    talk = Talk(plan, Ear.TEXT)
    talk.begin()
    talk.type("42")
    assert talk.said[-2:] == ["Forty-two is less than forty-seven.", "What's the next ten after forty-seven?"]
    assert told(47, 5, 42) == ["Not yet.", "Seven and five?"]


def test_help_goes_on_from_the_answer() -> None:
    assert told(47, 5, 42, 12)[-2:] == ["Twelve.", "Forty and twelve?"]
    assert told(47, 5, 42, 2)[-2:] == ["Two is less than seven. Adding goes up.", "Seven and five?"]
    assert told(47, 5, 42, 12, 52)[-2:] == ["Yes.", "That one's done. Bye for now."]
    assert told(47, 5, 42, 12, 42)[-2:] == ["Forty-two is less than forty-seven.", "Forty and twelve?"]
    assert told(97, 6, 13, 9)[-2:] == ["Nine tens.", "Seven and six?"]
    assert told(73, 5, 77, 73)[-2:] == ["Seventy-three is where we start.", "One more than seventy-three?"]
    assert told(73, 5, 77, 74)[-2:] == ["Seventy-four.", "Ones first: three and five?"]


@pytest.mark.parametrize("given", [33, 42, 313, 83, 13])
def test_it_is_kept_in_the_row_so_that_it_is_asked_again_in_the_same_words(given: int) -> None:
    talk = Talk(plan_of((38,), (5,)), Ear.TEXT)
    talk.begin()
    talk.type(str(given))
    ask = talk.state.progress.ask
    assert isinstance(ask, Ask)
    assert (ask.support, ask.about is not None) == (Support.ASKED, True)
    again = talk.again()
    again.begin()
    assert again.said == talk.said[-len(again.said) :]
    assert again.said[0] == "Not yet."


@pytest.mark.parametrize("name", THREE)
def test_the_same_mistake_is_met_otherwise_each_time(name: str) -> None:
    assert len({met.part for met in THREE[name]}) == len(THREE[name]), THREE[name]
    assert all(len(met.reply.split()) <= MOST_WORDS for met in THREE[name])


MOST_WORDS = 22
"""Twenty, and "Not yet"."""


def test_there_are_three_sums_for_each_of_the_seventeen() -> None:
    assert all(len(THREE[mistake.name]) == 3 for mistake in MISTAKES)
    assert len(THREE) > 2 * len(MISTAKES)


def test_six_times_the_same_is_at_most_twice_met_the_same() -> None:
    lost = next(mistake for mistake in MISTAKES if mistake.name == "new-ten-lost")
    replies = three_times((lost,), times=8)
    assert len(replies) == 8
    assert max(Counter(met.part for met in replies).values()) <= 2


def test_a_sum_below_ten_has_no_question_beside_its_steps() -> None:
    assert Sum(8, 5).small_questions == (Part.NEXT_TEN, Part.GAP, Part.REST)
    assert Sum(108, 5).small_questions == (Part.NEXT_TEN, Part.GAP, Part.REST)


def test_where_nothing_explains_the_number_the_same_question_comes_again_with_a_true_word_about_it() -> None:
    talk = Talk(plan_of((38,), (5,)), Ear.TEXT)
    talk.begin()
    talk.type("48")
    assert talk.said[-3:] == [
        "Not yet.",
        "Thirty-eight and ten is forty-eight. We're adding five.",
        "Thirty-eight add five.",
    ]
    assert talk.state.progress.ask is not None
    assert talk.state.progress.ask.form is Form.LOOK_AGAIN
