"""`python -m tests.desk.one_save HOME`: a form of three settings is sent once, to be killed in the middle of it."""

import sys
from pathlib import Path

from tests.desk.application import Application

CHOSEN = {"speech__rate_wpm": "170", "wording__length": "full", "waits__said_back_ms": "2.5"}
KEPT = {"speech.rate_wpm": 170, "wording.length": "full", "waits.said_back_ms": 2500}

if __name__ == "__main__":
    answer = Application(Path(sys.argv[1])).sends("/pupils/rk-7/settings", **CHOSEN)
    sys.exit(0 if answer.status_code == 303 else 1)
