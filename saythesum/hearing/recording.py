"""What one recording means: all that is said in it, from the first speech to the last, as one answer."""

from collections.abc import Callable
from typing import TypeAlias

import numpy as np

from saythesum.core.meanings import Awaiting
from saythesum.hearing.confidence.gate import Judged, judged
from saythesum.hearing.ear import LEAD_FRAMES, LONGEST_STRETCH_FRAMES
from saythesum.hearing.endpointing.endpointer import FRAME_SAMPLES, PAUSED_AFTER_FRAMES, Change, SpeechEnds
from saythesum.hearing.endpointing.voice_activity import VoiceActivity
from saythesum.ports import Hearing, Recogniser, Samples

Passed: TypeAlias = Callable[[int], None]
"""Called now and then with how many samples have been listened to, for a recording that takes long."""


def _unwatched(_samples: int) -> None:
    pass


def heard_in(
    samples: Samples, awaiting: Awaiting, recogniser: Recogniser, passed: Passed = _unwatched
) -> tuple[Hearing, Judged]:
    """What the engine makes of a recording, and what the gate makes of that.

    Cut as the ear cuts: a little before the first speech, and at the pause after the last; or before that, where
    somebody speaks longer than anybody answers.
    """
    spoken = spoken_part(samples, passed)
    if not len(spoken):
        nothing = Hearing((), "", 0.0, is_speech=False)
        return nothing, judged(nothing, awaiting)
    recogniser.open(awaiting)
    recogniser.feed(spoken)
    hearing = recogniser.close()
    return hearing, judged(hearing, awaiting)


def spoken_part(samples: Samples, passed: Passed = _unwatched) -> Samples:
    """Empty where nothing is said."""
    activity, ends = VoiceActivity(), SpeechEnds()
    first: int | None = None
    last = 0
    whole = np.pad(samples, (0, -len(samples) % FRAME_SAMPLES))
    for begin in range(0, len(whole), FRAME_SAMPLES):
        passed(begin)
        if ends.feed(activity.probability(whole[begin : begin + FRAME_SAMPLES])) is Change.BEGAN and first is None:
            first = ends.began
        if ends.began is not None:
            last = ends.last_speech
    if first is None:
        return samples[:0]
    begin = max(0, first - LEAD_FRAMES)
    end = min(last + 1 + PAUSED_AFTER_FRAMES, begin + LONGEST_STRETCH_FRAMES)
    return samples[begin * FRAME_SAMPLES : end * FRAME_SAMPLES]
