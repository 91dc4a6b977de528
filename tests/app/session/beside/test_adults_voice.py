"""The adult's list on a loudspeaker of its own, beside the pupil's: two sinks of a real sound server."""

import os
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from saythesum.ports import OwnSound
from saythesum.sound.pulseaudio import PrivateSink, our_outputs, sink_called, sinks_of
from tests.tools.rig.in_process import Inbox, loudspeaker_on, portaudio_on
from tests.tools.rig.monitors import SOUND_FROM, Monitor
from tests.tools.rig.server import Rig, made_tone
from tests.tools.rig.spoken import F9, Program, program_on

pytestmark = pytest.mark.rig

BY_KEYS = ("practise", "--by", "keys", "--grid", "oars.toml")


@pytest.fixture
def ear(rig: Rig) -> Iterator[Monitor]:
    """The adult's, on a sink that is named so."""
    rig.add_sink("earphone")
    monitor = Monitor("earphone", rig.environment, rig.clock)
    monitor.wait_until_on()
    yield monitor
    monitor.close()
    rig.remove_sink("earphone")


def answered(program: Program) -> None:
    """Wrongly, and the question that helps has been said."""
    program.wait_for_kind("said", 60)
    program.press(b"42\r")
    program.wait_for(lambda line: line["kind"] == "say" and line["about"] != "said-back", 30)


def turn_taken(program: Program) -> tuple[float, float]:
    """When, and when the pupil's ear is silent again, which is told that the turn is the adult's."""
    tool = program.rig.tool
    taken_ms = program.press(F9)
    told_ms = tool.first_sound_ms(taken_ms + 200)
    assert told_ms is not None
    silent_ms = tool.silent_from_ms(told_ms, for_ms=1_200)
    assert silent_ms is not None
    return taken_ms, silent_ms


def is_silent(monitor: Monitor, since_ms: float) -> bool:
    monitor.wait_until_ms(since_ms + 100)
    return bool(np.max(np.abs(monitor.since(since_ms)), initial=0) < SOUND_FROM)


def test_marks_are_heard_by_the_adult_alone(rig: Rig, ear: Monitor, tmp_path: Path) -> None:
    (tmp_path / "oars.toml").write_text('title = "Rows of oars"\nadd = [5, 8]\nstart = [47, 36]\n')
    (tmp_path / "settings.toml").write_text('[sound]\nadult_loudspeaker = "earphone"\n')
    with program_on(rig, tmp_path, *BY_KEYS) as program:
        answered(program)
        taken_ms, silent_ms = turn_taken(program)
        assert ear.first_sound_ms(taken_ms, within_ms=20_000) is not None
        marked_ms = program.press(b"1")
        program.wait_until_shown("1 that was right: noted", 10)
        assert ear.first_sound_ms(marked_ms + 500) is not None
        assert is_silent(rig.tool, silent_ms), "nothing of it is in the pupil's ear"
        given_ms = program.press(F9)
        assert rig.tool.first_sound_ms(given_ms, within_ms=10_000) is not None, "the next sum"
        assert ear.silent_from_ms(given_ms + 300) is not None
        program.wait_for_kind("note", 10)
        lines = [line for line in program.lines if line["kind"] == "note"]
        assert [line["value"] for line in lines] == ["yes"]

        rig.remove_sink("earphone")
        _, silent_ms = turn_taken(program)
        program.press(b"1")
        program.wait_until_shown("is gone; plug it in again", 15)
        assert is_silent(rig.tool, silent_ms), "nor when the earphone has gone"
        rig.add_sink("earphone")


def test_a_sink_is_found_by_its_name_or_a_part_of_it(rig: Rig, ear: Monitor, monkeypatch: pytest.MonkeyPatch) -> None:
    assert ear
    for name, value in rig.environment.items():
        monkeypatch.setenv(name, value)
    assert [sink_called(name) for name in ("Earphone", "phone", "tin can", "")] == ["earphone", "earphone", None, None]


def test_where_a_process_is_heard_is_known_also_behind_a_sink_of_its_own(rig: Rig) -> None:
    """So the adult's list is never said where the pupil hears."""
    with portaudio_on(rig) as portaudio, loudspeaker_on(portaudio, rig.clock, Inbox()) as loudspeaker:
        asked_ms = rig.clock.since_start_ms()
        loudspeaker.play(OwnSound(1), made_tone(300))
        assert rig.tool.first_sound_ms(asked_ms) is not None
        assert {output.sink for output in our_outputs()} == {PrivateSink.NAME}
        assert sinks_of(os.getpid()) == {"tool"}
        assert sinks_of(1) == frozenset()
