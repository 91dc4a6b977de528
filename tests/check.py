"""All checks: `python -m tests.check`. Stops at the first that fails, in the order in which they fail fastest.

`--quick` leaves out what starts the program, listens to speech or needs devices: format, lint, types, rooms, unit tests
and stories.
"""

import argparse
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path

TOP = Path(__file__).resolve().parent.parent
OWN_NETWORKS = (("unshare", "--net"), ("unshare", "--user", "--map-current-user", "--keep-caps", "--net"))
"""Commands for a network namespace without any route; the first needs the rights of root."""
TO_ITSELF = (sys.executable, "-m", "tests.loopback")
"""What lets the machine reach itself there, as the desk needs it."""
_TYPES_ON = ("-m", "mypy", "--package", "saythesum", "--platform")
"""Of the program only: the tests run where they run."""
STATIC = (
    ("format", ("-m", "ruff", "format", "--check", ".")),
    ("lint", ("-m", "ruff", "check", ".")),
    ("rooms", ("-c", "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports())")),
)
ON_ALL_CORES = ("-m", "pytest", "-m", "not rig", "--numprocesses", "auto", "--dist", "worksteal")
UNITS = (
    *(f"tests/{room}" for room in ("core", "learner", "dialogue", "keyboard", "wording", "scene", "stories", "store")),
    "tests/ports",
    "tests/app/session/speech/test_speech_queue.py",
    "tests/test_docs.py",
    "tests/test_settings.py",
    "tests/test_toml_problems.py",
)
TYPES = ("-m", "mypy")
QUICK = (*STATIC, ("types", TYPES), ("unit tests and stories", (*ON_ALL_CORES, *UNITS)))
ALL = (
    *STATIC,
    (
        "types here, on Windows and on macOS",
        TYPES,
        (*_TYPES_ON, "win32", "--cache-dir", ".mypy_cache/win32"),
        (*_TYPES_ON, "darwin", "--cache-dir", ".mypy_cache/darwin"),
    ),
    ("tests", ON_ALL_CORES),
    ("tests on the rig, alone and last", ("-m", "pytest", "-m", "rig")),
)
"""A name, and commands that run at once: mypy works on one core."""


def without_network() -> Sequence[str]:
    """What to put before a command so that there is no network for it. Empty where this machine permits none of it."""
    for command in OWN_NETWORKS:
        try:
            done = subprocess.run([*command, *TO_ITSELF, "true"], cwd=TOP, capture_output=True, check=False)
        except OSError:
            continue
        if done.returncode == 0:
            print(f"== no network: everything runs under {' '.join(command)}")
            return (*command, *TO_ITSELF)
    print("== no network namespace is permitted here: everything runs with the network that there is")
    return ()


def main(words: Sequence[str] | None = None) -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.check", description="Check everything.")
    parser.add_argument("--quick", action="store_true", help="only what takes a minute or so")
    checks = QUICK if parser.parse_args(words).quick else ALL
    with tempfile.TemporaryDirectory(prefix="saythesum-check-") as compiled:
        return _run(checks, compiled)


def _run(checks: Sequence[tuple[str, *tuple[Sequence[str], ...]]], compiled: str) -> int:
    """`compiled`: a folder for what Python compiles, as many tests start the program anew."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    apart = without_network()
    environment = {**kept, "PYTHONPYCACHEPREFIX": compiled}
    for name, *commands in checks:
        print(f"== {name}", flush=True)
        began = time.perf_counter()
        running = [
            subprocess.Popen([*apart, sys.executable, *command], cwd=TOP, env=environment) for command in commands
        ]
        failed = [process.returncode for process in running if process.wait()]
        print(f"== {name}: {time.perf_counter() - began:.0f} s", flush=True)
        if failed:
            print(f"== {name}: failed")
            return failed[0]
    print("== all checks passed")
    return 0


if __name__ == "__main__":
    sys.exit(main())
