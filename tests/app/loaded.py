"""The command in a process of its own that need not load the program: it is forked from one that has.

As `python -m saythesum` in all else: its folder, environment, standard input and output, its exit code.
"""

import os
import sys
from collections.abc import Mapping, Sequence
from importlib import import_module
from multiprocessing import get_context
from pathlib import Path
from subprocess import TimeoutExpired
from tempfile import TemporaryDirectory

from saythesum.app.cli.main import VERBS

_FORKED = get_context("forkserver")
_FORKED.set_forkserver_preload(["tests.app.loaded", *(f"saythesum.app.cli.{module}" for module in VERBS.values())])


def run_loaded(
    words: Sequence[str], given: bytes, folder: Path, environment: Mapping[str, str], at_most_s: float
) -> tuple[int, bytes, bytes]:
    """The exit code, standard output and standard error. Raises TimeoutExpired."""
    with TemporaryDirectory() as streams:
        (Path(streams) / "0").write_bytes(given)
        process = _FORKED.Process(target=_run, args=(words, folder, dict(environment), streams))
        process.start()
        process.join(at_most_s)
        if process.exitcode is None:
            process.kill()
            process.join()
            raise TimeoutExpired(words, at_most_s)
        return (process.exitcode, *((Path(streams) / name).read_bytes() for name in "12"))  # type: ignore[return-value]


def _run(words: Sequence[str], folder: Path, environment: Mapping[str, str], streams: str) -> None:
    os.environ.clear()
    os.environ.update(environment)
    os.chdir(folder)
    for number, flags in enumerate((os.O_RDONLY, os.O_WRONLY | os.O_CREAT, os.O_WRONLY | os.O_CREAT)):
        os.dup2(os.open(f"{streams}/{number}", flags), number)
    sys.stdin = os.fdopen(0, encoding=sys.stdout.encoding, errors=sys.stdout.errors, closefd=False)
    sys.argv = ["saythesum", *words]
    sys.exit(import_module("saythesum.__main__").main())
