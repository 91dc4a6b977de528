"""Plain lines to the person at the terminal: no boxes, no colour, nothing that moves."""

import sys


def show(line: str) -> None:
    """What the command is for. A reader that has gone away is no fault."""
    print(line, flush=True)  # noqa: T201


def tell(sentence: str) -> None:
    """What is wrong or missing, beside the work."""
    print(sentence, file=sys.stderr, flush=True)  # noqa: T201
