"""Runs Debian's Orca beside any other of this user's: without its check for one, under another process name."""

import sys
from pathlib import Path

ORCA = "/usr/bin/orca"
source = Path(ORCA).read_text(encoding="utf-8")
for theirs, ours in (("if otherOrcas():", "if False:"), ("setProcessName('orca')", "setProcessName('orca-test')")):
    assert theirs in source, f"another Orca: it has no {theirs!r}"
    source = source.replace(theirs, ours)
sys.argv = ["orca", *sys.argv[1:]]
exec(compile(source, ORCA, "exec"), {"__name__": "__main__", "__file__": ORCA})  # noqa: S102
