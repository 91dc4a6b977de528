"""All checks, in order: `python -m tests.check`. Stops at the first that fails."""

import subprocess
import sys
from pathlib import Path

TOP = Path(__file__).resolve().parent.parent
CHECKS = (
    ("format", ["-m", "ruff", "format", "--check", "."]),
    ("lint", ["-m", "ruff", "check", "."]),
    ("types", ["-m", "mypy"]),
    ("rooms", ["-c", "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports())"]),
    ("tests", ["-m", "pytest", "-m", "not rig", "--numprocesses", "auto", "--dist", "worksteal"]),
    ("tests on the rig, alone and last", ["-m", "pytest", "-m", "rig"]),
)


def main() -> int:
    for name, command in CHECKS:
        print(f"== {name}", flush=True)
        done = subprocess.run([sys.executable, *command], cwd=TOP, check=False)
        if done.returncode:
            print(f"== {name}: failed")
            return done.returncode
    print("== all checks passed")
    return 0


if __name__ == "__main__":
    sys.exit(main())
