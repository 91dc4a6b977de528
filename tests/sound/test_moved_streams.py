"""A headset that is unplugged while a sound server stands between: nothing may come out elsewhere instead.

Here the sink `tool` is the headset, and `pupil` the other loudspeaker, to which the server moves what played.
"""

import shutil
from pathlib import Path

import numpy as np
import pytest

from saythesum.dialogue.turns.events import UtteranceId
from saythesum.ports import Over
from saythesum.sound.device_events import LoudspeakerFound, LoudspeakerLost
from tests.tools.rig.in_process import Inbox, loudspeaker_on, portaudio_on, pulled_in_mid_sound
from tests.tools.rig.monitors import RATE_HZ, SOUND_FROM
from tests.tools.rig.server import Rig, made_tone

MOST_LEAKED_MS = 250
"""The server moves sound before it tells anybody, so a moment of it is heard; unguarded it would be all of it."""

pytestmark = pytest.mark.rig


def test_a_headset_that_goes_is_silence_and_is_used_again(rig: Rig) -> None:
    inbox = Inbox()
    with portaudio_on(rig) as portaudio, loudspeaker_on(portaudio, rig.clock, inbox) as loudspeaker:
        pulled_ms = pulled_in_mid_sound(rig, loudspeaker, inbox)
        assert inbox.wait_for(Over).cut_ms is not None
        loudspeaker.play(UtteranceId(2), made_tone(300))
        assert inbox.wait_for(Over).cut_ms == 0
        # Longer than until it is looked for again: then the other one is the default, and stays silent all the same.
        assert rig.pupil.silent_from_ms(pulled_ms, for_ms=1_800) is not None
        assert not np.any(np.abs(rig.pupil.since(pulled_ms)) >= SOUND_FROM), "not one sample"
        rig.renew_tool()
        inbox.wait_for(LoudspeakerFound)
        asked_ms = rig.clock.since_start_ms()
        loudspeaker.play(UtteranceId(3), made_tone(300))
        assert inbox.wait_for(Over).cut_ms is None
        assert rig.tool.first_sound_ms(asked_ms) is not None
    assert sum(isinstance(news, LoudspeakerLost) for news in inbox.all) == 1


def test_under_another_server_it_falls_silent_when_it_is_told(
    rig: Rig, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One that is in PulseAudio's place, by what a stand-in for pactl says, and is not asked for a sink of our own."""
    program = tmp_path / "pactl"
    program.write_text(
        f'#!/bin/sh\n[ "$1" = info ] || exec {shutil.which("pactl")} "$@"\necho "Server Name: another"\n'
    )
    program.chmod(0o755)
    monkeypatch.setitem(rig.environment, "PATH", f"{tmp_path}:{rig.environment['PATH']}")
    inbox = Inbox()
    with portaudio_on(rig) as portaudio, loudspeaker_on(portaudio, rig.clock, inbox) as loudspeaker:
        pulled_ms = pulled_in_mid_sound(rig, loudspeaker, inbox)
        assert rig.pupil.silent_from_ms(pulled_ms, for_ms=600) is not None
        leaked = np.abs(rig.pupil.since(pulled_ms)) >= SOUND_FROM
        assert 0 < np.count_nonzero(leaked) * 1_000 / RATE_HZ <= MOST_LEAKED_MS
    rig.renew_tool()


def test_another_loudspeaker_that_goes_changes_nothing(rig: Rig) -> None:
    inbox = Inbox()
    rig.add_sink("screen")
    with portaudio_on(rig) as portaudio, loudspeaker_on(portaudio, rig.clock, inbox) as loudspeaker:
        asked_ms = rig.clock.since_start_ms()
        loudspeaker.play(UtteranceId(1), made_tone(1_500))
        assert rig.tool.first_sound_ms(asked_ms) is not None
        rig.remove_sink("screen")
        assert inbox.wait_for(Over).cut_ms is None
    assert not any(isinstance(news, LoudspeakerLost) for news in inbox.all)
