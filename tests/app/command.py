"""The command as a person starts it: a process of its own, with records of its own."""

import os
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from tests.app.loaded import run_loaded
from tests.log_lines import Line, checked_lines

COMMAND = (sys.executable, "-m", "saythesum")
TOP = Path(__file__).resolve().parents[2]
AT_MOST_S = 60


@dataclass(frozen=True, slots=True)
class Done:
    code: int
    shown: list[str]
    told: list[str]
    """What went to standard error."""


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody with a home of their own for settings, records and logs."""

    home: Path

    def runs(self, *words: str | Path, given: bytes | str = b"", more: Mapping[str, str] | None = None) -> Done:
        """`given` on standard input, which then ends. Fails where anything like a traceback is shown.

        In a process that has the program loaded already, or in one that loads it, where `more` of an environment may
        make a difference to loading.
        """
        given = given.encode() if isinstance(given, str) else given
        asked = [*map(str, words)]
        if set(more or ()) <= {"SAYTHESUM_HOME"}:
            code, out, err = run_loaded(asked, given, self.home, self.environment(more), AT_MOST_S)
        else:
            done = subprocess.run(
                [*COMMAND, *asked],
                input=given,
                capture_output=True,
                check=False,
                timeout=AT_MOST_S,
                cwd=self.home,
                env=self.environment(more),
            )
            code, out, err = done.returncode, done.stdout, done.stderr
        shown, told = out.decode(), err.decode()
        assert "Traceback" not in shown + told, told
        return Done(code, shown.splitlines(), told.splitlines())

    def starts(self, *words: str | Path) -> subprocess.Popen[bytes]:
        """Running, with both ends of its lines open."""
        return subprocess.Popen(
            [*COMMAND, *map(str, words)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            cwd=self.home,
            env=self.environment(),
        )

    def in_a_shell(self, script: str) -> Done:
        """With $SAYTHESUM for the command, where it takes a shell to connect things oddly."""
        command = " ".join(map(str, COMMAND))
        done = subprocess.run(
            ["bash", "-c", script],
            capture_output=True,
            check=False,
            timeout=AT_MOST_S,
            cwd=self.home,
            env=self.environment({"SAYTHESUM": command}),
        )
        shown, told = done.stdout.decode(), done.stderr.decode()
        assert "Traceback" not in shown + told, told
        assert "Exception" not in told, told
        return Done(done.returncode, shown.splitlines(), told.splitlines())

    def environment(self, more: Mapping[str, str] | None = None) -> dict[str, str]:
        """No display, so that no window opens on the screen of whoever runs the tests; and nobody's cache folder."""
        kept = {name: value for name, value in os.environ.items() if name not in ("DISPLAY", "WAYLAND_DISPLAY")}
        ours = {"SAYTHESUM_HOME": str(self.home), "XDG_CACHE_HOME": str(self.home / "cache-of-programs")}
        return {**kept, "PYTHONPATH": str(TOP), **ours, **(more or {})}

    def writes(self, name: str, content: str | bytes) -> Path:
        path = self.home / name
        path.write_bytes(content.encode() if isinstance(content, str) else content)
        return path

    def log(self, name: str = "log.jsonl") -> list[Line]:
        return checked_lines(self.home / name)


def is_one_sentence(told: list[str]) -> bool:
    """One line of plain words; a command to paste may stand at its end."""
    return len(told) == 1 and len(told[0].split()) >= 4 and told[0][-1] not in ":,;"
