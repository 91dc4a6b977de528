"""How fast the tool is with sound on its way: real programs on the rig, timed by what is heard in its sinks."""

import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from saythesum.app.rehearsal.recorded_phrases import pupil_phrase
from saythesum.core.exercises.adding import Sum
from saythesum.core.sums import Part
from saythesum.settings import Waits
from saythesum.wording.numbers import words
from tests.log_lines import Line
from tests.tools.bench.lines import TIMES, Figure, show
from tests.tools.rig.server import Rig, RigError
from tests.tools.rig.spoken import Cut, Program, program_on, said_again_and_cut

FIXED_SILENCE_MS = 1500
"""What a listener waits that knows nothing of what was said."""
END_PAUSE_MS = 600
"""The one chosen for these answers: shorter than usual, so that twenty of them do not take three minutes."""
BY_VOICE = ("practise", "--by", "voice", "--ear", "open", "--grid", "oars.toml")

PYTTSX3 = """
import sys
import pyttsx3
engine = pyttsx3.init()
print("ready", flush=True)
for line in sys.stdin:
    engine.say(line.strip())
    engine.runAndWait()
    print("said", flush=True)
"""
PLAYER = """#!/bin/sh
exec paplay "$1"
"""
"""In place of aplay, which pyttsx3 plays with: another program of the same kind, which blocks as long."""


def show_on_rig() -> None:
    try:
        with Rig() as rig:
            for measured in (_start, _cuts, _replies, _barging_in, _blocking_say):
                for figure in measured(rig):
                    show(figure)
    except RigError as error:
        print(error)


def _start(rig: Rig) -> Iterator[Figure]:
    """From the start of the program to the first sound of the question, said before."""
    with tempfile.TemporaryDirectory() as home:
        _prepare(Path(home), (57,), (8,))
        times = []
        for _ in range(TIMES + 1):
            began_ms = rig.clock.since_start_ms()
            with program_on(rig, Path(home), *BY_VOICE) as program:
                times.append(_first_sound_ms(program, began_ms) - began_ms)
            _quiet(rig)
    yield Figure("start to first sound", [ms / 1000 for ms in times[1:]], "s", 1.5)


def _cuts(rig: Rig) -> Iterator[Figure]:
    with tempfile.TemporaryDirectory() as home:
        _prepare(Path(home), (57,), (8,))
        with program_on(rig, Path(home), *BY_VOICE) as program:
            program.wait_for_kind("listen", 20)
            _quiet(rig)
            cuts: list[Cut] = [said_again_and_cut(program, 250 + 17 * number) for number in range(TIMES)]
    yield Figure("key to silence", [cut.to_silence_ms for cut in cuts], "ms", 60)
    yield Figure("key to first sound", [cut.to_sound_ms for cut in cuts], "ms", 60)


def _replies(rig: Rig) -> Iterator[Figure]:
    """Right answers, all said back; none a bare ten, which may go on and is waited for longer."""
    with tempfile.TemporaryDirectory() as home:
        starts, amounts = (47, 58, 37, 29, 65), (4, 6, 7, 9)
        _prepare(Path(home), starts, amounts, f"after_number_ms = {END_PAUSE_MS}\nsaid_back_ms = 300")
        late: list[float] = []
        answers = 0
        with program_on(rig, Path(home), *BY_VOICE) as program:
            question = _Question()
            while len(late) < TIMES - 1:  # after the last one the program ends
                program.wait_for(question.is_open, 20)
                asked = Sum(starts[question.row], amounts[question.column])
                reply_ms = _reply_ms(program, asked)
                answers += 1
                heard = program.wait_for_kind("heard", 5)
                if heard["number"] == asked.total and reply_ms is not None:
                    late.append(reply_ms - END_PAUSE_MS)
        print(f"answers said for the next figure {answers}, said back as they were said {len(late)}")
    usual_ms = Waits().after_number_ms
    assert usual_ms
    yield Figure("end of speech to the reply, beyond the end pause", late, "ms", 120)
    yield Figure("  the whole of it with the usual end pause", [usual_ms + ms for ms in late], "ms")
    fixed = [FIXED_SILENCE_MS + ms for ms in late]
    yield Figure("  the whole of it after a fixed silence (computed)", fixed, "ms")


class _Question:
    """Follows the log to where the ear is open for an answer, and not in the pause after what was said back."""

    row = column = 0
    _about = ""

    def is_open(self, line: Line) -> bool:
        match line["kind"]:
            case "ask":
                self.row, self.column = line["row"], line["column"]
            case "say":
                self._about = line["about"]
            case _:
                pass
        return line["kind"] == "listen" and self._about != "said-back"


def _reply_ms(program: Program, asked: Sum) -> float | None:
    """From the last sound of the answer to the first of what is said back; None where nothing is."""
    rig = program.rig
    asked_ms = rig.clock.since_start_ms()
    program.says(words(asked.answer_to(Part.WHOLE)))
    begun_ms = rig.pupil.first_sound_ms(asked_ms)
    assert begun_ms is not None
    ended_ms = rig.pupil.silent_from_ms(begun_ms, for_ms=450)
    assert ended_ms is not None
    reply_ms = rig.tool.first_sound_ms(ended_ms + 100)
    return None if reply_ms is None else reply_ms - ended_ms


def _barging_in(rig: Rig) -> Iterator[Figure]:
    """With a headset, the pupil speaks while the tool does: "say that again", which begins it anew each time."""
    with tempfile.TemporaryDirectory() as home:
        _prepare(Path(home), (57,), (8,), more="[sound]\ncues = false\nheadset = true\n")
        times = []
        with program_on(rig, Path(home), *BY_VOICE) as program:
            began_ms: float = rig.clock.since_start_ms()
            program.wait_for_kind("listen", 20)
            for number in range(TIMES):
                begun_ms = _first_sound_ms(program, began_ms)
                rig.tool.wait_until_ms(begun_ms + 150 + 17 * number)
                asked_ms = rig.clock.since_start_ms()
                program.says("say that again")
                spoke_ms = rig.pupil.first_sound_ms(asked_ms)
                silent_ms = rig.tool.silent_from_ms(begun_ms)
                assert spoke_ms is not None
                assert silent_ms is not None
                times.append(silent_ms - spoke_ms)
                began_ms = silent_ms + 50
    yield Figure("pupil's speech to silence, with a headset", times, "ms", 250)


def _blocking_say(rig: Rig) -> Iterator[Figure]:
    """pyttsx3 as it plays by itself: from the request to sound, and from a key in the middle to silence."""
    phrase = "Fifty-seven add eight."
    with tempfile.TemporaryDirectory() as folder:
        player = Path(folder) / "aplay"
        player.write_text(PLAYER)
        player.chmod(0o755)
        process = subprocess.Popen(
            [sys.executable, "-c", PYTTSX3],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env={**rig.environment, "PATH": f"{folder}:{os.environ['PATH']}"},
        )
        assert process.stdin
        assert process.stdout
        assert process.stdout.readline()
        to_sound, to_silence = [], []
        for number in range(TIMES):
            asked_ms = rig.clock.since_start_ms()
            process.stdin.write(f"{phrase}\n".encode())
            process.stdin.flush()
            begun_ms = rig.tool.first_sound_ms(asked_ms)
            assert begun_ms is not None, "pyttsx3 is not heard"
            pressed_ms = begun_ms + 250 + 17 * number
            silent_ms = rig.tool.silent_from_ms(begun_ms)
            assert silent_ms is not None
            to_sound.append(begun_ms - asked_ms)
            to_silence.append(silent_ms - pressed_ms)
        process.kill()
        process.communicate()
    yield Figure("pyttsx3's own say: request to first sound", to_sound, "ms")
    yield Figure("pyttsx3's own say: a key in the middle to silence", to_silence, "ms")


def _prepare(home: Path, starts: tuple[int, ...], amounts: tuple[int, ...], waits: str = "", more: str = "") -> None:
    more = more or "[sound]\ncues = false\n"
    (home / "settings.toml").write_text(f"{more}[waits]\n{waits}\n")
    (home / "oars.toml").write_text(f'title = "Oars"\nadd = {list(amounts)}\nstart = {list(starts)}\n')
    assert pupil_phrase(words(starts[0]))


def _first_sound_ms(program: Program, after_ms: float) -> float:
    first_ms = program.rig.tool.first_sound_ms(after_ms, within_ms=15_000)
    assert first_ms is not None, f"nothing is heard; said was {program.said()}"
    return first_ms


def _quiet(rig: Rig) -> None:
    rig.tool.silent_from_ms(rig.clock.since_start_ms(), for_ms=600)
