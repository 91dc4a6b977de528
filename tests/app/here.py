"""The command in this process, where starting one of its own would prove nothing more."""

import pytest

from saythesum.app.cli.main import main
from tests.app.command import Done


def asked(capture: pytest.CaptureFixture[str], *words: str) -> Done:
    capture.readouterr()
    try:
        code = main(words)
    except SystemExit as end:  # how argparse ends after --help
        assert isinstance(end.code, int)
        code = end.code
    shown, told = capture.readouterr()
    return Done(code, shown.splitlines(), told.splitlines())
