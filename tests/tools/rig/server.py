"""A room without hardware: a private PulseAudio server with two sinks that play into nothing.

`tool` is what saythesum speaks into; a recorder listens to it. `pupil` is what the made-up pupil speaks into; its
monitor is the tool's microphone. Needs the Debian packages pulseaudio, libasound2-plugins and libportaudio2; works as
root too. Sound moves in blocks of 100 ms there: smaller ones came out silent.
"""

import os
import shutil
import signal
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import Self

import numpy as np

from saythesum.app.setup.clock import RealClock
from saythesum.ports import Sound
from tests.tools.rig.monitors import RATE_HZ, Monitor

PACKAGES = "apt-get install pulseaudio libasound2-plugins libportaudio2"
SERVED_AS = "-n --daemonize=no --exit-idle-time=20 --use-pid-file=no --realtime=no"
"""It ends by itself soon after its recorders have, should the tests be killed."""
PLAYED_AS = "--raw --format=float32le --channels=1"
STARTS_WITHIN_S = 15
ALSA_CONFIG = """
pcm.!default { type pulse }
ctl.!default { type pulse }
"""


class RigError(Exception):
    """The rig cannot start: the sentence says what is missing."""


class Rig:
    """Used in a `with`. `environment` is for a child process whose sound shall go through the rig."""

    tool: Monitor
    pupil: Monitor

    def __init__(self) -> None:
        self.clock = RealClock()
        self._folder = Path(tempfile.mkdtemp(prefix="rig-"))
        (self._folder / "pulse").mkdir(mode=0o700)
        (self._folder / ".asoundrc").write_text(ALSA_CONFIG)
        inherited = {name: value for name, value in os.environ.items() if not name.startswith(("PULSE", "ALSA"))}
        place = str(self._folder)
        self.environment = {
            **inherited,
            "HOME": place,
            "XDG_RUNTIME_DIR": place,
            "XDG_CONFIG_HOME": place,
            "PULSE_RUNTIME_PATH": f"{place}/pulse",
            "PULSE_SERVER": f"unix:{place}/pulse/native",
        }
        self._server: subprocess.Popen[bytes] | None = None
        self._speakers: list[subprocess.Popen[bytes]] = []

    def __enter__(self) -> Self:
        try:
            self.come_back()
            self._warm_up()
        except BaseException:
            self.__exit__(None, None, None)
            raise
        return self

    def __exit__(
        self, _kind: type[BaseException] | None, _error: BaseException | None, _trace: TracebackType | None
    ) -> None:
        self.lose()
        shutil.rmtree(self._folder, ignore_errors=True)

    def lose(self) -> None:
        """Every device is gone, at once."""
        if self._server:
            self._server.kill()
            self._server.wait()
            self._server = None
        for monitor in (getattr(self, "tool", None), getattr(self, "pupil", None)):
            if monitor:
                monitor.close()
        for speaker in self._speakers:
            speaker.kill()
            speaker.wait()
        self._speakers.clear()

    def hang(self) -> None:
        """The server is there and answers nobody, until it is lost."""
        assert self._server
        self._server.send_signal(signal.SIGSTOP)

    def come_back(self) -> None:
        """Raises RigError."""
        for tool in ("pulseaudio", "pactl", "parec", "pacat"):
            if shutil.which(tool) is None:
                raise RigError(f"The sound rig cannot start: there is no {tool} here; put it there with: {PACKAGES}")
        log = self._folder / "server.log"
        loads = [f"--load=module-native-protocol-unix socket={self._folder}/pulse/native"]
        loads += [f"--load=module-null-sink sink_name={name} rate={RATE_HZ} channels=1" for name in ("tool", "pupil")]
        with log.open("wb") as stream:
            self._server = subprocess.Popen(
                [
                    "pulseaudio",
                    *SERVED_AS.split(),
                    *loads,
                ],
                env=self.environment,
                stderr=stream,
            )
        self._wait_for_server(log)
        self._control("set-default-sink", "tool")
        self._control("set-default-source", "pupil.monitor")
        self.tool = Monitor("tool", self.environment, self.clock)
        self.pupil = Monitor("pupil", self.environment, self.clock)

    def add_sink(self, name: str) -> None:
        """One more loudspeaker."""
        self._control("load-module", "module-null-sink", f"sink_name={name}", f"rate={RATE_HZ}", "channels=1")

    def remove_sink(self, name: str) -> None:
        """As when it is unplugged: the server moves to another one what plays on it."""
        for module in self._asked("list", "short", "modules").splitlines():
            if f"sink_name={name} " in module:
                self._control("unload-module", module.split()[0])

    def renew_tool(self) -> None:
        """The sink that was removed is plugged in again, as the default."""
        self.add_sink("tool")
        self._listen_to_tool()

    @contextmanager
    def loudspeaker_in_the_room(self, leak_db: int) -> Iterator[None]:
        """No headset: what the tool plays is in its microphone, too, so much louder or quieter, without delay."""
        self.remove_sink("tool")
        into_room = self._asked("load-module", "module-remap-sink", "sink_name=tool", "master=pupil", "remix=no")
        inputs = self._asked("list", "sink-inputs").split("\n\n")
        (number,) = [each.split("#")[1].split()[0] for each in inputs if f"Owner Module: {into_room}\n" in each]
        self._control("set-sink-input-volume", number, f"{leak_db}dB")
        self._listen_to_tool()
        try:
            yield
        finally:
            self._control("unload-module", into_room)
            self.renew_tool()

    def _listen_to_tool(self) -> None:
        self.tool.close()
        self._control("set-default-sink", "tool")
        self.tool = Monitor("tool", self.environment, self.clock)
        self.tool.wait_until_on()

    def play_as_pupil(self, sound: Sound) -> None:
        """Returns at once; `pupil` knows when it is heard."""
        self._play(sound, "pupil")

    def _play(self, sound: Sound, sink: str) -> None:
        speaker = subprocess.Popen(
            ["pacat", f"--device={sink}", f"--rate={sound.rate_hz}", *PLAYED_AS.split()],
            env=self.environment,
            stdin=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
        )
        self._speakers.append(speaker)
        assert speaker.stdin
        with speaker.stdin as stream:
            stream.write(sound.samples.astype("<f4").tobytes())

    def _wait_for_server(self, log: Path) -> None:
        assert self._server
        deadline_ms = self.clock.since_start_ms() + STARTS_WITHIN_S * 1000
        while self._server.poll() is None and self.clock.since_start_ms() < deadline_ms:
            asked = subprocess.run(["pactl", "info"], env=self.environment, capture_output=True, check=False)
            if asked.returncode == 0:
                return
        said = log.read_text(errors="replace").strip().splitlines()
        raise RigError(f"The sound rig cannot start: PulseAudio does not answer ({said[-1] if said else 'no reason'}).")

    def _control(self, *words: str) -> None:
        self._asked(*words)

    def _asked(self, *words: str) -> str:
        done = subprocess.run(["pactl", *words], env=self.environment, check=True, capture_output=True, text=True)
        return done.stdout.strip()

    def _warm_up(self) -> None:
        """A tone into each sink must come out of its monitor: the first sound after a start is sometimes lost."""
        waiting = {"tool": self.tool, "pupil": self.pupil}
        for _ in range(3):
            asked_ms = self.clock.since_start_ms()
            for name in waiting:
                self._play(made_tone(300), name)
            for name, monitor in tuple(waiting.items()):
                if monitor.first_sound_ms(asked_ms) is not None:
                    monitor.silent_from_ms(asked_ms)
                    del waiting[name]
        if waiting:
            raise RigError(
                f"The sound rig cannot start: a tone played into {' and '.join(waiting)} is not heard there."
            )


def made_tone(ms: int, hz: float = 440.0, rate_hz: int = RATE_HZ) -> Sound:
    times = np.arange(ms * rate_hz // 1000) / rate_hz
    return Sound((0.3 * np.cos(2 * np.pi * hz * times)).astype(np.float32), rate_hz)
