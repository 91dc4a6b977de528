from pathlib import Path

import pytest

from tests.app.command import Person


@pytest.fixture
def person(tmp_path: Path) -> Person:
    return Person(tmp_path)
