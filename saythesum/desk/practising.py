"""Starting a pupil's practice beside the desk: a process of its own, which goes on when the desk has ended."""

import subprocess
import tempfile
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Protocol

from saythesum.desk.beside import start_beside
from saythesum.store.lock import somebody_practises

BEGINS_WITHIN_S = 15.0
"""A slow laptop loads its window, voice and listening in less. Our own choice."""
LOOKS_EVERY_S = 0.1
LONGEST_REASON = 600
_ENDED = "The practice ended as soon as it had begun."


class Begins(Protocol):
    def begin(self, words: Sequence[str]) -> str | None:
        """`words`: what follows `practise` on the command line. A sentence where it did not begin, and why."""


@dataclass(frozen=True, slots=True)
class RealPractice:
    """With the display, the sound and the records of the desk."""

    data: Path
    one_folder: Path | None
    """Where everything lives in one folder, that one."""
    has_display: bool

    def begin(self, words: Sequence[str]) -> str | None:
        if somebody_practises(self.data):
            return "Somebody is practising already: end that practice first. Only one at a time can keep the answers."
        if not self.has_display:
            return "There is no screen here to open the practice on: start the desk on the computer's own desktop."
        with tempfile.TemporaryFile() as told:
            try:
                practice = start_beside(["practise", *words], self.one_folder, told)
            except OSError as error:
                return f"The practice cannot be started ({error.strerror})."
            return self._trouble(practice, told)

    def _trouble(self, practice: "subprocess.Popen[bytes]", told: IO[bytes]) -> str | None:
        """None once it has the records, or when it takes long and still lives."""
        for _ in range(round(BEGINS_WITHIN_S / LOOKS_EVERY_S)):
            if practice.poll() is not None:
                told.seek(0)
                why = told.read(LONGEST_REASON).decode("utf-8", "replace").split("\n")
                return " ".join([_ENDED, *filter(None, why)])
            if somebody_practises(self.data):
                return None
            time.sleep(LOOKS_EVERY_S)
        return None
