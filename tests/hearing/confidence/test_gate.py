import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.core.meanings import Awaiting, Choice, Command, Given, Meaning, Number, Unclear, WhyUnclear
from saythesum.hearing.confidence.gate import (
    CLOSE_NATS,
    MOST_ALTERNATIVES,
    REFUSED_BELOW,
    SURE_ABOVE_NEXT_NATS,
    SURE_COMMAND_LIKELY_NATS,
    SURE_FROM,
    Judged,
    Verdict,
    judged,
)
from saythesum.ports import Hearing, Hypothesis

Ranking = list[tuple[Meaning | None, float]]


def heard(ranking: Ranking, text: str = "Bye.", free: float = 0.0, inside: Ranking | None = None) -> Judged:
    """`ranking` in nats, likeliest first. "Bye." is what a free writing makes of some fives: it means nothing."""
    return judged(Hearing(_hypotheses(ranking), text, free, _hypotheses(inside or [])), Awaiting.NUMBER)


def _hypotheses(ranking: Ranking) -> tuple[Hypothesis, ...]:
    return tuple(Hypothesis(meaning, score) for meaning, score in ranking)


def number(found: Judged) -> Number:
    assert isinstance(found.heard, Number)
    return found.heard


def test_a_clear_number_is_taken_whatever_the_free_writing_says() -> None:
    found = heard([(Number(5), -1.0), (Number(9), -6.0)])
    assert found.verdict is Verdict.TAKEN
    assert number(found).value == 5
    assert number(found).sure
    assert number(found).certainty == found.certainty > 0.5


def test_two_numbers_near_each_other_are_not_sure() -> None:
    found = heard([(Number(5), -1.0), (Number(9), -1.0 - SURE_ABOVE_NEXT_NATS + 0.1)])
    assert found.verdict is Verdict.UNSURE
    assert (number(found).value, number(found).sure) == (5, False)


@pytest.mark.parametrize("free", [0.0, -2.0])
def test_a_number_that_is_not_certain_enough_is_not_sure_and_one_hardly_certain_is_refused(free: float) -> None:
    """Far below the free writing something else was said."""
    found = [heard([(Number(5), log), (Number(9), log - 2)], free=free) for log in (free - 0.5, free - 5, free - 12)]
    assert [each.verdict for each in found] == [Verdict.TAKEN, Verdict.UNSURE, Verdict.REFUSED]
    assert found[0].certainty >= SURE_FROM > found[1].certainty >= REFUSED_BELOW
    assert found[2].heard == Unclear(WhyUnclear.OTHER)


def test_noise_that_a_number_fits_best_is_not_sure() -> None:
    """Nothing that was written of it is likely, so everything lies near the free writing."""
    clear, noise = (heard([(Number(5), log), (Number(9), log - 2)], free=log) for log in (-0.5, -7.0))
    assert (clear.verdict, noise.verdict) == (Verdict.TAKEN, Verdict.UNSURE)


def test_nothing_said_is_not_something_else_said() -> None:
    silence = Hearing((), "", 0.0, is_speech=False)
    assert judged(silence, Awaiting.NUMBER).heard == Unclear(WhyUnclear.NOTHING)


def test_speech_that_fits_nothing_is_something_else() -> None:
    assert heard([], "Good morning.").heard == Unclear(WhyUnclear.OTHER)


def test_um_is_nothing() -> None:
    assert heard([(Number(1), -9.0)], "Um.").heard == Unclear(WhyUnclear.NOTHING)


def test_a_rival_that_wins_is_refused() -> None:
    assert heard([(None, -0.5), (Number(6), -3.0)], "Sixth.").verdict is Verdict.REFUSED


def test_a_rival_that_hardly_wins_makes_the_number_unsure() -> None:
    found = heard([(None, -1.0), (Number(4), -1.4)], "Fourth.")
    assert (found.verdict, number(found).value) == (Verdict.UNSURE, 4)


def test_a_rival_behind_leaves_the_number_alone() -> None:
    assert heard([(Number(4), -0.5), (None, -4.0)], "Four.").verdict is Verdict.TAKEN


def test_a_command_of_the_closed_set_is_taken() -> None:
    found = heard([(Given(Command.DONT_KNOW), -0.2), (Number(2), -7.0)], "I don't know.")
    assert isinstance(found.heard, Given)
    assert (found.heard.command, found.heard.sure, found.verdict) == (Command.DONT_KNOW, True, Verdict.TAKEN)


def test_a_command_in_other_words_counts_where_the_closed_set_agrees() -> None:
    again = Given(Command.SAY_AGAIN)
    assert heard([(again, -14.0), (Number(10), -17.0)], "What did you say?").verdict is Verdict.TAKEN
    assert heard([(Number(10), -2.0), (Number(9), -2.5), (again, -17.0)], "What did you say?").verdict is Verdict.UNSURE


def test_a_sentence_counts_by_itself_where_nothing_of_the_closed_set_is_likely() -> None:
    """What changes more than the talk is said back first; a sentence that is unlikely by itself is not sure."""
    again = heard([(Number(10), -14.0)], "Can I hear it one more time?")
    stop = heard([(Number(10), -14.0)], "I've had enough of this.")
    babble = heard([(Number(10), -19.0)], "I've had enough of this.", free=-SURE_COMMAND_LIKELY_NATS - 0.1)
    assert again.heard == Given(Command.SAY_AGAIN, again.certainty)
    assert stop.heard == Given(Command.STOP, stop.certainty, alone=True)
    assert [each.verdict for each in (again, stop, babble)] == [Verdict.TAKEN, Verdict.TAKEN, Verdict.UNSURE]


@pytest.mark.parametrize("text", ["I don't know.", "I'm not going to say it."])
def test_a_command_that_is_unlikely_by_itself_is_not_sure(text: str) -> None:
    """In a room full of voices "I don't know" fits better than any number."""
    unlikely: Ranking = [(Given(Command.DONT_KNOW), -SURE_COMMAND_LIKELY_NATS - 0.1), (Number(2), -9.0)]
    assert heard(unlikely, text, free=-SURE_COMMAND_LIKELY_NATS - 0.1).verdict is Verdict.UNSURE


def test_yes_is_a_choice() -> None:
    hearing = Hearing((Hypothesis(Choice(True), -0.3), Hypothesis(Choice(False), -5.0)), "Yes.", 0.0)
    found = judged(hearing, Awaiting.CHOICE)
    assert isinstance(found.heard, Choice)
    assert found.heard.yes and found.heard.sure


def test_a_correction_counts_where_the_closed_set_agrees_on_its_end() -> None:
    found = heard(
        [(Number(48), -3.0), (Number(4), -7.0)],
        "Forty-eight, no, forty-seven.",
        inside=[(Number(47), -0.4), (Number(40), -8.0)],
    )
    assert (found.verdict, number(found).value) == (Verdict.TAKEN, 47)


def test_a_correction_is_not_sure_where_the_closed_set_does_not_agree() -> None:
    found = heard(
        [(Number(62), -9.0), (Number(602), -9.5)],
        "I said 602.",
        inside=[(Number(62), -1.6), (Number(602), -3.8)],
    )
    assert (found.verdict, number(found).value) == (Verdict.UNSURE, 602)


def test_a_sentence_without_anything_to_agree_with_is_not_sure() -> None:
    assert heard([(Number(3), -15.0)], "Is it fifty-two?").verdict is Verdict.UNSURE


def test_a_sentence_keeps_what_it_says_about_its_number() -> None:
    found = heard([(Number(62), -3.0), (Number(162), -6.0)], "No, sixty-two.", inside=[(Number(62), -0.3)])
    assert (number(found).objecting, found.verdict) == (True, Verdict.TAKEN)


def test_two_numbers_in_one_breath_are_never_guessed() -> None:
    found = heard([(Number(40), -3.0), (Number(4), -7.0)], "Forty or fifty.", inside=[(Number(50), -0.1)])
    assert found.heard == Unclear(WhyUnclear.TWO_NUMBERS)


@pytest.mark.parametrize("text", ["Fourteen, three.", "Fourteen three."])
def test_a_tens_word_that_sounds_like_a_teen_is_one_number_with_its_ones(text: str) -> None:
    found = heard([(Number(43), -1.0), (Number(14), -4.0)], text)
    assert (number(found).value, found.verdict) == (43, Verdict.TAKEN)


def test_a_teen_and_another_number_stay_two_where_the_closed_set_hears_neither_as_one() -> None:
    assert heard([(Number(14), -1.0), (Number(43), -4.0)], "Fourteen, three.").heard == Unclear(WhyUnclear.TWO_NUMBERS)


def test_a_near_confusable_number_is_named() -> None:
    near, far = -0.5 - CLOSE_NATS + 0.1, -0.5 - CLOSE_NATS - 0.1
    found = heard([(Number(43), -0.5), (Number(33), near), (Number(63), near), (Number(40), far)])
    assert number(found).close_to == (33,)


def test_other_numbers_of_the_hearing_are_kept_likeliest_first() -> None:
    ranking: Ranking = [(Number(value), -0.1 * place) for place, value in enumerate([7, 11, 70, 17, 47, 27, 77, 37])]
    assert number(heard(ranking)).alternatives == (11, 70, 17, 47, 27)
    assert len(number(heard(ranking)).alternatives) == MOST_ALTERNATIVES


@given(st.integers(0, 1099), st.integers(0, 1099), st.floats(0, 8), st.floats(0, 8))
def test_a_single_number_and_its_margins_decide_and_its_value_does_not(
    one: int, other: int, below: float, above: float
) -> None:
    """No tell: whichever answer would be right, hearings alike in sound are judged alike."""
    first = heard([(Number(one), -below), (None, -below - above)])
    second = heard([(Number(other), -below), (None, -below - above)])
    assert (first.verdict, first.certainty) == (second.verdict, second.certainty)


@pytest.mark.parametrize("awaiting", list(Awaiting))
@pytest.mark.parametrize("text", ["", "?", "Forty-six", "[unfinished]", "no no no", "\ufffd\ufffd", "a " * 300])
def test_any_text_is_judged(text: str, awaiting: Awaiting) -> None:
    assert judged(Hearing((), text, -3.0), awaiting).verdict in Verdict


def test_an_unfinished_writing_is_no_sentence() -> None:
    assert heard([(Number(52), -9.0)], "Is it fifty-two [unfinished]").heard == Unclear(WhyUnclear.OTHER)


def test_a_number_written_freely_does_not_replace_a_closed_meaning_that_is_sure() -> None:
    """ "A hundred and one", written as "One or one."."""
    found = heard([(Number(101), -2.0), (Number(1), -6.0)], "One or one.", free=-1.5, inside=[(Number(1), -0.2)])
    assert (found.verdict, number(found).value) == (Verdict.TAKEN, 101)


@pytest.mark.parametrize(
    "text", ["Forty-eight, no, forty-seven.", "Forty-eight, I mean forty-seven.", "No, forty-seven."]
)
def test_a_correction_replaces_it(text: str) -> None:
    found = heard([(Number(48), -1.0), (Number(4), -7.0)], text, inside=[(Number(47), -0.4), (Number(40), -8.0)])
    assert (found.verdict, number(found).value) == (Verdict.TAKEN, 47)
