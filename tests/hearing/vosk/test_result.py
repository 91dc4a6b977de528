"""From what Vosk writes to what the gate makes of it: no engine needed."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.core.meanings import NUMBER_KINDS, Awaiting, Choice, Command, Given, Number, Unclear, WhyUnclear
from saythesum.hearing.confidence.gate import Judged, Verdict, judged
from saythesum.hearing.vosk.recogniser import entries
from saythesum.hearing.vosk.result import NOTHING_HEARD, Alternative, alternatives_in, hearing_of
from saythesum.ports import Hearing
from saythesum.wording.numbers import words
from saythesum.wording.understand.phrases import spellings
from saythesum.wording.understand.understood import understood

BEAM_NATS = 4.0


def heard(*alternatives: tuple[str, float], beam_nats: float = BEAM_NATS, kind: Awaiting = Awaiting.NUMBER) -> Hearing:
    return hearing_of([Alternative(*one) for one in alternatives], beam_nats, lambda text: understood(text, kind))


def through_the_gate(*alternatives: tuple[str, float], kind: Awaiting = Awaiting.NUMBER) -> Judged:
    return judged(heard(*alternatives, kind=kind), kind)


def test_what_the_engine_writes_is_read() -> None:
    # As libvosk 0.3.45 wrote it, with our words in place of the Korean ones.
    first = """{ "confidence" : 88.728271,
        "result" : [{ "end" : 0.330000, "start" : 0.150000, "word" : "fifty" },
                    { "end" : 0.630000, "start" : 0.540000, "word" : "two" }],
        "text" : "fifty two" }"""
    result = f"""{{ "alternatives" : [{first}, {{ "confidence" : 88.077202, "text" : "fifty" }}] }}"""
    assert alternatives_in(result) == (Alternative("fifty two", 88.728271), Alternative("fifty", 88.077202))
    assert alternatives_in('{"text": ""}') == ()


def test_a_probability_against_one_rival_is_its_log_odds() -> None:
    first, second, *_ = heard(("fifty two", 80.0), ("fifty", 80.0 - math.log(3)), beam_nats=math.inf).ranked
    assert math.exp(first.log_probability) == pytest.approx(0.75)
    assert first.log_probability - second.log_probability == pytest.approx(math.log(0.75 / 0.25))
    assert (first.meaning, second.meaning) == (Number(52), Number(50))


def test_however_it_was_written_one_number_is_one_meaning() -> None:
    hearing = heard(("fifty two", 80.0), ("five two", 80.0), beam_nats=math.inf)
    assert [(entry.meaning, entry.log_probability) for entry in hearing.ranked[:1]] == [(Number(52), 0.0)]


def test_no_margin_is_larger_than_what_the_engine_looked_at() -> None:
    sure = through_the_gate(("sixty one", 90.0))
    assert sure.verdict is Verdict.TAKEN
    hearing = heard(("sixty one", 90.0), beam_nats=2.0)
    first, second = hearing.ranked
    assert first.log_probability - second.log_probability == pytest.approx(2.0)
    assert second.meaning is None
    narrow = judged(hearing, Awaiting.NUMBER)
    assert narrow.certainty < sure.certainty < 1.0


@pytest.mark.parametrize(
    ("rival_below_nats", "verdict"), [(0.3, Verdict.UNSURE), (1.9, Verdict.UNSURE), (2.1, Verdict.TAKEN)]
)
def test_a_near_rival_makes_it_unsure(rival_below_nats: float, verdict: Verdict) -> None:
    assert through_the_gate(("thirty four", 90.0), ("eighty four", 90.0 - rival_below_nats)).verdict is verdict


def test_a_number_that_sounds_alike_is_told_of() -> None:
    found = through_the_gate(("thirty four", 90.0), ("forty four", 87.0)).heard
    assert isinstance(found, Number)
    assert (found.value, found.sure, found.close_to, found.alternatives) == (34, True, (44,), (44,))


@pytest.mark.parametrize(
    ("alternatives", "found"),
    [
        ([("[unk]", 90.0)], Unclear(WhyUnclear.OTHER)),
        ([("[unk]", 90.0), ("three", 87.0)], Unclear(WhyUnclear.OTHER)),
        ([("third", 90.0)], Unclear(WhyUnclear.OTHER)),
        ([("forty eight forty seven", 90.0)], Unclear(WhyUnclear.TWO_NUMBERS)),
        ([("", 90.0)], Unclear(WhyUnclear.NOTHING)),
        ([("", 90.0), ("three", 89.0)], Unclear(WhyUnclear.NOTHING)),
        ([], Unclear(WhyUnclear.NOTHING)),
    ],
)
def test_what_is_no_answer_is_refused(alternatives: list[tuple[str, float]], found: Unclear) -> None:
    assert through_the_gate(*alternatives) == Judged(found, Verdict.REFUSED, 0.0)


@pytest.mark.parametrize(
    ("text", "value", "objecting"),
    [("forty eight no forty seven", 47, False), ("no sixty two", 62, True), ("i said sixty two", 62, True)],
)
def test_a_correction_in_one_breath_comes_through(text: str, value: int, objecting: bool) -> None:
    """Its words are in the engine's list, and the list is joined freely."""
    listed = entries(Awaiting.NUMBER)
    assert {"no", "i said"} <= set(listed)
    found = through_the_gate((text, 90.0)).heard
    assert isinstance(found, Number)
    assert (found.value, found.sure, found.objecting) == (value, True, objecting)


@pytest.mark.parametrize("text", ["[unk] forty seven", "forty seven [unk]"])
def test_an_answer_among_unknown_words_is_asked_for_once_more(text: str) -> None:
    """It may have been "not forty-seven"."""
    found = through_the_gate((text, 90.0))
    assert found.verdict is Verdict.UNSURE
    assert isinstance(found.heard, Number)
    assert (found.heard.value, found.heard.sure) == (47, False)


def test_commands_and_choices_come_through() -> None:
    said = through_the_gate(("say that again", 90.0)).heard
    assert isinstance(said, Given)
    assert (said.command, said.sure) == (Command.SAY_AGAIN, True)
    chosen = through_the_gate(("yeah", 90.0), kind=Awaiting.CHOICE).heard
    assert isinstance(chosen, Choice)
    assert (chosen.yes, chosen.sure) == (True, True)


@given(
    st.lists(
        st.tuples(st.sampled_from(["fifty two", "five two", "fifty", "[unk]", "two [unk]", "", "go back", "and"]),
                  st.floats(-900, 900)),
        min_size=1,
    ),
    st.floats(0.5, 2000),
)  # fmt: skip
def test_probabilities_are_probabilities(alternatives: list[tuple[str, float]], beam_nats: float) -> None:
    best_first = sorted(alternatives, key=lambda one: one[1], reverse=True)
    hearing = heard(*best_first, beam_nats=beam_nats)
    if not best_first[0][0]:
        assert hearing == NOTHING_HEARD
        return
    logarithms = [entry.log_probability for entry in hearing.ranked]
    assert logarithms == sorted(logarithms, reverse=True)
    assert math.fsum(map(math.exp, logarithms)) == pytest.approx(1.0)
    assert len({entry.meaning for entry in hearing.ranked}) == len(logarithms)
    judged(hearing, Awaiting.NUMBER)


@pytest.mark.parametrize("awaiting", sorted(NUMBER_KINDS))
def test_every_number_can_be_made_of_the_list(awaiting: Awaiting) -> None:
    singly = {entry for entry in entries(awaiting) if " " not in entry}
    assert [number for number in range(1100) if not set(words(number).replace("-", " ").split()) <= singly] == []


@pytest.mark.parametrize("awaiting", list(Awaiting))
def test_every_phrase_is_in_the_list_whole(awaiting: Awaiting) -> None:
    listed = entries(awaiting)
    assert len(listed) == len(set(listed))
    assert [entry for entry in listed if entry != entry.lower()] == []
    phrases = [one.text for one in spellings(awaiting) if isinstance(one.meaning, Given | Choice)]
    assert [text for text in phrases if text.lower() not in listed] == []
