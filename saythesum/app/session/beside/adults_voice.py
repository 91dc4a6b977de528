"""The adult's list, said on a loudspeaker of their own by a process of its own, which no sound of the pupil's shares.

A sound server is asked for the streams of a process: so neither stream can be taken for the other.
"""

import json
import os
import subprocess
import sys
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from threading import Thread

from saythesum.app.session.beside.changed_lines import ChangedLines

CLOSES_WITHIN_S = 2
PROGRAM = "saythesum.app.session.beside.voice_process"


class AdultsVoice:
    """Used by one thread. Where the process ends, nothing more is said; the list stands in window and terminal."""

    def __init__(self, pupil: str, one_folder: Path | None, tell: Callable[[str], None]) -> None:
        """`pupil`: by whose settings it speaks; `tell`: gets a sentence for each trouble, from another thread.

        Raises OSError.
        """
        own = {"SAYTHESUM_HOME": str(one_folder)} if one_folder else {}
        self._lines = ChangedLines()
        self._process = subprocess.Popen(  # noqa: S603 - our own program
            [sys.executable, "-m", PROGRAM, pupil],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env=os.environ | own,
            text=True,
        )
        self._thread = Thread(target=self._pass_on, args=(tell,), name="adult's voice", daemon=True)
        self._thread.start()

    def tell(self, lines: tuple[str, ...]) -> None:
        """The list as it is shown now; none once the turn is given back. Cuts what is being said."""
        assert self._process.stdin
        with suppress(OSError):  # it has ended, which it said why
            self._process.stdin.write(json.dumps(self._lines.to_say(lines)) + "\n")
            self._process.stdin.flush()

    def close(self) -> None:
        assert self._process.stdin
        with suppress(OSError):
            self._process.stdin.close()
        try:
            self._process.wait(CLOSES_WITHIN_S)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait()
        self._thread.join()

    def _pass_on(self, tell: Callable[[str], None]) -> None:
        assert self._process.stdout
        with self._process.stdout as told:
            for sentence in told:
                tell(sentence.rstrip("\n"))
