"""A few of the damages of `python -m tests.tools.damage`, which makes hundreds."""

import shutil
from pathlib import Path

import pytest

from tests.tools.damage import damage_something, looked_at, make_home, rows_in


@pytest.fixture(scope="module", params=[False, True], ids=["closed", "killed"])
def made(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    home = tmp_path_factory.mktemp("made") / "home"
    make_home(home, is_killed=request.param)
    return home


@pytest.mark.parametrize("seed", range(8))
def test_damage_ends_no_practice_and_no_row_is_lost_in_silence(seed: int, made: Path, tmp_path: Path) -> None:
    whole = made.parent / "whole"
    if not whole.exists():
        shutil.copytree(made, whole)  # to look at: reading folds a log that a kill left into the file
    home = tmp_path / "home"
    shutil.copytree(made, home)
    found = looked_at(home, rows_in(whole), damage_something(home, seed))
    assert (found.code, found.is_practised, found.altered) == (0, True, 0), found
    assert found.outcome != "unnoticed", found
