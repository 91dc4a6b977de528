"""Another run of the program beside this one, with the same records, that goes on when this one has ended."""

import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import IO

COMMAND = (sys.executable, "-m", "saythesum")


def start_beside(
    words: Sequence[str], one_folder: Path | None, told: IO[bytes] | int = subprocess.DEVNULL
) -> "subprocess.Popen[bytes]":
    """With the display and the sound of this run. `words`: what would follow the command. `one_folder`: where
    everything lives in one folder, that one. `told`: where its sentences about trouble go. Raises OSError.
    """
    return subprocess.Popen(  # noqa: S603 - our own command
        [*COMMAND, *words],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=told,
        env={**os.environ, "SAYTHESUM_HOME": str(one_folder)} if one_folder else None,
        start_new_session=True,
    )
