"""The ear: blocks of sound in, what was heard out, in sample time. It waits for nothing and knows no clock.

How long to wait after an answer is the dialogue's business; this only says what each segment of speech meant.
"""

from collections import deque
from collections.abc import Callable, Iterator
from dataclasses import replace
from uuid import uuid4

import numpy as np

from saythesum.core.meanings import Awaiting, Meaning, Unclear, WhyUnclear
from saythesum.core.records.rows import HeardId
from saythesum.dialogue.turns.events import Event, HeardSoFar, ListenId, NobodySpoke, SpeechBegan
from saythesum.hearing.confidence.gate import judged
from saythesum.hearing.endpointing.endpointer import FRAME_SAMPLES, LONGEST_OPENING_FRAMES, Change, SpeechEnds
from saythesum.hearing.endpointing.voice_activity import VoiceActivity
from saythesum.ports import LISTENING_RATE_HZ, Recogniser, Samples

LEAD_FRAMES = 6
"""192 ms before the first frame of speech go to the recogniser too. Measured: with none, 37 of 1,000 numbers more
go wrong or unsure."""
LONGEST_STRETCH_FRAMES = 625
"""20 s. Longer speech is no answer: it is judged as it stands, and what follows is a segment of its own."""
SPEECH_DB = 30
"""Speech ends with its last frame that is at most so much quieter than its loudest: the finder of speech goes on for 60
to 130 ms after it, which would be added to every end pause. Source: ANSI S3.5-1997 takes the level of speech to vary
over 30 dB (from memory)."""
HOLE_SAMPLES = FRAME_SAMPLES
"""Lost sound shorter than that is a device's clock put right."""
LONGEST_FILL_SAMPLES = 12 * FRAME_SAMPLES
"""More silence than any segment of speech goes on after."""
HOLE_FRAMES = LEAD_FRAMES + LONGEST_OPENING_FRAMES
"""A hole this near before speech may have swallowed its beginning. Measured: after one, speech is found up to 210 ms
late."""
HALF_HEARD = 0.5
"""The certainty, at most, of what had a hole in it."""


class Ear:
    """Used by one thread. Between `shut` and the next `open` whatever is fed is forgotten.

    Each SpeechBegan is followed by a HeardSoFar of the same segment, unless the ear is shut in between.
    """

    def __init__(self, recogniser: Recogniser, post: Callable[[Event], None], *, offset_ms: int = 0) -> None:
        """`offset_ms`: what the run's clock shows at sample 0.

        Raises ListeningError when the part that finds speech is missing.
        """
        self._recogniser = recogniser
        self._post = post
        self._offset_ms = offset_ms
        self._activity = VoiceActivity()
        self._turn: _Turn | None = None

    def open(
        self,
        listen: ListenId,
        awaiting: Awaiting,
        at_sample: int,
        *,
        speech_from: int = 0,
        until: int | None = None,
    ) -> None:
        """`at_sample`: where the sound that is fed next stands in the run's own count of samples. No speech is found
        before `speech_from`, as the tool's own may be echoing; with what is found then, the recogniser gets what came
        just before. `until`: where the ear shuts by itself, unless somebody speaks before that; see `pass_time`.
        """
        self._activity.reset()
        self._turn = _Turn(listen, awaiting, at_sample, speech_from, until)

    def shut(self) -> None:
        """What is being said now is not judged any more."""
        self._turn = None

    def pass_time(self, to_sample: int) -> None:
        """Everything up to there has been fed, or is lost. Posts NobodySpoke when that shuts the ear.

        Speech that seems to have begun just before its end is waited for.
        """
        turn = self._turn
        if turn is None or turn.until is None or to_sample < turn.until:
            return
        if not turn.ends.is_maybe_on:
            self.shut()
            self._post(NobodySpoke(turn.listen, self._offset_ms + to_sample * 1000 // LISTENING_RATE_HZ))

    def feed(self, samples: Samples, at_sample: int | None = None) -> None:
        """Any number of samples. `at_sample` is where they stand, for a device that may lose some.

        An event may shut the ear or open it anew while this is running; the rest of the block is then dropped.
        """
        turn = self._turn
        if turn is None:
            return
        for frame in turn.frames(samples, at_sample):
            self._hear(turn, frame)
            if self._turn is not turn:
                return

    def _hear(self, turn: "_Turn", frame: Samples) -> None:
        change = turn.ends.feed(self._activity.probability(frame) if turn.is_past_echo else 0.0)
        turn.lead.append(frame)
        if change is Change.OVER:
            turn.segment += 1
        elif turn.ends.began is not None:
            self._listen_in(turn, change)

    def _listen_in(self, turn: "_Turn", change: Change | None) -> None:
        """A frame inside a segment of speech."""
        assert turn.ends.began is not None
        if change in (Change.BEGAN, Change.RESUMED):  # first of all: somebody may have to stop speaking
            self._post(SpeechBegan(turn.listen, self._ms(turn, turn.heard_frames)))
        if change is Change.BEGAN:
            turn.until = None
            self._recogniser.open(turn.awaiting)
            for _ in range(len(turn.lead) - (turn.heard_frames - turn.ends.began) - LEAD_FRAMES):
                turn.lead.popleft()
        while turn.lead:
            self._recogniser.feed(turn.lead.popleft())
        if change is Change.PAUSED:
            self._post(self._heard_so_far(turn, turn.ends.began))
        elif turn.heard_frames - turn.ends.began >= LONGEST_STRETCH_FRAMES:
            event = self._heard_so_far(turn, turn.ends.began)
            turn.ends.cut()
            turn.segment += 1
            self._post(event)

    def _heard_so_far(self, turn: "_Turn", began: int) -> HeardSoFar:
        hearing = self._recogniser.so_far()
        heard = judged(hearing, turn.awaiting).heard
        return HeardSoFar(
            turn.listen,
            turn.segment,
            _half_heard(heard) if turn.has_hole_since(began - HOLE_FRAMES) else heard,
            hearing.free_text,
            began_ms=self._ms(turn, began),
            ended_ms=self._ms(turn, turn.last_loud_frame(began) + 1),
            at_ms=self._ms(turn, turn.heard_frames),
            id=HeardId(str(uuid4())),
        )

    def _ms(self, turn: "_Turn", frame: int) -> int:
        """The run's clock at the beginning of a frame."""
        return self._offset_ms + (turn.frame_0_at + frame * FRAME_SAMPLES) * 1000 // LISTENING_RATE_HZ


def _half_heard(heard: Meaning) -> Meaning:
    """Part of it was lost on its way: whatever it seems to be, it has to be said once more."""
    if isinstance(heard, Unclear):
        return Unclear(WhyUnclear.LOST)
    return replace(heard, sure=False, certainty=min(heard.certainty or 0.0, HALF_HEARD))


class _Turn:
    """One opening of the ear: its frames, counted, and the segment of speech it is at."""

    def __init__(
        self, listen: ListenId, awaiting: Awaiting, at_sample: int, speech_from: int, until: int | None
    ) -> None:
        self.listen = listen
        self.awaiting = awaiting
        self.until = until
        """Where it is over, while nobody has spoken."""
        self._speech_from = speech_from
        self.frame_0_at = at_sample
        self.ends = SpeechEnds()
        self.segment = 0
        self.heard_frames = 0
        self.lead: deque[Samples] = deque(maxlen=LEAD_FRAMES + LONGEST_OPENING_FRAMES)
        """The last frames that the recogniser has not been given."""
        self._left_over: Samples = np.zeros(0, dtype=np.float32)
        self._hole_frame = -LONGEST_STRETCH_FRAMES
        """The last one with a hole in it."""
        self._levels: deque[float] = deque(maxlen=LONGEST_STRETCH_FRAMES + LONGEST_OPENING_FRAMES)

    def frames(self, samples: Samples, at_sample: int | None) -> Iterator[Samples]:
        """Whole frames; what is left over waits for the next block. Lost sound is silence, and is remembered."""
        expected = self.frame_0_at + self.heard_frames * FRAME_SAMPLES + len(self._left_over)
        lost = 0 if at_sample is None else max(0, at_sample - expected)
        if lost >= HOLE_SAMPLES:
            filled = min(lost, LONGEST_FILL_SAMPLES)
            self._hole_frame = self.heard_frames + (len(self._left_over) + filled - 1) // FRAME_SAMPLES
            yield from self._cut(np.zeros(filled, np.float32))
            lost -= filled
        self.frame_0_at += lost
        yield from self._cut(samples)

    def _cut(self, samples: Samples) -> Iterator[Samples]:
        sound = np.concatenate([self._left_over, samples])
        count = len(sound) // FRAME_SAMPLES
        self._left_over = sound[count * FRAME_SAMPLES :].copy()
        for begin in range(0, count * FRAME_SAMPLES, FRAME_SAMPLES):
            frame = sound[begin : begin + FRAME_SAMPLES]
            self.heard_frames += 1
            self._levels.append(float(np.clip(np.nan_to_num(frame), -1.0, 1.0).std()))
            yield frame

    @property
    def is_past_echo(self) -> bool:
        """Of the last frame."""
        return self.frame_0_at + self.heard_frames * FRAME_SAMPLES > self._speech_from

    def has_hole_since(self, frame: int) -> bool:
        return self._hole_frame >= frame

    def last_loud_frame(self, began: int) -> int:
        """Of the segment that began with that frame."""
        first_kept = self.heard_frames - len(self._levels)
        levels = list(self._levels)[max(0, began - first_kept) : self.ends.last_speech + 1 - first_kept]
        least = max(levels) * 10 ** (-SPEECH_DB / 20)
        last = max(place for place, level in enumerate(levels) if level >= least)
        return max(began, first_kept) + last
