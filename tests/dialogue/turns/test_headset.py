"""With a headset the ear is open while the tool speaks, and the pupil's speech cuts it."""

from saythesum.core.meanings import Awaiting, Meaning, Number, Unclear, WhyUnclear
from saythesum.core.records.rows import By, HeardId
from saythesum.dialogue import messages as say
from saythesum.dialogue.step import State, opened, step
from saythesum.dialogue.turns.effects import Ear, Effect, Hush, Listen, OpenWhen, Purpose, Say, Wake
from saythesum.dialogue.turns.events import (
    Began,
    Entered,
    HeardSoFar,
    ListenId,
    NobodySpoke,
    SpeechBegan,
    TypingChanged,
    UtteranceEnded,
    Woke,
)
from saythesum.dialogue.tutor.progress import Progress
from tests.talk import plan_of


def begun(open_when: OpenWhen = OpenWhen.ALWAYS) -> tuple[State, tuple[Effect, ...]]:
    state = opened(plan_of((38,), (5, 8)), Progress(), Ear.OPEN, open_when=open_when)
    return step(state, Began(0))


def only(kind: type[Effect], effects: tuple[Effect, ...]) -> list[Effect]:
    return [effect for effect in effects if isinstance(effect, kind)]


def spoken_into(state: State, listen: Listen, heard: Meaning) -> tuple[State, tuple[Effect, ...]]:
    """Speech into what is being said, and what it meant once its end pause is over."""
    state, hushed = step(state, SpeechBegan(listen.id, 500))
    assert hushed == (Hush(),)
    state, waits = step(state, HeardSoFar(listen.id, 0, heard, "", 500, 1000, 1200, HeardId("heard")))
    (wake,) = waits
    assert isinstance(wake, Wake)
    return step(state, Woke(wake.id, 2300))


def test_the_ear_opens_with_the_first_word_and_stays_open() -> None:
    state, effects = begun()
    assert [type(effect) for effect in effects][-3:] == [Say, Say, Listen]
    last = only(Say, effects)[-1]
    assert isinstance(last, Say)
    _, after = step(state, UtteranceEnded(last.id, 2000))
    assert after == ()


def test_without_a_headset_the_ear_waits_for_the_end() -> None:
    state, effects = begun(OpenWhen.AFTER_SPEECH)
    assert only(Listen, effects) == []
    last = only(Say, effects)[-1]
    assert isinstance(last, Say)
    _, after = step(state, UtteranceEnded(last.id, 2000))
    assert [type(effect) for effect in after] == [Listen]


def test_an_answer_spoken_into_the_question_counts_and_has_no_time() -> None:
    state, effects = begun()
    (listen,) = only(Listen, effects)
    assert isinstance(listen, Listen)
    state, said_back = spoken_into(state, listen, Number(43, certainty=0.9))
    assert [effect.message for effect in only(Say, said_back) if isinstance(effect, Say)] == [say.SaidBack(43)]
    state, _ = step(state, UtteranceEnded(state.channel.speaking or 0, 3000))  # type: ignore[arg-type]
    assert state.channel.timer
    state, _ = step(state, Woke(state.channel.timer.id, 4000))
    answer = state.progress.live[1]
    assert getattr(answer, "took_ms", 0) is None
    assert getattr(answer, "right", False)


def test_a_cough_into_the_question_brings_the_question_again() -> None:
    state, effects = begun()
    (listen,) = only(Listen, effects)
    assert isinstance(listen, Listen)
    asked = [effect.message for effect in only(Say, effects) if isinstance(effect, Say)]
    _, again = spoken_into(state, listen, Unclear(WhyUnclear.OTHER))
    assert [effect.message for effect in only(Say, again) if isinstance(effect, Say)] == asked
    assert only(Listen, again)


def test_a_cough_into_a_later_sentence_brings_only_that_and_what_follows_it() -> None:
    state, effects = begun()
    (listen,) = only(Listen, effects)
    assert isinstance(listen, Listen)
    first, *rest = [effect for effect in effects if isinstance(effect, Say)]
    state, _ = step(state, UtteranceEnded(first.id, 400))
    _, again = spoken_into(state, listen, Unclear(WhyUnclear.OTHER))
    assert [effect.message for effect in again if isinstance(effect, Say)] == [effect.message for effect in rest]


def test_typing_stops_the_open_pause_and_rubbing_out_begins_it_anew() -> None:
    state, effects = begun(OpenWhen.AFTER_SPEECH)
    last = only(Say, effects)[-1]
    assert isinstance(last, Say)
    state, opened_ear = step(state, UtteranceEnded(last.id, 2000))
    (listen,) = opened_ear
    assert isinstance(listen, Listen)
    state, waits = step(
        state, HeardSoFar(listen.id, 0, Number(45, certainty=0.9), "", 2500, 3000, 3200, HeardId("one"))
    )
    (wake,) = waits
    assert isinstance(wake, Wake)
    state, _ = step(state, Woke(wake.id, 4300))
    assert state.channel.speaking
    state, pause = step(state, UtteranceEnded(state.channel.speaking, 5000))
    (pausing,) = only(Wake, pause)
    assert isinstance(pausing, Wake)
    state, _ = step(state, TypingChanged(is_empty=False, at_ms=5300))
    state, nothing = step(state, Woke(pausing.id, 6000))
    assert nothing == ()
    _, anew = step(state, TypingChanged(is_empty=True, at_ms=6500))
    assert [type(effect) for effect in anew] == [Wake]
    state, _ = step(state, Entered(Number(43), "43", By.KEYS, 7000, 5300, HeardId("two")))
    assert [getattr(row, "given", None) for row in state.progress.live] == [None, 43, None]


def test_a_pause_between_sentences_in_which_nobody_speaks_is_over() -> None:
    state, effects = begun(OpenWhen.BETWEEN_SENTENCES)
    first = next(effect for effect in effects if isinstance(effect, Say))
    state, opened_ear = step(state, UtteranceEnded(first.id, 400))
    assert opened_ear == (Listen(ListenId(3), Awaiting.NUMBER, Ear.OPEN, Purpose.BETWEEN_SENTENCES, for_ms=700),)
    state, nothing = step(state, NobodySpoke(ListenId(3), 1200))
    assert (nothing, state.channel.open_ear) == ((), None)
    _, too_late = step(state, SpeechBegan(ListenId(3), 1300))
    assert too_late == ()
