"""The ear with the real finder of speech and the real engine, fed recordings in sample time."""

from dataclasses import dataclass, field, replace

import numpy as np
import pytest

from saythesum.core.meanings import LOST, Awaiting, Number
from saythesum.core.records.rows import HeardId
from saythesum.dialogue.turns.events import Event, HeardSoFar, ListenId, NobodySpoke, SpeechBegan
from saythesum.hearing.ear import LEAD_FRAMES, LONGEST_STRETCH_FRAMES, Ear
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.endpointing.endpointer import FRAME_MS, FRAME_SAMPLES
from saythesum.ports import LISTENING_RATE_HZ, Hearing, Samples
from tests.tools.listening.sounds import padded, prompt, womans_number

LISTEN = ListenId(7)
OFFSET_MS = 5_000


@dataclass
class Listening:
    """An ear that is open, and all it posted."""

    events: list[Event] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.ear = Ear(NeuralRecogniser(), self.events.append, offset_ms=OFFSET_MS)
        self.ear.open(LISTEN, Awaiting.NUMBER, 0)

    def feed(self, samples: Samples, block: int = 1600) -> "Listening":
        for begin in range(0, len(samples), block):
            self.ear.feed(samples[begin : begin + block])
        return self

    @property
    def heard(self) -> list[HeardSoFar]:
        return [event for event in self.events if isinstance(event, HeardSoFar)]

    @property
    def numbers(self) -> list[int | None]:
        return [event.heard.value if isinstance(event.heard, Number) else None for event in self.heard]

    @property
    def began(self) -> list[SpeechBegan]:
        return [event for event in self.events if isinstance(event, SpeechBegan)]


def quiet(seconds: float) -> Samples:
    dice = np.random.default_rng(3)
    return (dice.standard_normal(int(seconds * LISTENING_RATE_HZ)) * 1e-4).astype(np.float32)


def joined(*parts: Samples) -> Samples:
    return np.concatenate(parts)


def trimmed(samples: Samples) -> Samples:
    """Without the near-silence at the ends of a recording."""
    loud = np.flatnonzero(np.abs(samples) > 0.02)
    return samples[loud[0] : loud[-1]]


FORTY_SIX = joined(trimmed(womans_number(40)), trimmed(womans_number(6)))


def test_a_number_is_heard_with_its_times() -> None:
    sound = joined(quiet(1.0), FORTY_SIX, quiet(1.0))
    listening = Listening().feed(sound)
    (began,), (heard,) = listening.began, listening.heard
    assert (began.listen, heard.listen, heard.segment) == (LISTEN, LISTEN, 0)
    assert listening.numbers == [46]
    end_ms = 1000 + len(FORTY_SIX) * 1000 // LISTENING_RATE_HZ
    assert heard.began_ms - OFFSET_MS == pytest.approx(1000, abs=150)
    assert heard.ended_ms - OFFSET_MS == pytest.approx(end_ms, abs=2 * FRAME_MS)
    assert 200 <= heard.at_ms - heard.ended_ms <= 350
    assert heard.began_ms < began.at_ms < heard.ended_ms


def _without_id(event: Event) -> Event:
    return replace(event, id=HeardId("")) if isinstance(event, HeardSoFar) else event


@pytest.mark.parametrize("block", [1, 160, 512, 1600, 40_000])
def test_the_size_of_the_blocks_changes_nothing(block: int) -> None:
    sound = joined(quiet(0.3), trimmed(womans_number(7)), quiet(0.5))
    usual = Listening().feed(sound, 512)
    other = Listening().feed(sound, block)
    assert [_without_id(event) for event in other.events] == [_without_id(event) for event in usual.events]


def test_a_stretch_that_goes_on_is_posted_again_under_its_number() -> None:
    """The gap, as it is found, is longer than the 200 ms that are decoded after, and shorter than the hangover."""
    gap = quiet(0.3)
    sound = joined(quiet(0.5), trimmed(womans_number(50)), gap, trimmed(womans_number(2)), quiet(1.0))
    listening = Listening().feed(sound)
    assert [event.segment for event in listening.heard] == [0, 0]
    assert listening.numbers == [50, 52]
    assert len(listening.began) == 2, "that speech goes on is told too"
    assert listening.heard[0].began_ms == listening.heard[1].began_ms


def test_after_a_longer_pause_it_is_the_next_stretch() -> None:
    sound = joined(quiet(0.5), trimmed(womans_number(50)), quiet(1.0), trimmed(womans_number(2)), quiet(1.0))
    listening = Listening().feed(sound)
    assert [event.segment for event in listening.heard] == [0, 1]
    assert listening.numbers == [50, 2]


def test_shut_in_the_middle_of_a_word_it_forgets_it() -> None:
    listening = Listening().feed(joined(quiet(0.5), FORTY_SIX[:6_000]))
    assert listening.began
    listening.ear.shut()
    listening.feed(joined(FORTY_SIX[6_000:], quiet(1.0)))
    assert listening.heard == []


def test_opened_again_it_counts_from_the_sample_it_is_given() -> None:
    listening = Listening().feed(joined(quiet(0.5), FORTY_SIX, quiet(0.4)))
    listening.ear.open(ListenId(8), Awaiting.NUMBER, 160_000)
    listening.feed(joined(quiet(0.5), FORTY_SIX, quiet(0.4)))
    first, second = listening.heard
    assert (second.listen, second.segment, listening.numbers) == (8, 0, [46, 46])
    assert second.began_ms - first.began_ms == pytest.approx(10_000, abs=FRAME_MS)


def test_an_event_may_shut_the_ear() -> None:
    events: list[Event] = []

    def shut_at_once(event: Event) -> None:
        events.append(event)
        ear.shut()

    ear = Ear(NeuralRecogniser(), shut_at_once)
    ear.open(LISTEN, Awaiting.NUMBER, 0)
    ear.feed(joined(quiet(0.5), FORTY_SIX, quiet(1.0)))
    assert len(events) == 1


@pytest.mark.parametrize("number", [2, 6, 8, 15, 46, 60])
def test_speech_ends_where_it_is_heard_to_end(number: int) -> None:
    """Within a frame and a half of the last sample above a fiftieth of full scale, in a quiet room."""
    spoken = FORTY_SIX if number == 46 else trimmed(womans_number(number))
    (heard,) = Listening().feed(joined(quiet(0.5), spoken, quiet(1.0))).heard
    end_ms = 500 + len(spoken) * 1000 // LISTENING_RATE_HZ
    assert heard.ended_ms - OFFSET_MS == pytest.approx(end_ms, abs=1.5 * FRAME_MS)


def test_in_a_noisy_room_speech_ends_where_the_finder_of_speech_says() -> None:
    dice = np.random.default_rng(3)
    sound = joined(quiet(0.5), FORTY_SIX, quiet(1.0))
    noisy = (sound + 0.03 * dice.standard_normal(len(sound))).astype(np.float32)
    (heard,) = Listening().feed(noisy).heard
    end_ms = 500 + len(FORTY_SIX) * 1000 // LISTENING_RATE_HZ
    assert heard.ended_ms - OFFSET_MS == pytest.approx(end_ms, abs=150)


# ---- sound that is lost on its way -------------------------------------------------------------------------

BLOCK_MS = 50


def with_hole(sound: Samples, begin_ms: int, lost_ms: int) -> Listening:
    """Fed as from a device that loses some: each block says where it stands."""
    listening = Listening()
    hole = range(begin_ms * 16, (begin_ms + lost_ms) * 16)
    for begin in range(0, len(sound), BLOCK_MS * 16):
        if begin not in hole:
            listening.ear.feed(sound[begin : begin + BLOCK_MS * 16], begin)
    return listening


def sure_numbers(listening: Listening) -> list[int]:
    return [event.heard.value for event in listening.heard if isinstance(event.heard, Number) and event.heard.sure]


SPOKEN = joined(quiet(1.0), FORTY_SIX, quiet(1.0))
ENDED_MS = 1000 + len(FORTY_SIX) * 1000 // LISTENING_RATE_HZ


@pytest.mark.parametrize("lost_ms", [50, 150, 400])
@pytest.mark.parametrize("begin_ms", range(850, ENDED_MS // BLOCK_MS * BLOCK_MS, BLOCK_MS))
def test_nothing_with_a_hole_in_it_is_sure(begin_ms: int, lost_ms: int) -> None:
    """The hole begins before the number, or in it; whatever is left of it, it has to be said once more."""
    listening = with_hole(SPOKEN, begin_ms, lost_ms)
    if begin_ms + lost_ms > 1000:
        assert sure_numbers(listening) == []
    for event in listening.heard:
        assert event.heard == LOST or getattr(event.heard, "certainty", 1.0) <= 0.5 or event.began_ms > OFFSET_MS + 1100


@pytest.mark.parametrize(("begin_ms", "lost_ms"), [(200, 50), (50, 200), (ENDED_MS // BLOCK_MS * BLOCK_MS + 600, 300)])
def test_a_hole_in_the_silence_costs_nothing(begin_ms: int, lost_ms: int) -> None:
    listening = with_hole(SPOKEN, begin_ms, lost_ms)
    assert sure_numbers(listening) == [46]
    (heard,) = listening.heard
    assert heard.began_ms - OFFSET_MS == pytest.approx(1000, abs=60)
    assert heard.ended_ms - OFFSET_MS == pytest.approx(ENDED_MS, abs=60)


def test_times_are_right_before_and_after_a_long_hole() -> None:
    sound = joined(SPOKEN, quiet(20.0), SPOKEN)
    begin_ms = (len(SPOKEN) // 16 + 1_000) // BLOCK_MS * BLOCK_MS
    listening = with_hole(sound, begin_ms, 18_000)
    first, second = listening.heard
    assert sure_numbers(listening) == [46, 46]
    later_ms = len(SPOKEN) // 16 + 20_000
    assert first.began_ms - OFFSET_MS == pytest.approx(1000, abs=60)
    assert second.began_ms - OFFSET_MS == pytest.approx(1000 + later_ms, abs=60)


def test_a_device_whose_clock_was_put_right_has_lost_nothing() -> None:
    listening = Listening()
    for begin in range(0, len(SPOKEN), BLOCK_MS * 16):
        listening.ear.feed(SPOKEN[begin : begin + BLOCK_MS * 16], begin + (320 if begin > 19_200 else 0))
    assert sure_numbers(listening) == [46]


class Counting:
    """An engine that only counts what it is fed, and hears nothing in it."""

    name = "counting"
    fed_samples = 0

    def open(self, awaiting: Awaiting) -> None:
        self.fed_samples = 0

    def feed(self, block: Samples) -> None:
        self.fed_samples += len(block)

    def so_far(self) -> Hearing:
        return Hearing((), "", 0.0)

    def close(self) -> Hearing:
        return self.so_far()


def test_speech_without_end_is_cut_into_stretches() -> None:
    engine, events = Counting(), list[Event]()
    ear = Ear(engine, events.append)
    ear.open(LISTEN, Awaiting.NUMBER, 0)
    word = trimmed(prompt("digits/hundred"))
    longest_ms = LONGEST_STRETCH_FRAMES * FRAME_MS
    talk = np.tile(word, 3 * longest_ms // 2 * LISTENING_RATE_HZ // 1000 // len(word))
    most_fed = 0
    for begin in range(0, len(talk), 1600):
        ear.feed(talk[begin : begin + 1600])
        most_fed = max(most_fed, engine.fed_samples)
    cut = next(event for event in events if isinstance(event, HeardSoFar))
    assert cut.at_ms - cut.began_ms == longest_ms
    assert sum(isinstance(event, SpeechBegan) for event in events) == 2
    assert most_fed <= (LONGEST_STRETCH_FRAMES + LEAD_FRAMES) * FRAME_SAMPLES


@pytest.mark.parametrize("level", [0.0, 1e-4, 3e-3])
def test_a_minute_without_speech_posts_nothing(level: float) -> None:
    noise = np.random.default_rng(5).standard_normal(60 * LISTENING_RATE_HZ).astype(np.float32) * level
    assert Listening().feed(noise.astype(np.float32)).events == []


@pytest.mark.parametrize(
    "spoil",
    [
        pytest.param(lambda sound: np.clip(sound * 4, -1, 1), id="clipped"),
        pytest.param(lambda sound: sound * 4, id="beyond full scale"),
        pytest.param(lambda sound: sound + 0.3, id="offset"),
        pytest.param(lambda sound: sound * 0.1, id="quiet"),
        pytest.param(lambda sound: np.where(np.arange(len(sound)) % 5000 == 0, np.nan, sound), id="not a number"),
    ],
)
def test_spoilt_sound_is_still_heard(spoil: object) -> None:
    assert callable(spoil)
    sound = spoil(joined(quiet(0.5), FORTY_SIX, quiet(1.0))).astype(np.float32)
    listening = Listening().feed(sound)
    assert listening.numbers[-1:] == [46]


def test_a_whole_padded_recording_is_one_stretch() -> None:
    assert Listening().feed(padded(womans_number(15))).numbers == [15]


def pausing(sound: Samples, *, until_ms: int = 1_000, speech_from_ms: int = 0) -> Listening:
    """An ear that is open for a pause only, fed block by block as time passes."""
    listening = Listening()
    listening.ear.open(LISTEN, Awaiting.NUMBER, 0, speech_from=16 * speech_from_ms, until=16 * until_ms)
    for begin in range(0, len(sound), 800):
        listening.ear.feed(sound[begin : begin + 800])
        listening.ear.pass_time(begin + 800)
    return listening


def test_a_pause_in_which_nobody_speaks_shuts_the_ear() -> None:
    listening = pausing(joined(quiet(1.1), FORTY_SIX, quiet(1.0)))
    (event,) = listening.events
    assert isinstance(event, NobodySpoke)
    assert event.listen == LISTEN
    assert 1_000 <= event.at_ms - OFFSET_MS <= 1_050


@pytest.mark.parametrize("begins_ms", [100, 700, 900, 960])
def test_what_begins_in_a_pause_is_heard_to_its_end(begins_ms: int) -> None:
    """Also where the pause ends before it is clear that somebody speaks."""
    listening = pausing(joined(quiet(begins_ms / 1000), FORTY_SIX, quiet(1.0)))
    assert listening.numbers == [46]
    assert not any(isinstance(event, NobodySpoke) for event in listening.events)


def test_a_pause_ends_where_the_microphone_has_gone() -> None:
    listening = pausing(quiet(0.2))
    listening.ear.pass_time(16_000)
    assert [type(event) for event in listening.events] == [NobodySpoke]


def test_no_speech_is_found_in_the_echo_and_none_is_lost_after_it() -> None:
    """The first 0.1 s belong to the tool; an answer that begins in them is heard with its beginning all the same."""
    begun = FORTY_SIX[: int(0.1 * LISTENING_RATE_HZ)]
    assert pausing(joined(begun, quiet(1.5)), speech_from_ms=100).began == []
    listening = pausing(joined(quiet(0.05), FORTY_SIX, quiet(1.0)), speech_from_ms=100)
    assert listening.numbers == [46]
    assert listening.heard[0].began_ms - OFFSET_MS >= 96
