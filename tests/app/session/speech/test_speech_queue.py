"""The speech queue in sample time: what is spoken, when the ear is open, what a cue announces, what cuts speech."""

from collections.abc import Callable, Iterator

import pytest

from saythesum.app.rehearsal.computed_sound import SampleClock, Track, TrackListener, TrackLoudspeaker, TrackMouth
from saythesum.app.rehearsal.sample_time import Room
from saythesum.app.session.speech.speech_queue import BEHIND_MS, LONGEST_BEHIND_MS, SpeechQueue
from saythesum.core.meanings import Awaiting
from saythesum.core.records.rows import Answer
from saythesum.dialogue.turns.effects import Ear, Listen, OpenWhen, Purpose, Wake
from saythesum.dialogue.turns.events import Event, ListenId, NobodySpoke, UtteranceEnded, UtteranceId, WakeId, Woke
from saythesum.hearing.ear import Ear as HearingEar
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.ports import Over, OwnSound
from saythesum.settings import Settings
from saythesum.speaking.voice import ToolVoice
from tests.by_sound import Practice, connected, recorded, said_by_the_pupil, tool_voice
from tests.talk import plan_of

ECHO_MS = 200


@pytest.fixture(scope="module")
def voice(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ToolVoice]:
    with tool_voice(tmp_path_factory.mktemp("cache")) as voice:
        yield voice


class Stage:
    """A queue with the mouth and the ear of a rehearsal; the test lets time pass and is the dialogue."""

    def __init__(self, voice: ToolVoice, *, one_by_one: bool) -> None:
        self.clock, self.track = SampleClock(), Track()
        self.heard: list[Event] = []
        """What the dialogue was told."""
        self.shown: list[str] = []
        self.opened: list[Listen] = []
        self._overs: list[Over] = []
        self._loudspeaker = TrackLoudspeaker(self.track, self.clock, self._overs.append)
        self._listener = TrackListener(
            HearingEar(NeuralRecogniser(), self.heard.append), self.clock, self.opened.append
        )
        self.queue = SpeechQueue(
            clock=self.clock,
            mouth=TrackMouth(voice, self._loudspeaker),
            listener=self._listener,
            post=self._overs.append,
            write=self.shown.append,
            one_by_one=one_by_one,
            has_cues=True,
            echo_ms=ECHO_MS,
        )
        self.queue.to_dialogue = self.heard.append

    def play_out(self) -> Over:
        """The next sound to its end."""
        if not self._overs:
            end = self._loudspeaker.next_over
            assert end is not None, "nothing is playing"
            self.clock.samples = max(self.clock.samples, end)
            self._loudspeaker.report_over()
        over = self._overs.pop(0)
        self.queue.sound_over(over)
        return over

    @property
    def is_ear_open(self) -> bool:
        return self._listener.is_open

    @property
    def sentences(self) -> list[str]:
        """Handed to the loudspeaker, and not cut."""
        return [piece.text for piece in self.track.pieces if piece.text]

    @property
    def cues(self) -> int:
        return sum(not piece.text for piece in self.track.pieces)


@pytest.fixture
def on_loudspeaker(voice: ToolVoice) -> Stage:
    return Stage(voice, one_by_one=True)


@pytest.fixture
def with_headset(voice: ToolVoice) -> Stage:
    return Stage(voice, one_by_one=False)


def listen_for(purpose: Purpose, *, ear: Ear = Ear.OPEN, number: int = 9) -> Listen:
    for_ms = 700 if purpose is Purpose.BETWEEN_SENTENCES else None
    return Listen(ListenId(number), Awaiting.NUMBER, ear, purpose, for_ms)


ONE, TWO, THREE = UtteranceId(1), UtteranceId(2), UtteranceId(3)

# ---- one after the other ------------------------------------------------------------------------------------


def test_with_a_headset_everything_is_handed_on_at_once(with_headset: Stage) -> None:
    with_headset.queue.say(ONE, "Forty-seven add five.")
    with_headset.queue.say(TWO, "Take your time.")
    assert with_headset.sentences == ["Forty-seven add five.", "Take your time."]


def test_on_a_loudspeaker_a_sentence_and_its_cue_wait_for_the_ear_between(on_loudspeaker: Stage) -> None:
    queue = on_loudspeaker.queue
    queue.say(ONE, "Forty-seven add five.")
    queue.cue("ten-reached")
    queue.say(TWO, "Take your time.")
    assert on_loudspeaker.sentences == ["Forty-seven add five."]
    between = listen_for(Purpose.BETWEEN_SENTENCES)
    queue.to_dialogue = lambda event: queue.listen(between) if isinstance(event, UtteranceEnded) else None
    assert on_loudspeaker.play_out().id == ONE
    assert (on_loudspeaker.is_ear_open, on_loudspeaker.sentences) == (True, ["Forty-seven add five."])
    queue.happened(NobodySpoke(ListenId(1), 0))
    assert len(on_loudspeaker.sentences) == 1, "another ear was shut"
    queue.happened(NobodySpoke(between.id, on_loudspeaker.clock.since_start_ms()))
    assert on_loudspeaker.sentences == ["Forty-seven add five.", "Take your time."]
    assert on_loudspeaker.cues == 1


def test_without_an_ear_between_the_next_sentence_follows(on_loudspeaker: Stage) -> None:
    on_loudspeaker.queue.say(ONE, "Forty-seven add five.")
    on_loudspeaker.queue.say(TWO, "Take your time.")
    assert [on_loudspeaker.play_out().id, on_loudspeaker.play_out().id] == [ONE, TWO]
    assert [event for event in on_loudspeaker.heard if not isinstance(event, UtteranceEnded)] == []


# ---- what cuts ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("one_by_one", [True, False])
def test_a_cut_ends_every_sentence_exactly_once(one_by_one: bool, voice: ToolVoice) -> None:
    stage = Stage(voice, one_by_one=one_by_one)
    for id, text in ((ONE, "Forty-seven add five."), (TWO, "Take your time."), (THREE, "Not yet.")):
        stage.queue.say(id, text)
    stage.queue.hush()
    assert [(over.id, over.cut_ms) for over in (stage.play_out() for _ in range(3))] == [(ONE, 0), (TWO, 0), (THREE, 0)]
    assert stage.sentences == []
    stage.queue.say(UtteranceId(4), "Forty-seven add six.")
    assert stage.play_out() == Over(UtteranceId(4), stage.clock.since_start_ms())
    assert [event.id for event in stage.heard if isinstance(event, UtteranceEnded)] == [1, 2, 3, 4]


def test_a_cut_between_two_sentences_leaves_the_ear_open_like_any_other(on_loudspeaker: Stage) -> None:
    queue = on_loudspeaker.queue
    queue.say(ONE, "Forty-seven add five.")
    queue.say(TWO, "Take your time.")
    on_loudspeaker.play_out()
    queue.hush()
    on_loudspeaker.play_out()
    queue.listen(listen_for(Purpose.BETWEEN_SENTENCES))
    queue.hush()
    queue.say(THREE, "Forty-seven.")
    assert on_loudspeaker.sentences[-1] == "Forty-seven.", "nothing is waited for"
    assert on_loudspeaker.is_ear_open


def test_a_key_cuts_and_is_heard_next(with_headset: Stage) -> None:
    with_headset.queue.say(ONE, "Forty-seven add five.")
    with_headset.queue.echo("four", cuts=True)
    assert with_headset.sentences == ["four"]
    assert with_headset.play_out() == Over(ONE, 0, 0)
    assert isinstance(with_headset.play_out().id, OwnSound)
    assert with_headset.heard == [UtteranceEnded(ONE, 0, 0)], "the dialogue hears of its own utterances only"


def test_news_does_not_cut(with_headset: Stage) -> None:
    with_headset.queue.say(ONE, "Forty-seven add five.")
    with_headset.queue.note("The headset is back.", cuts=False)
    assert with_headset.sentences == ["Forty-seven add five.", "The headset is back."]


# ---- the ear --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("purpose", "cues"),
    [(Purpose.ANSWER, 1), (Purpose.CORRECTION, 0), (Purpose.ANYBODY, 0), (Purpose.BETWEEN_SENTENCES, 0)],
)
def test_a_cue_announces_the_ear_that_opens_for_an_answer(purpose: Purpose, cues: int, on_loudspeaker: Stage) -> None:
    on_loudspeaker.queue.listen(listen_for(purpose))
    assert on_loudspeaker.is_ear_open
    assert on_loudspeaker.cues == cues


@pytest.mark.parametrize(("ear", "cues"), [(Ear.PRESS, 2), (Ear.OPEN, 1)])
def test_a_cue_tells_that_the_ear_that_opened_by_key_has_shut(ear: Ear, cues: int, on_loudspeaker: Stage) -> None:
    on_loudspeaker.queue.listen(listen_for(Purpose.ANSWER, ear=ear))
    on_loudspeaker.queue.shut_ear()
    assert not on_loudspeaker.is_ear_open
    assert on_loudspeaker.cues == cues


def test_the_ear_is_shut_while_a_key_is_echoed_and_opens_for_the_same_again(on_loudspeaker: Stage) -> None:
    answer = listen_for(Purpose.ANSWER)
    on_loudspeaker.queue.listen(answer)
    on_loudspeaker.play_out()  # the cue
    on_loudspeaker.queue.echo("four", cuts=True)
    on_loudspeaker.queue.echo("three", cuts=True)
    assert not on_loudspeaker.is_ear_open
    assert on_loudspeaker.play_out().cut_ms == 0
    assert not on_loudspeaker.is_ear_open, "the other key is still being said"
    on_loudspeaker.play_out()
    assert on_loudspeaker.is_ear_open
    assert on_loudspeaker.opened == [answer, answer]


def test_an_echo_between_two_sentences_ends_that_pause(on_loudspeaker: Stage) -> None:
    queue = on_loudspeaker.queue
    queue.say(ONE, "Forty-seven add five.")
    queue.say(TWO, "Take your time.")
    between = listen_for(Purpose.BETWEEN_SENTENCES)
    queue.to_dialogue = lambda event: queue.listen(between) if event == UtteranceEnded(ONE, event.at_ms) else None
    on_loudspeaker.play_out()
    queue.echo("The headset is back.", cuts=False)
    assert not on_loudspeaker.is_ear_open
    on_loudspeaker.play_out()
    on_loudspeaker.play_out()
    assert on_loudspeaker.sentences == ["Forty-seven add five.", "Take your time.", "The headset is back."]


# ---- waits ----------------------------------------------------------------------------------------------------


def rung(stage: Stage, at_ms: int) -> list[Event]:
    stage.clock.samples = at_ms * 16
    stage.queue.ring()
    return [event for event in stage.heard if isinstance(event, Woke)]


def test_a_wait_counts_from_what_asked_for_it(on_loudspeaker: Stage) -> None:
    on_loudspeaker.queue.wake(Wake(WakeId(5), "settle", 400), since_ms=100)
    assert rung(on_loudspeaker, 499) == []
    assert rung(on_loudspeaker, 500) == [Woke(WakeId(5), 500)]
    assert rung(on_loudspeaker, 900) == [Woke(WakeId(5), 500)], "once"


def test_a_wait_is_not_over_before_the_open_ear_has_got_there(on_loudspeaker: Stage) -> None:
    """Unless the ear never gets there."""
    on_loudspeaker.queue.listen(listen_for(Purpose.ANSWER))
    late_ms = BEHIND_MS + 100
    on_loudspeaker.queue.wake(Wake(WakeId(5), "settle", late_ms), since_ms=0)
    assert rung(on_loudspeaker, late_ms) == []
    assert rung(on_loudspeaker, late_ms + LONGEST_BEHIND_MS - 1) == []
    assert len(rung(on_loudspeaker, late_ms + LONGEST_BEHIND_MS)) == 1


# ---- in a practice, where the tool is in its own microphone -----------------------------------------------------

LEAK = 10 ** (-10 / 20)
ROOM = Room(has_headset=False, leak=LEAK, echo_ms=Settings().sound.echo_ms)


@pytest.fixture
def begun(voice: ToolVoice) -> Callable[..., Practice]:
    def begin(*replies: str, room: Room = ROOM, open_when: OpenWhen = OpenWhen.BETWEEN_SENTENCES) -> Practice:
        practice = Practice(voice, said_by_the_pupil(*replies), room=room)
        connected(practice, plan_of((38,), (5,)), open_when=open_when).begin()
        return practice

    return begin


def answers(practice: Practice) -> list[int]:
    return [row.given for row in practice.state.progress.live if isinstance(row, Answer)]


def test_a_key_that_is_echoed_over_the_open_ear_is_not_heard_and_the_answer_is(begun: Callable[..., Practice]) -> None:
    practice = begun()
    practice.pass_until(lambda: practice.is_listening and len(practice.lines) == 2)
    practice.queue.echo("four", cuts=True)
    practice.pass_ms(2_500)
    assert practice.heard_sounds == {}
    practice.overheard(recorded("forty-three"))
    practice.pass_until(lambda: bool(answers(practice)))
    assert answers(practice) == [43]


def test_the_cue_sounds_in_the_open_ear_and_is_no_speech(begun: Callable[..., Practice]) -> None:
    practice = begun()
    practice.pass_ms(9_000)
    cues = [piece for piece in practice.tool.pieces if not piece.text]
    assert len(cues) == 1
    assert practice.heard_sounds == {}


def test_with_a_headset_the_ear_is_open_from_the_first_word(begun: Callable[..., Practice]) -> None:
    practice = begun(room=Room(), open_when=OpenWhen.ALWAYS)
    practice.overheard(recorded("forty-three"), after_ms=500)
    practice.pass_until(lambda: bool(answers(practice)))
    assert answers(practice) == [43]
    assert "Thirty-eight add five." not in practice.spoken.texts, "it was cut"
