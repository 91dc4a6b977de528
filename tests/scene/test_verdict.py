"""A verdict stands beside the sum that it is about, until the next answer or key."""

from saythesum.dialogue import messages as say
from saythesum.scene.scene import Now, VerdictShown, scene
from tests.dialogue.at_the_keys import AtTheKeys
from tests.scene.watched import NOTHING_TYPED, answer_in, practice, sum_in
from tests.talk import Talk, plan_of

RIGHT_38_3 = VerdictShown("38 + 3 = 41. Yes.", "Thirty-eight add three is forty-one. Yes.", is_right=True)
RIGHT_38_5 = VerdictShown("38 + 5 = 43. Yes.", "Thirty-eight add five is forty-three. Yes.", is_right=True)
WRONG_38_5 = VerdictShown("38 + 5: 45. Not yet.", "Thirty-eight add five: forty-five. Not yet.", is_right=False)
WRONG_38_3 = VerdictShown("38 + 3: 45. Not yet.", "Thirty-eight add three: forty-five. Not yet.", is_right=False)


def test_it_is_shown_with_its_sum_and_answer_though_the_next_is_asked() -> None:
    """No equals sign stands between a sum and a wrong answer."""
    watched = practice()
    right = watched.typed("41")
    assert right.verdict == RIGHT_38_3
    assert (sum_in(right).text, answer_in(right).text) == ("38 + 5", "")
    assert right.caption.text == "Thirty-eight add five."
    wrong = watched.typed("45")
    assert wrong.verdict == WRONG_38_5
    assert (sum_in(wrong).text, answer_in(wrong).text) == ("38 + 5", "")
    assert wrong.caption.text == "Forty and five is forty-five. How many of the five get you to forty?"


def test_it_goes_with_the_next_answer() -> None:
    watched = practice()
    watched.typed("41")
    watched.talk.hear("forty-three")
    assert watched.shown().verdict == RIGHT_38_3, "what was heard is not settled yet"
    watched.talk.wait()
    said_back = watched.shown()
    assert (answer_in(said_back).text, said_back.verdict) == ("43", None)
    watched.talk.wait()
    assert watched.shown().verdict == RIGHT_38_5


def test_it_stays_through_questions_of_the_pupil() -> None:
    assert practice().typed("45", "where am I", "say that again", "I don't know").verdict == WRONG_38_3


def test_it_stays_when_a_sound_cuts_the_sentence_and_means_nothing() -> None:
    """What is said again is the rest of it, without the verdict."""
    talk = Talk(plan_of((38,), (5, 8)), speech_ms=1000, between_ms=700)
    talk.begin()
    talk.wait(10_000)
    talk.type("45")
    talk.wait(1000)
    talk.hear("mumble")
    talk.wait()
    assert say.NotYet() not in talk.state.channel.saying
    assert scene(talk.state, NOTHING_TYPED).verdict == WRONG_38_5


def test_taken_back_it_is_gone() -> None:
    watched = practice()
    assert watched.typed("45").verdict
    assert watched.typed("not what I said").verdict is None


def test_it_goes_with_the_next_key_and_not_with_one_that_changes_the_look() -> None:
    pupil = AtTheKeys()
    pupil.keys("4 1 enter")
    verdicts = []
    for key in ("bigger", "view", "colours", "tab", "escape"):
        pupil.keys(key)
        verdicts.append(scene(pupil.talk.state, pupil.typing).verdict is not None)
    assert verdicts == [True, True, True, False, False]
    pupil.keys("4 3 enter")
    assert scene(pupil.talk.state, pupil.typing).verdict == RIGHT_38_5


def test_a_practice_that_goes_on_shows_the_verdict_that_it_says_once_more() -> None:
    talk = practice().talk
    talk.type("45")
    again = talk.again()
    again.begin()
    assert scene(again.state, NOTHING_TYPED).verdict == WRONG_38_3
    talk.type("41")
    again = talk.again()
    again.begin()
    assert scene(again.state, NOTHING_TYPED).verdict is None


def test_of_a_part_of_the_way_the_caption_says_it() -> None:
    at_the_gap = practice(57, amounts=(8,)).typed("I don't know", "60")
    assert at_the_gap.verdict is None
    assert at_the_gap.caption.text == "Sixty. How many to get there?"


def test_the_last_one_stands_with_its_sum_and_answer_when_the_practice_is_over() -> None:
    over = practice(38, amounts=(3,)).typed("41")
    assert over.now is Now.CLOSES
    assert (sum_in(over).text, answer_in(over).text) == ("38 + 3", "41")
    assert over.caption.text == "That one's done. Bye for now."
    assert over.verdict == RIGHT_38_3
    assert over.buttons == ()


def test_stop_leaves_no_question_and_no_verdict() -> None:
    over = practice().typed("45", "stop there")
    assert (over.now, over.sum, over.answer, over.verdict, over.line) == (Now.OVER, None, None, None, None)
