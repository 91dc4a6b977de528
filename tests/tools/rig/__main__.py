"""Prints how fast sound begins and stops on the rig: medians and worst of 20. `python -m tests.tools.rig`"""

from statistics import median

import numpy as np

from saythesum.dialogue.turns.events import UtteranceId
from saythesum.ports import Loudspeaker, Over
from saythesum.sound.portaudio import PortAudio
from tests.tools.rig.in_process import (
    Inbox,
    loudspeaker_on,
    microphone_on,
    portaudio_on,
    pulled_in_mid_sound,
    read_until,
)
from tests.tools.rig.monitors import RATE_HZ, SOUND_FROM
from tests.tools.rig.server import Rig, made_tone

TIMES = 20
PULLS = 5
VOICE_RATE_HZ = 22_050


def play_and_cut(rig: Rig, loudspeaker: Loudspeaker, inbox: Inbox) -> tuple[list[float], list[float], list[float]]:
    """From `play` to the first sound, from `cut` to the last, and from the end of a sound to `Over`, in ms."""
    begins, cuts, ends = [], [], []
    tone = made_tone(3_000, rate_hz=VOICE_RATE_HZ)
    for number in range(TIMES):
        asked_ms = rig.clock.since_start_ms()
        loudspeaker.play(UtteranceId(2 * number), tone, after_ms=0)
        first_ms = rig.tool.first_sound_ms(asked_ms)
        assert first_ms is not None
        # At another moment of a block each time.
        rig.tool.wait_until_ms(first_ms + 300 + 7 * number)
        cut_ms = rig.clock.since_start_ms()
        loudspeaker.cut()
        silent_ms = rig.tool.silent_from_ms(first_ms)
        assert silent_ms is not None
        loudspeaker.play(UtteranceId(2 * number + 1), made_tone(200, rate_hz=VOICE_RATE_HZ))
        second_ms = rig.tool.first_sound_ms(silent_ms + 20)
        assert second_ms is not None
        end_ms = rig.tool.silent_from_ms(second_ms, for_ms=100)
        assert end_ms is not None
        over = next(over for over in iter(lambda: inbox.wait_for(Over), None) if over.id == 2 * number + 1)
        begins.append(first_ms - asked_ms)
        cuts.append(silent_ms - cut_ms)
        ends.append(over.at_ms - end_ms)
    return begins, cuts, ends


def heard_late(rig: Rig, portaudio: PortAudio) -> tuple[list[float], list[float]]:
    """How far off the microphone's times are, and how late the ear has the block a tone begins in, in ms."""
    off, late = [], []
    with microphone_on(portaudio, rig.clock, Inbox()) as microphone:
        read_until(microphone, rig.clock.since_start_ms() + 500, rig.clock)
        for _ in range(TIMES):
            asked_ms = rig.clock.since_start_ms()
            rig.play_as_pupil(made_tone(300))
            loud: np.ndarray = np.zeros(0)
            while not loud.size:
                captured = microphone.read()
                loud = np.flatnonzero(np.abs(captured.samples) >= SOUND_FROM)
            came_ms = rig.clock.since_start_ms()
            truth_ms = rig.pupil.first_sound_ms(asked_ms)
            assert truth_ms is not None
            off.append((captured.at_sample + float(loud[0])) / 16 - truth_ms)
            late.append(came_ms - truth_ms)
            rig.pupil.silent_from_ms(truth_ms)
            read_until(microphone, rig.clock.since_start_ms() + 300, rig.clock)
    return off, late


def headset_pulled(rig: Rig, portaudio: PortAudio) -> list[float]:
    """Sound on the other loudspeaker after a headset behind a sound server was pulled, in ms."""
    leaks: list[float] = []
    for _ in range(PULLS):
        inbox = Inbox()
        with loudspeaker_on(portaudio, rig.clock, inbox) as loudspeaker:
            pulled_ms = pulled_in_mid_sound(rig, loudspeaker, inbox)
            assert rig.pupil.silent_from_ms(pulled_ms, for_ms=600) is not None
            leaks.append(float(np.count_nonzero(np.abs(rig.pupil.since(pulled_ms)) >= SOUND_FROM)) * 1_000 / RATE_HZ)
        rig.renew_tool()
    return leaks


def show(what: str, values: list[float]) -> None:
    ordered = sorted(values)
    print(f"{what:<58} median {median(values):6.1f} ms   from {ordered[0]:6.1f} to {ordered[-1]:6.1f} ({len(values)})")


def main() -> None:
    inbox = Inbox()
    with Rig() as rig, portaudio_on(rig) as portaudio:
        with loudspeaker_on(portaudio, rig.clock, inbox) as loudspeaker:
            loudspeaker.play(UtteranceId(-1), made_tone(300))
            inbox.wait_for(Over)
            begins, cuts, ends = play_and_cut(rig, loudspeaker, inbox)
        show("play() to first sound", begins)
        show("cut() to silence", cuts)
        show("end of a sound to Over", ends)
        off, late = heard_late(rig, portaudio)
        show("microphone's time of a tone against the sink's own", off)
        show("a tone begins to its first block read", late)
        show("headset pulled: sound on the other loudspeaker", headset_pulled(rig, portaudio))


if __name__ == "__main__":
    main()
