"""`python -m tests.desk.one_move HOME PRACTICE OF TO`: the form that moves two rows of a practice is sent once, to be
killed in the middle of it.
"""

import sys
from pathlib import Path

from tests.desk.application import Application

if __name__ == "__main__":
    home, practice, of, to = sys.argv[1:]
    answer = Application(Path(home)).sends(f"/pupils/{of}/practices/{practice}/", to=to, first="1", last="2")
    sys.exit(0 if answer.status_code == 303 else 1)
