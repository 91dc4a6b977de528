"""Anything in any order: nothing raises, everything has words, and the pupil is never left with nothing to wait for."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.core.grids.grid import Grid, Order
from saythesum.core.meanings import LARGEST_NUMBER, Choice, Command, Given, Number, Unclear, WhyUnclear
from saythesum.core.records.rows import By, HeardId
from saythesum.dialogue.step import State, opened, step
from saythesum.dialogue.turns.effects import Ear, Effect, Finish, Keep, Listen, Say, Wake
from saythesum.dialogue.turns.events import (
    Began,
    EarAsked,
    Entered,
    Event,
    HeardSoFar,
    InputEnded,
    ListenId,
    SpeechBegan,
    TurnGivenBack,
    TurnTaken,
    UtteranceEnded,
    UtteranceId,
    WakeId,
    Woke,
)
from saythesum.dialogue.turns.stack import AdultsTurn
from saythesum.dialogue.tutor.plan import Plan, activity, planned
from saythesum.dialogue.tutor.progress import Progress, folded
from saythesum.settings import Settings, Waits
from saythesum.wording.speak.said import said
from tests.talk import PRACTICE

numbers = st.builds(
    Number,
    value=st.integers(0, LARGEST_NUMBER) | st.sampled_from((2, 3, 5, 40, 43, 45, 60, 62)),
    certainty=st.sampled_from((0.3, 0.9)),
    sure=st.booleans(),
    close_to=st.sampled_from(((), (35,))),
    objecting=st.booleans(),
    said_first=st.booleans(),
    counting=st.booleans(),
    alternatives=st.sampled_from(((), (43,), (62, 45))),
)
meanings = st.one_of(
    numbers,
    st.builds(Given, command=st.sampled_from(Command), sure=st.booleans(), alone=st.booleans()),
    st.builds(Choice, yes=st.booleans(), sure=st.booleans()),
    st.builds(Unclear, why=st.sampled_from(WhyUnclear)),
)
blanks = st.one_of(
    st.sampled_from((Began(0), TurnTaken(0), TurnGivenBack(0), EarAsked(0), EarAsked(0))),
    st.builds(lambda: InputEnded(0)),
)
spoken = st.builds(
    HeardSoFar,
    listen=st.just(ListenId(0)),
    segment=st.integers(0, 3),
    heard=meanings,
    text=st.just(""),
    began_ms=st.just(0),
    ended_ms=st.just(0),
    at_ms=st.just(0),
    id=st.sampled_from(("a", "b", "c")).map(HeardId),
)
entered = st.builds(
    Entered,
    heard=meanings,
    text=st.just(""),
    by=st.sampled_from((By.KEYS, By.TEXT)),
    at_ms=st.just(0),
    began_ms=st.just(0),
    id=st.sampled_from(("d", "e")).map(HeardId),
)
stale = st.one_of(
    st.builds(UtteranceEnded, id=st.integers(0, 60).map(UtteranceId), at_ms=st.just(0)),
    st.builds(Woke, id=st.integers(0, 60).map(WakeId), at_ms=st.just(0)),
    st.builds(SpeechBegan, listen=st.integers(0, 60).map(ListenId), at_ms=st.just(0)),
)
SPEAKING_ENDS, TIMER_ENDS, SPEECH_BEGINS = "speaking ends", "timer ends", "speech begins"
expected = st.sampled_from((SPEAKING_ENDS, SPEAKING_ENDS, TIMER_ENDS, TIMER_ENDS, SPEECH_BEGINS))
events = st.one_of(expected, expected, spoken, spoken, entered, stale, blanks)
FOR_EVER = Waits(None, None, None, None, None)


def plan_with(waits: Waits, order: Order) -> Plan:
    grid = Grid("Loaves on the bakery shelf", (38, 57, 4), (5, 3), order)
    return planned(PRACTICE, [activity(grid, 1)], replace(Settings(), waits=waits))


def at(event: Event | str, state: State, at_ms: int) -> Event | None:
    """The event with the ids and the time that it would have now."""
    channel = state.channel
    match event:
        case "speaking ends":
            return UtteranceEnded(channel.speaking, at_ms) if channel.speaking is not None else None
        case "timer ends":
            return Woke(channel.timer.id, at_ms) if channel.timer else None
        case "speech begins":
            return SpeechBegan(channel.open_ear.id, at_ms) if channel.open_ear else None
        case HeardSoFar() if channel.open_ear:
            return replace(event, listen=channel.open_ear.id, began_ms=at_ms, ended_ms=at_ms, at_ms=at_ms)
        case str():
            return None
        case _:
            return replace(event, at_ms=at_ms)


def is_dead(state: State, ear: Ear, *, finished: bool) -> bool:
    channel, topics = state.channel, state.talk.topics
    is_quiet = channel.speaking is None and channel.open_ear is None and channel.timer is None
    is_meant = not topics or finished or isinstance(topics[-1], AdultsTurn) or ear is Ear.PRESS
    return is_quiet and not is_meant


def check_order(effects: tuple[Effect, ...]) -> None:
    """Kept before it is said; said before the ear opens or a timer runs."""
    kinds = [kind for effect in effects for kind in (Keep, Say, Listen, Wake) if isinstance(effect, kind)]
    assert kinds == sorted(kinds, key=[Keep, Say, Listen, Wake].index)
    spoken = [effect.message for effect in effects if isinstance(effect, Say)]
    for length in ("brief", "short", "full"):
        texts = [said(message, length) for message in spoken]
        assert not texts or texts[-1], spoken


@settings(max_examples=150, deadline=None)
@given(
    st.lists(events, max_size=60),
    st.sampled_from(Ear),
    st.sampled_from((Waits(), FOR_EVER)),
    st.sampled_from(Order),
    st.booleans(),
)
def test_a_storm_of_events(storm: list[Event | str], ear: Ear, waits: Waits, order: Order, has_begun: bool) -> None:
    state = opened(plan_with(waits, order), Progress(), ear)
    rows, finished = [], False
    for place, drawn in enumerate([Began(0), *storm] if has_begun else storm):
        event = at(drawn, state, 100 * place)
        if event is None:
            continue
        state, effects = step(state, event)
        check_order(effects)
        rows += [effect.row for effect in effects if isinstance(effect, Keep)]
        finished = finished or any(isinstance(effect, Finish) for effect in effects)
        assert not is_dead(state, ear, finished=finished), event
        assert state.progress == folded(rows)
