"""The word game on the rig: the program as a person starts it, and a made-up pupil who answers by voice."""

import subprocess
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

from saythesum.app.rehearsal.recorded_phrases import pupil_phrase
from saythesum.ports import Samples, Sound
from saythesum.wording.speak import said_word_game as say
from tests.app.command import COMMAND, TOP
from tests.tools.rig.server import Rig

YES_OR_NO = (say.MAY_I_KEEP, say.MAY_I_KEEP_AGAIN, say.NO_MORE, say.STOP_TODAY)

LONGER_THAN_A_FULL_STOP_MS = 700

Voice = Callable[[Samples], Samples]


def as_recorded(samples: Samples) -> Samples:
    return samples


@dataclass
class Child:
    """Says what it is asked to, a little quicker or slower each time. `says` has what comes in place of that by the
    question, once each; `brother_at` the questions to which somebody else's voice answers."""

    rig: Rig
    voice: Voice = as_recorded
    says: dict[str, str] = field(default_factory=dict)
    brothers: Voice = as_recorded
    brother_at: Sequence[str] = ()
    babble: Sound | None = None
    """What is going on in the room from its first sentence on."""
    _times: int = 0

    def hears(self, line: str, begun_ms: float) -> None:
        """A line that was shown, and is being said."""
        if line == say.ROOM and self.babble:
            self.rig.play_as_pupil(self.babble)
        if not (line in YES_OR_NO or any(asked in line for asked in ("Say: ", "And again: ", "once more: "))):
            return
        started_ms = self.rig.tool.first_sound_ms(begun_ms, within_ms=20_000)
        assert started_ms is not None, f"{line!r} is not heard"
        assert self.rig.tool.silent_from_ms(started_ms, for_ms=LONGER_THAN_A_FULL_STOP_MS, within_ms=20_000) is not None
        reply = self.says.pop(line, "yes" if line in YES_OR_NO else line.rstrip(".").split(": ")[-1])
        sound = pupil_phrase(reply)
        assert sound, f"{reply} was never recorded"
        voice = self.brothers if line in self.brother_at else self.voice
        self._times += 1
        pace = (1.0, 1.05, 0.96)[self._times % 3]
        at = np.arange(0, len(sound.samples) - 1, pace)
        paced = np.interp(at, np.arange(len(sound.samples)), sound.samples).astype(np.float32)
        self.rig.play_as_pupil(Sound(voice(paced), sound.rate_hz))


@dataclass(frozen=True, slots=True)
class Game:
    code: int
    shown: list[str]
    seconds: float
    """From the first sentence to the last line."""


def game_on(rig: Rig, home: Path, child: Child, *words: str) -> Game:
    """`saythesum check --words WORDS`, to its end."""
    environment: Mapping[str, str] = {
        **{name: value for name, value in rig.environment.items() if "DISPLAY" not in name},
        "SAYTHESUM_HOME": str(home),
        "PYTHONPATH": str(TOP),
    }
    program = subprocess.Popen(
        [*COMMAND, "check", "--words", *words],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        text=True,
        cwd=home,
        env=environment,
    )
    shown: list[str] = []
    begun_ms = None
    assert program.stdout
    try:
        for line in program.stdout:
            now_ms = rig.clock.since_start_ms()
            shown.append(line.strip())
            if shown[-1] == say.ROOM:
                begun_ms = now_ms
            child.hears(shown[-1], now_ms)
        code = program.wait(10)
    finally:
        program.kill()
        program.wait()
    ended_ms = rig.clock.since_start_ms()
    return Game(code, shown, (ended_ms - (begun_ms if begun_ms is not None else ended_ms)) / 1000)
