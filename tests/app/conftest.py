from pathlib import Path

import pytest

from tests.app.command import Person


@pytest.fixture
def person(tmp_path: Path) -> Person:
    return Person(tmp_path)


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where settings and records are while the command runs in this process; files are named from there."""
    monkeypatch.setenv("SAYTHESUM_HOME", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def capture(home: Path, capsys: pytest.CaptureFixture[str]) -> pytest.CaptureFixture[str]:
    """What is written, at home."""
    return capsys
